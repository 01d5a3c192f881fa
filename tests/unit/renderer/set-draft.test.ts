/** Whether something was typed into the form of a set, whatever became known since it was begun. */
import { afterEach, expect, it, vi } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { setForm } from '../../../core/sets/set-form.ts';
import {
  beginSet,
  changeEntry,
  draftOfSet,
  isTypedSet,
  setDraft,
} from '../../../renderer/stations/set/set-draft.ts';

const packsAtHand = vi.hoisted(() => ({ value: [] as unknown[] }));
vi.mock('../../../renderer/store/own-rules.ts', () => ({ packsAtHand }));

afterEach(() => {
  setDraft.value = null;
  packsAtHand.value = [];
});

const isTyped = (): boolean | null => (setDraft.value === null ? null : isTypedSet(setDraft.value));

it('is not typed when it was begun before the rules were read', () => {
  beginSet();
  packsAtHand.value = [...builtInPacks().values()];
  expect(isTyped()).toBe(false);
  changeEntry('welder', 'W. Elder');
  expect(isTyped()).toBe(true);
  changeEntry('welder', ' ');
  expect(isTyped()).toBe(false);
});

it('is not typed when a set is taken up to be corrected, until it says something else', () => {
  const form = setForm.parse({
    name: 'Bridge post 12',
    purpose: 'procedure-qualification',
    rulePackId: 'asme-ix',
    baseMetals: [{ designation: 'SA-36' }],
    documents: [],
    specimenType: 'transverse-flat',
  });
  setDraft.value = draftOfSet(7, form);
  expect(isTyped()).toBe(false);
  changeEntry('base1Heat', 'H-31');
  expect(isTyped()).toBe(true);
});
