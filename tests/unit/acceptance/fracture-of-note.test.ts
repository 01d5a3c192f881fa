import { describe, expect, it } from 'vitest';
import { doubtsOfNote, fractureOfNote } from '../../../core/acceptance/fracture-of-note.ts';
import { fractureNote } from '../../../core/contract/record.ts';

describe('a fracture note', () => {
  it('of earlier versions, with its place and words only, reads as before', () => {
    const note = fractureNote.parse({ place: 'weld-metal', appearance: 'shear', remarks: 'at the root' });
    expect(fractureOfNote(note)).toEqual({ broke: 'weld-metal', appearance: 'shear' });
  });

  it('tells the rules soundness, and which base metal broke, counted from nought there', () => {
    const note = fractureNote.parse({ place: 'base-metal', baseMetal: 2, soundness: 'sound' });
    expect(fractureOfNote(note)).toEqual({ broke: 'base-metal', soundness: 'sound', brokenBaseMetal: 1 });
  });

  it('names no base metal where it broke in the weld', () => {
    expect(fractureOfNote({ place: 'weld-metal', baseMetal: 2 })).toEqual({ broke: 'weld-metal' });
  });

  it('at a stamp or a machining mark is a reason to doubt the test, elsewhere none', () => {
    const at = (atMark: 'stamp-mark' | 'machining-mark') =>
      doubtsOfNote(fractureNote.parse({ place: 'base-metal', atMark }));
    expect(at('stamp-mark')).toEqual([{ code: 'broke-at-stamp-mark' }]);
    expect(at('machining-mark')).toEqual([{ code: 'broke-at-machining-mark' }]);
    expect(doubtsOfNote({ place: 'base-metal' })).toEqual([]);
  });

  // ASTM B557-02a 7.8: a fracture in a punched or scribed mark concerns the elongation, not the strength.
  it('at a gauge mark is no reason to doubt the test, and told to the rules', () => {
    const note = fractureNote.parse({ place: 'weld-metal', atMark: 'gauge-mark' });
    expect(doubtsOfNote(note)).toEqual([]);
    expect(fractureOfNote(note)).toEqual({ broke: 'weld-metal', atGaugeMark: true });
  });

  it('takes discontinuities with their kind and a size that is a length', () => {
    const seen = (size: string) =>
      fractureNote.safeParse({ place: 'weld-metal', discontinuities: [{ kind: 'porosity', size }] }).success;
    expect(seen('1/16 in')).toBe(true);
    for (const wrong of ['2.5', '-1 mm', '3 kN', 'small']) expect(seen(wrong), wrong).toBe(false);
    expect(
      fractureNote.safeParse({ place: 'weld-metal', discontinuities: [{ kind: 'wormhole' }] }).success,
    ).toBe(false);
  });
});
