/** What is chosen at the station Readout and not listened to yet: it stands while one looks elsewhere. */
import { batch, signal } from '@preact/signals';
import type { Source } from '../../../core/contract/source.ts';
import { addressOf } from '../../../core/contract/source-address.ts';
import type { ControlLines } from './control-lines.tsx';
import { type Speech, readoutChoice, simulatedSource } from './readout-choice.ts';
import type { SecondChoice } from './second-instrument.tsx';

const NONE_CHOSEN = { simulated: null, lines: null, registers: null } as const;

/** Null: what was listened to last. */
export const pickedSource = signal<Source | null>(null);
/** Of what the chosen source speaks; what was chosen for another stands until one comes back to it. */
export const pickedProfiles = signal<Readonly<Record<Speech, string | null>>>(NONE_CHOSEN);
/** Null: as the profile has them. */
export const pickedControlLines = signal<ControlLines | null>(null);
export const pickedSecond = signal<SecondChoice | null>(readoutChoice.value.second);

export const chosenSource = (): Source =>
  pickedSource.value ?? readoutChoice.value.source ?? simulatedSource();

/** As it was typed: no whole address stands in it for long. */
export const typedPath = signal(addressOf(chosenSource()) ?? '');

/** From now on what is listened to, or was made for it, is offered. */
export function letGoOfPicked(): void {
  batch(() => {
    pickedSource.value = null;
    pickedProfiles.value = NONE_CHOSEN;
    pickedControlLines.value = null;
    pickedSecond.value = readoutChoice.value.second;
    typedPath.value = addressOf(chosenSource()) ?? '';
  });
}
