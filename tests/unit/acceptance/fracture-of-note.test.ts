import { describe, expect, it } from 'vitest';
import { fractureOfNote } from '../../../core/acceptance/fracture-of-note.ts';
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
