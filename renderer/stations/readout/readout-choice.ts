/** Which readout is being chosen: kept over reloads, so that tomorrow the same port is offered first. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { remember, remembered } from '../../store/remembered.ts';
import {
  type ReadoutChannel,
  type ReadoutProfile,
  expectedUnitOf,
} from '../../../core/contract/readout-profile.ts';
import { controlLinesWords } from './control-lines.tsx';
import { offeredScenario, scenarios } from './scenarios.ts';
import { type ListedPort, type Source, source } from '../../../core/contract/source.ts';
import { addressOf, sourceFromAddress } from '../../../core/contract/source-address.ts';
import { exactFromDecimal } from '../../../core/quantity/exact.ts';
import { told } from '../../words/told.ts';

export const readoutChoiceForm = z.object({
  /** What was listened to last; null until something was. */
  source: source.nullable().catch(null),
  /** By what a source speaks: the profile that was used last. */
  profileNames: z
    .object({ lines: z.string().nullable(), registers: z.string().nullable() })
    .catch({ lines: null, registers: null }),
  /** A second instrument on a port of its own; null where there was none. */
  second: z.object({ path: z.string(), profileName: z.string().nullable() }).nullable().catch(null),
});
type ReadoutChoice = z.infer<typeof readoutChoiceForm>;

const KEY = 'gaugemark.readout';

export const readoutChoice = signal<ReadoutChoice>(
  remembered(KEY, readoutChoiceForm, {
    source: null,
    profileNames: { lines: null, registers: null },
    second: null,
  }),
);

export function keepReadoutChoice(): void {
  remember(KEY, () => readoutChoice.value);
}

/** Blank until the scenarios are known; nothing can be opened then. */
export const simulatedSource = (scenario: string = scenarios.value[0]?.name ?? ''): Source => ({
  kind: 'simulated',
  scenario,
});

export const serialSource = (port: ListedPort): Source => ({
  kind: 'serial',
  path: port.path,
  identity: port.identity,
});

/** What is typed by hand; a port without a path, which can't be opened, as long as it is no whole address. */
export function typedSource(text: string): Source {
  const typed = sourceFromAddress(text);
  return typed.ok ? typed.source : { kind: 'serial', path: '' };
}

export type Speech = 'simulated' | 'lines' | 'registers';

/** Profiles go with what a source speaks, whatever its kind: lines are the same over a cable and over a network. */
export function speechOf({ kind }: Source): Speech {
  if (kind === 'simulated') return 'simulated';
  return kind === 'modbus-rtu' || kind === 'modbus-tcp' ? 'registers' : 'lines';
}

export const speechOfProfile = ({ format }: Pick<ReadoutProfile, 'format'>): Speech =>
  format.kind === 'registers' ? 'registers' : 'lines';

/** What is kept when a readout was opened, or a profile made for it. */
export function choiceMade(before: ReadoutChoice, chosen: Source, profileName: string): ReadoutChoice {
  const speech = speechOf(chosen);
  return {
    ...before,
    source: chosen,
    profileNames:
      speech === 'simulated' ? before.profileNames : { ...before.profileNames, [speech]: profileName },
  };
}

/** Bytes of a file: lines, whatever they came through. */
const LINES_OF_FILE: Source = { kind: 'replay', file: '' };

/**
 * What was learned came from the port of the second instrument, and can stand beside the load; `from` is null where it
 * came from a file.
 */
export function isLearntOfSecond(
  { source: first, second }: ReadoutChoice,
  from: Source | null,
  profile: Pick<ReadoutProfile, 'channels'>,
): boolean {
  if (second === null || from === null || !standsBesideLoad(profile)) return false;
  const place = addressOf(from);
  return addressOf(typedSource(second.path)) === place && (first === null || addressOf(first) !== place);
}

/** What is offered next when a profile has been learned. Where it is the second one's, the first stays as it was chosen. */
export function choiceLearnt(
  before: ReadoutChoice,
  from: Source | null,
  profile: Pick<ReadoutProfile, 'name' | 'channels'>,
): ReadoutChoice {
  if (before.second !== null && isLearntOfSecond(before, from, profile))
    return { ...before, second: { ...before.second, profileName: profile.name } };
  return { ...choiceMade(before, from ?? LINES_OF_FILE, profile.name), source: from ?? before.source };
}

/** What gives a load can't stand beside the load. */
export const standsBesideLoad = ({ channels }: Pick<ReadoutProfile, 'channels'>): boolean =>
  channels.every(({ quantity, peak }) => quantity !== 'force' || peak);

/**
 * A scenario speaks in the profile it names; anything else is offered the one used last with what speaks as it does,
 * else the first that isn't simulated.
 */
export function suggestedProfile(
  profiles: readonly { readonly profile: ReadoutProfile }[],
  chosen: Source,
  last: ReadoutChoice['profileNames'],
): string | null {
  const names = profiles.map((p) => p.profile.name);
  const simulated = scenarios.value.map((s) => s.profileName);
  const speech = speechOf(chosen);
  if (speech === 'simulated') {
    const spoken = chosen.kind === 'simulated' ? offeredScenario(chosen.scenario)?.profileName : undefined;
    return names.find((name) => name === spoken) ?? names[0] ?? null;
  }
  const real = profiles
    .filter(({ profile }) => speechOfProfile(profile) === speech)
    .map(({ profile }) => profile.name)
    .filter((name) => !simulated.includes(name));
  return real.find((name) => name === last[speech]) ?? real[0] ?? names[0] ?? null;
}

/** Scale and offset, where they are others than 1 and 0: " (× 1.002 + 0.05)". */
function factorWords({ scale, offset }: ReadoutChannel): string {
  const isOffset = exactFromDecimal(offset)?.equals(0) === false;
  if (!isOffset && exactFromDecimal(scale)?.equals(1) !== false) return '';
  return ` (× ${scale}${isOffset ? ` ${offset.startsWith('-') ? '−' : '+'} ${offset.replace(/^[+-]/, '')}` : ''})`;
}

/** What a profile does in a few words: "9600 baud 8N1, 3 fields by ',' : force kN, extension mm". */
export function profileWords(profile: ReadoutProfile): string {
  const serial =
    profile.serial === undefined
      ? ''
      : `${String(profile.serial.baudRate)} baud ${String(profile.serial.dataBits)}${profile.serial.parity.charAt(0).toUpperCase()}${String(profile.serial.stopBits)} · `;
  const channels = profile.channels.map((c) => `${told(c.quantity)} ${expectedUnitOf(c)}${factorWords(c)}`);
  const lines = controlLinesWords(profile.controlLines ?? {});
  return `${serial}${channels.join(', ')}${lines === '' ? '' : ` · ${lines}`}`;
}
