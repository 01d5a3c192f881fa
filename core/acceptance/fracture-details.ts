/** What is seen at a fracture beside its place: a mark it ran along, discontinuities in it. In the trade's words. */

import type { Doubt, DoubtCode } from './doubts.ts';

/** A mark that was made on the specimen and at which it broke. */
export const FRACTURE_MARKS = ['gauge-mark', 'stamp-mark', 'machining-mark'] as const;
export type FractureMark = (typeof FRACTURE_MARKS)[number];

/** A stamp or machining mark may have started the fracture; a gauge mark concerns the elongation alone. */
export function doubtsOfMark(mark: FractureMark | undefined): Doubt[] {
  return mark === undefined || mark === 'gauge-mark' ? [] : [{ code: MARK_DOUBT[mark] }];
}

const MARK_DOUBT = {
  'stamp-mark': 'broke-at-stamp-mark',
  'machining-mark': 'broke-at-machining-mark',
} as const satisfies Record<Exclude<FractureMark, 'gauge-mark'>, DoubtCode>;

export const FRACTURE_MARK_WORDS: Readonly<Record<FractureMark, string>> = {
  'gauge-mark': 'at a gauge mark',
  'stamp-mark': 'at a stamp mark',
  'machining-mark': 'at a machining mark',
};

export const DISCONTINUITY_KINDS = [
  'porosity',
  'slag-inclusion',
  'tungsten-inclusion',
  'incomplete-fusion',
  'incomplete-penetration',
  'crack',
  'undercut',
  'lamination',
  'other',
] as const;
export type DiscontinuityKind = (typeof DISCONTINUITY_KINDS)[number];

export const DISCONTINUITY_WORDS: Readonly<Record<DiscontinuityKind, string>> = {
  porosity: 'porosity',
  'slag-inclusion': 'slag inclusion',
  'tungsten-inclusion': 'tungsten inclusion',
  'incomplete-fusion': 'incomplete fusion',
  'incomplete-penetration': 'incomplete penetration',
  crack: 'crack',
  undercut: 'undercut',
  lamination: 'lamination',
  other: 'other discontinuity',
};

/** More are told in the remarks. */
export const DISCONTINUITIES_MAX = 20;
