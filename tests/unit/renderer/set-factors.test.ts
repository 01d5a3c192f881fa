/** When scale and offset can be come by: also while a readout is listened to, never while a record is open. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Bridge } from '../../../core/contract/bridge.ts';
import type { Session } from '../../../core/contract/session.ts';
import { readoutChoice } from '../../../renderer/stations/readout/readout-choice.ts';
import {
  chosenSource,
  letGoOfPicked,
  pickedSource,
} from '../../../renderer/stations/readout/readout-form.ts';
import {
  factorsNotNow,
  setFactors,
  stopsForFactors,
} from '../../../renderer/stations/readout/set-factors.ts';
import { connectStore, learning, session } from '../../../renderer/store/session-store.ts';
import { words } from '../../../renderer/words/words.ts';

/** Where it leads to on the page. */
const ENTRY = { scrollIntoView: () => undefined, focus: () => undefined, querySelector: () => null };
beforeEach(() => {
  vi.stubGlobal('document', { getElementById: () => ENTRY });
  // Whatever it is, the entry is none.
  vi.stubGlobal('HTMLDetailsElement', Map);
});
afterEach(() => {
  vi.unstubAllGlobals();
  session.value = null;
  learning.value = null;
  letGoOfPicked();
});
const PORT = { kind: 'serial', path: '/dev/ttyONE' } as const;

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
  pickedSource.value = PORT;
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

it('not before a port is chosen: then it is said where they will be', () => {
  at('closed', null);
  pickedSource.value = { kind: 'simulated', scenario: 'any' };
  expect(factorsNotNow()).toBe(words.value.learn.factors.portFirst);
  pickedSource.value = null;
  const before = readoutChoice.value;
  readoutChoice.value = { ...before, source: PORT };
  expect(factorsNotNow()).toBeUndefined();
  readoutChoice.value = before;
});

it('not of the simulated frame, nor while a learnt profile is neither kept nor dropped', () => {
  at('listening', 'simulated');
  expect(factorsNotNow()).toBe(words.value.learn.factors.simulated);
  at('listening', 'serial');
  learning.value = { state: 'done' } as typeof learning.value;
  expect(factorsNotNow()).toBe(words.value.learn.factors.learntFirst);
});

it('is chosen when the form of it is there, and not where listening could not be stopped', async () => {
  const SOURCE = { kind: 'serial', path: '/dev/ttyOTHER' };
  let isStopped = false;
  const seen: unknown[] = [];
  const bridge = {
    platform: 'linux',
    on: () => () => undefined,
    request: (name: string) => {
      if (name === 'readout.close') seen.push(readoutChoice.value.source);
      return Promise.resolve(
        isStopped
          ? { ok: true, value: {} }
          : { ok: false, fault: { code: 'refused', sentence: 'It does not stop.' } },
      );
    },
  } as unknown as Bridge;
  const letGo = connectStore(bridge);
  const before = readoutChoice.value;
  const listened = (): void => {
    session.value = {
      state: 'listening',
      readout: { source: SOURCE, profileName: 'made up' },
      pull: { heldOpenS: null },
    } as unknown as Session;
  };
  listened();
  await setFactors();
  expect(readoutChoice.value).toBe(before);
  isStopped = true;
  listened();
  // Picked before, and never listened to.
  pickedSource.value = PORT;
  await setFactors();
  expect(chosenSource()).toEqual(SOURCE);
  expect(readoutChoice.value.source).toEqual(SOURCE);
  expect(seen).toEqual([SOURCE, SOURCE]);
  letGo();
});
