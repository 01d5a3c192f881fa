/** When scale and offset can be come by: also while a readout is listened to, never while a record is open. */
import { afterEach, expect, it } from 'vitest';
import type { Session } from '../../../core/contract/session.ts';
import { factorsNotNow, stopsForFactors } from '../../../renderer/stations/readout/set-factors.ts';
import { learning, session } from '../../../renderer/store/session-store.ts';
import { words } from '../../../renderer/words/words.ts';

afterEach(() => {
  session.value = null;
  learning.value = null;
});

const at = (
  state: Session['state'],
  kind: 'serial' | 'simulated' | null,
  heldOpenS: number | null = null,
) => {
  session.value = {
    state,
    readout: kind === null ? null : { source: { kind } },
    pull: { heldOpenS },
  } as unknown as Session;
};

it('before a readout is opened, and while one is listened to, which is said to stop', () => {
  at('closed', null);
  expect([factorsNotNow(), stopsForFactors()]).toEqual([undefined, false]);
  for (const state of ['listening', 'ended'] as const) {
    at(state, 'serial');
    expect([factorsNotNow(), stopsForFactors()]).toEqual([undefined, true]);
  }
});

it.each(['ready', 'pulling', 'broken', 'stopped'] as const)('not while a record is %s', (state) => {
  at(state, 'serial');
  expect(factorsNotNow()).toBe(words.value.readout.recordingNow);
  // Held open behind its break it would be closed by that.
  at(state, 'serial', 600);
  expect(factorsNotNow()).toBe(words.value.readout.recordingNow);
});

it('not of the simulated frame, nor while a learnt profile is neither kept nor dropped', () => {
  at('listening', 'simulated');
  expect(factorsNotNow()).toBe(words.value.learn.factors.simulated);
  at('listening', 'serial');
  learning.value = { state: 'done' } as typeof learning.value;
  expect(factorsNotNow()).toBe(words.value.learn.factors.learntFirst);
});
