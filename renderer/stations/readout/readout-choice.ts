/** Which readout is being chosen: kept over reloads, so that tomorrow the same port is offered first. */
import { signal } from '@preact/signals';
import { z } from 'zod';
import { remember, remembered } from '../../store/remembered.ts';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { offeredScenario, scenarios } from './scenarios.ts';
import { type ListedPort, type Source, source } from '../../../core/contract/source.ts';

const choiceForm = z.object({
  /** What was listened to last; null until something was. */
  source: source.nullable().catch(null),
  profileName: z.string().nullable().catch(null),
});
type ReadoutChoice = z.infer<typeof choiceForm>;

const KEY = 'gaugemark.readout';

export const readoutChoice = signal<ReadoutChoice>(
  remembered(KEY, choiceForm, { source: null, profileName: null }),
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

/** A scenario speaks in the profile it names; a port is offered the one used last, else the first that isn't simulated. */
export function suggestedProfile(
  profiles: readonly { readonly profile: ReadoutProfile }[],
  chosen: Source,
  lastName: string | null,
): string | null {
  const names = profiles.map((p) => p.profile.name);
  const simulated = scenarios.value.map((s) => s.profileName);
  if (chosen.kind === 'simulated') {
    const spoken = offeredScenario(chosen.scenario)?.profileName;
    return names.find((name) => name === spoken) ?? names[0] ?? null;
  }
  const real = names.filter((name) => !simulated.includes(name));
  return real.find((name) => name === lastName) ?? real[0] ?? names[0] ?? null;
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
