/** What is chosen at the station Readout and not listened to yet: it stands while one looks elsewhere. */
import { batch, computed, signal } from '@preact/signals';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import type { Source } from '../../../core/contract/source.ts';
import { addressOf } from '../../../core/contract/source-address.ts';
import { learning, session } from '../../store/session-store.ts';
import { forgetSteps } from '../../store/taken-back.ts';
import type { ControlLines } from './control-lines.tsx';
import {
  type Speech,
  choiceLearnt,
  isLearntOfSecond,
  readoutChoice,
  simulatedSource,
  speechOfProfile,
} from './readout-choice.ts';
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

/** The form of it is seen at its station: nothing is listened to, nothing learnt waits to be kept. */
export const isReadoutChosen = computed(
  () => (session.value?.readout ?? null) === null && learning.value?.state !== 'done',
);

/** As it was typed: no whole address stands in it for long. */
export const typedPath = signal(addressOf(chosenSource()) ?? '');

/** Offers a profile that was learnt, and the port that it was learnt from; null: from a file, whatever port is picked. */
export function offerLearnt(from: Source | null, profile: ReadoutProfile): void {
  batch(() => {
    const before = readoutChoice.value;
    const isOfSecond = isLearntOfSecond(before, from, profile);
    readoutChoice.value = choiceLearnt(before, from, profile);
    if (isOfSecond) {
      pickedSecond.value = readoutChoice.value.second;
      return;
    }
    pickedProfiles.value = { ...pickedProfiles.value, [speechOfProfile(profile)]: profile.name };
    if (from === null) return;
    pickedSource.value = from;
    pickedControlLines.value = null;
    typedPath.value = addressOf(from) ?? typedPath.value;
  });
}

export interface Picked {
  readonly source: Source | null;
  readonly profiles: Readonly<Record<Speech, string | null>>;
  readonly controlLines: ControlLines | null;
  readonly second: SecondChoice | null;
  readonly path: string;
}

/** All that is picked now, to be picked again after something that picks for itself. */
export const pickedNow = (): Picked => ({
  source: pickedSource.value,
  profiles: pickedProfiles.value,
  controlLines: pickedControlLines.value,
  second: pickedSecond.value,
  path: typedPath.value,
});

export function pickAgain(before: Picked): void {
  batch(() => {
    pickedSource.value = before.source;
    pickedProfiles.value = before.profiles;
    pickedControlLines.value = before.controlLines;
    pickedSecond.value = before.second;
    typedPath.value = before.path;
  });
  forgetSteps(pickedSource);
}

/** From now on what is listened to, or was made for it, is offered. */
export function letGoOfPicked(): void {
  const { source, second } = readoutChoice.value;
  pickAgain({
    source: null,
    profiles: NONE_CHOSEN,
    controlLines: null,
    second,
    path: addressOf(source ?? simulatedSource()) ?? '',
  });
}
