/** Which readout is being chosen: kept over reloads, so that tomorrow the same port is offered first. */
import { effect, signal } from '@preact/signals';
import { z } from 'zod';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { type ListedPort, type Source, source } from '../../../core/contract/source.ts';

const choiceForm = z.object({
  /** What was listened to last; null until something was. */
  source: source.nullable().catch(null),
  profileName: z.string().nullable().catch(null),
});
type ReadoutChoice = z.infer<typeof choiceForm>;

const KEY = 'gaugemark.readout';

function remembered(): ReadoutChoice {
  try {
    return choiceForm.parse(JSON.parse(globalThis.localStorage?.getItem(KEY) ?? ''));
  } catch {
    return { source: null, profileName: null };
  }
}

export const readoutChoice = signal<ReadoutChoice>(remembered());

export function keepReadoutChoice(): void {
  effect(() => globalThis.localStorage?.setItem(KEY, JSON.stringify(readoutChoice.value)));
}

/** The scenario that ships for a first pull. */
export const FIRST_SCENARIO = 'mild-steel-yield-point';

export const simulatedSource = (): Source => ({ kind: 'simulated', scenario: FIRST_SCENARIO });

export const serialSource = (port: ListedPort): Source => ({
  kind: 'serial',
  path: port.path,
  identity: port.identity,
});

/** The simulated frame is offered with the built-in profile that fits it; a port with the one used last. */
export function suggestedProfile(
  profiles: readonly { readonly profile: ReadoutProfile; readonly builtIn: boolean }[],
  chosen: Source,
  lastName: string | null,
): string | null {
  const simulated = profiles.find((p) => p.builtIn && /simulat/i.test(p.profile.name));
  if (chosen.kind === 'simulated') return (simulated ?? profiles[0])?.profile.name ?? null;
  const last = profiles.find((p) => p.profile.name === lastName && p !== simulated);
  return (last ?? profiles.find((p) => p !== simulated) ?? profiles[0])?.profile.name ?? null;
}

/** What a profile does in a few words: "9600 baud 8N1, 3 fields by ',' : force kN, extension mm". */
export function profileWords(profile: ReadoutProfile): string {
  const serial =
    profile.serial === undefined
      ? ''
      : `${String(profile.serial.baudRate)} baud ${String(profile.serial.dataBits)}${profile.serial.parity.charAt(0).toUpperCase()}${String(profile.serial.stopBits)} · `;
  const channels = profile.channels.map(
    (c) => `${c.quantity} ${c.unit.kind === 'fixed' ? c.unit.unit : c.unit.expected}`,
  );
  return `${serial}${channels.join(', ')}`;
}
