/** Whether something was typed into the form of a set, whatever became known since it was begun. */
import { afterEach, expect, it, vi } from 'vitest';
import { setForm } from '../../../core/sets/set-form.ts';
import { packsAtHand } from '../../../renderer/store/own-rules.ts';
import {
  beginSet,
  changeEntry,
  draftOfSet,
  isTypedSet,
  setDraft,
} from '../../../renderer/stations/set/set-draft.ts';

afterEach(() => {
  setDraft.value = null;
  vi.restoreAllMocks();
});

const isTyped = (): boolean | null => (setDraft.value === null ? null : isTypedSet(setDraft.value));

it('is not typed when it was begun before the rules were read', () => {
  const atHand = vi.spyOn(packsAtHand, 'value', 'get').mockReturnValue([]);
  beginSet();
  expect(setDraft.value?.entries.rulePackId).toBe('');
  atHand.mockRestore();
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
