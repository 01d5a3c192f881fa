/**
 * The way to scale and offset from wherever they are missed. They belong to a profile, and one that is listened to isn't
 * chosen any more: listening is stopped first, never while a record is open.
 */
import { open } from '../../doing/reach.ts';
import { say } from '../../design/said.tsx';
import { errand } from '../../store/errand.ts';
import { heldOpen, learning, recording, request, session } from '../../store/session-store.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { choiceMade, readoutChoice } from './readout-choice.ts';
import { chosenSource, letGoOfPicked } from './readout-form.ts';

const stopping = errand();

export const stopsForFactors = (): boolean => (session.value?.readout ?? null) !== null;

/** One sentence why they can't be set now; undefined where they can. */
export function factorsNotNow(): string | undefined {
  const text = words.value.learn.factors;
  // Listening that is stopped would close the record too that is held open behind its break.
  if (recording.value || heldOpen.value) return words.value.readout.recordingNow;
  if (learning.value?.state === 'done') return text.learntFirst;
  if (session.value === null || session.value.readout === null)
    return chosenSource().kind === 'simulated' ? text.portFirst : undefined;
  return session.value.readout.source.kind === 'simulated' ? text.simulated : undefined;
}

export async function setFactors(): Promise<void> {
  if (factorsNotNow() !== undefined) return;
  const readout = session.value?.readout ?? null;
  if (readout !== null) {
    if (stopping.busy.value) return;
    const before = readoutChoice.value;
    // The form is of what is chosen, and somebody else may have opened this one: the command line does. It is there as
    // soon as the session says that nothing is listened to, which may be before the answer: then it must be chosen.
    const chosen = choiceMade(before, readout.source, readout.profileName);
    readoutChoice.value = chosen;
    letGoOfPicked();
    const stopped = await stopping.run(() => request('readout.close', {}));
    if (stopped === null) {
      if (readoutChoice.value === chosen) readoutChoice.value = before;
      if (stopping.fault.value !== null) say(told(stopping.fault.value.sentence));
      return;
    }
  }
  open('readout', 'channel-factors')();
}
