/** What is picked at Readout and not listened to: it stands, gives way to what was learnt, and comes back after the tour. */
import { afterEach, expect, it } from 'vitest';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { readoutChoice } from '../../../renderer/stations/readout/readout-choice.ts';
import {
  chosenSource,
  letGoOfPicked,
  offerLearnt,
  pickAgain,
  pickedNow,
  pickedProfiles,
  pickedSecond,
  pickedSource,
  typedPath,
} from '../../../renderer/stations/readout/readout-form.ts';

const [ONE, TWO] = [
  { kind: 'serial', path: '/dev/ttyONE' },
  { kind: 'serial', path: '/dev/ttyTWO' },
] as const;
const PROFILE = {
  name: 'learnt',
  format: { kind: 'fields' },
  channels: [{ quantity: 'force', peak: false }],
} as unknown as ReadoutProfile;
const BESIDE = {
  ...PROFILE,
  channels: [{ quantity: 'extension', peak: false }],
} as unknown as ReadoutProfile;
const before = readoutChoice.value;
afterEach(() => {
  readoutChoice.value = before;
  letGoOfPicked();
});

it('what was listened to last is offered until something else is picked, and again when that is let go', () => {
  readoutChoice.value = { ...before, source: ONE };
  letGoOfPicked();
  expect([chosenSource(), typedPath.value]).toEqual([ONE, ONE.path]);
  pickedSource.value = TWO;
  expect(chosenSource()).toEqual(TWO);
  letGoOfPicked();
  expect(chosenSource()).toEqual(ONE);
});

it('a profile that was learnt from a port is offered with that port; one from a file with the port that is picked', () => {
  pickedSource.value = ONE;
  offerLearnt(null, PROFILE);
  expect([chosenSource(), pickedProfiles.value.lines]).toEqual([ONE, 'learnt']);
  offerLearnt(TWO, { ...PROFILE, name: 'learnt there' });
  expect([chosenSource(), pickedProfiles.value.lines, typedPath.value]).toEqual([
    TWO,
    'learnt there',
    TWO.path,
  ]);
});

it('one that was learnt from the port of the second instrument leaves the first as it is picked', () => {
  readoutChoice.value = { ...before, source: ONE, second: { path: TWO.path, profileName: null } };
  pickedSource.value = ONE;
  offerLearnt(TWO, BESIDE);
  expect(chosenSource()).toEqual(ONE);
  expect(pickedSecond.value).toEqual({ path: TWO.path, profileName: 'learnt' });
});

it('all that was picked is picked again', () => {
  pickedSource.value = ONE;
  pickedProfiles.value = { ...pickedProfiles.value, lines: 'mine' };
  pickedSecond.value = { path: TWO.path, profileName: 'beside' };
  typedPath.value = 'tcp:10.0';
  const picked = pickedNow();
  letGoOfPicked();
  expect(pickedNow()).not.toEqual(picked);
  pickAgain(picked);
  expect(pickedNow()).toEqual(picked);
});
