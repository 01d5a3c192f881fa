/** What speaks against the calibration of the next pull, asked of the recorder whenever a choice changes. */
import { effect, signal, untracked } from '@preact/signals';
import type { InstrumentsBeforeStart } from '../../core/instruments/pull-instruments.ts';
import { request, session } from '../store/session-store.ts';
import { chosenIds, register } from './register.ts';

/** Null while no readout is open. */
export const beforeStart = signal<InstrumentsBeforeStart | null>(null);

/** The instruments that a pull at the open readout is made with. */
export const instrumentsNow = (): number[] => chosenIds(session.value?.readout?.profileId ?? '');

export async function askBeforeStart() {
  const answer = await request('instrument.before-start', { instruments: instrumentsNow() });
  if (answer.ok) beforeStart.value = answer.value;
  return answer;
}

/** Follows readout, choice and register from now on. Returns what stops it. */
export function followBeforeStart(): () => void {
  let asked = '';
  return effect(() => {
    const readout = session.value?.readout ?? null;
    const about = JSON.stringify([readout?.source, readout?.profileId, instrumentsNow(), register.value]);
    if (readout === null) {
      asked = '';
      beforeStart.value = null;
      return;
    }
    // A session comes several times a second, and seldom with another readout.
    if (about === asked) return;
    asked = about;
    untracked(() => void askBeforeStart());
  });
}
