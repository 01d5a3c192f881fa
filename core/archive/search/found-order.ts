/**
 * In which order pulls are found: one order for the database, for what is held in memory, and where hits of several
 * archives are put together. By value, then by number; what has no value comes last, whichever way.
 *
 * Texts are put in the order of their code points, which is the order of their bytes in UTF-8 and the database's own
 * (BINARY): capitals before small letters, letters with signs on them behind all others. It is the same on every system
 * and in every version, which no order of a language is.
 */
import { FRACTURE_PLACES } from '../../contract/record.ts';
import type { FoundPull, SearchOrder } from '../../contract/search-requests.ts';
import { type OrderColumn, NONE, SORTED_SIGNS_MAX, rankIn, verdictRank } from './tables.ts';

export type Value = string | number;
/** Behind which pull a page begins, by its value and number. */
export type OrderKey = readonly [value: Value, pullId: number];

/** By what a list is sorted, in the database and of a line; null for the order of recording. */
const ORDERED_BY: Record<
  SearchOrder['by'],
  { readonly column: OrderColumn; readonly valueOf: (one: FoundPull) => Value | null } | null
> = {
  kept: null,
  started: { column: 'started', valueOf: (one) => one.datedWallMs },
  specimen: { column: 'specimen', valueOf: (one) => one.specimenName },
  set: { column: 'set_name', valueOf: (one) => one.setName },
  operator: { column: 'operator', valueOf: (one) => one.operator },
  peak: { column: 'peak', valueOf: (one) => one.peakForceN },
  strength: { column: 'strength', valueOf: (one) => one.strengthMpa },
  yield: { column: 'yield', valueOf: (one) => one.yieldMpa },
  elongation: { column: 'elongation', valueOf: (one) => one.elongationPercent },
  verdict: { column: 'verdict_rank', valueOf: (one) => verdictRank(one.verdict, one.questionable) },
  broke: { column: 'place_rank', valueOf: (one) => rankIn(FRACTURE_PLACES, one.place) },
  questionable: { column: 'questionable', valueOf: (one) => Number(one.questionable) },
  readings: { column: 'readings', valueOf: (one) => one.readingCount },
  rules: { column: 'rules', valueOf: (one) => shortened(one.rulePackName) },
  'base-metal': { column: 'base_metal', valueOf: (one) => shortened(one.baseMetal) },
  filler: { column: 'filler', valueOf: (one) => shortened(one.filler) },
  heat: { column: 'heat', valueOf: (one) => shortened(one.heat) },
  'filler-lot': { column: 'filler_lot', valueOf: (one) => shortened(one.fillerLot) },
  welder: { column: 'welder', valueOf: (one) => shortened(one.welder) },
};

/** As `search_value` holds it. */
const shortened = (text: string | null): string | null =>
  text === null || text.length <= SORTED_SIGNS_MAX
    ? text
    : Array.from(text).slice(0, SORTED_SIGNS_MAX).join('');

export const columnOf = (by: SearchOrder['by']): OrderColumn | null => ORDERED_BY[by]?.column ?? null;

/** What a page that ends with this line is gone on behind. */
export function keyOfLine(line: FoundPull, by: SearchOrder['by']): OrderKey {
  const ordered = ORDERED_BY[by];
  if (ordered === null) return [line.pullId, line.pullId];
  return [ordered.valueOf(line) ?? NONE[ordered.column] ?? 0, line.pullId];
}

/** As a request takes it. */
export function keyText(line: FoundPull, by: SearchOrder['by']): string {
  return by === 'kept' ? String(line.pullId) : JSON.stringify(keyOfLine(line, by));
}

/**
 * Lines of several archives, each with the place of its archive among them: below zero where the first comes before.
 * Of the order of recording archives know nothing of each other: one comes behind the other.
 */
export function compareLines({
  by,
  descending,
}: SearchOrder): (a: { line: FoundPull; place: number }, b: { line: FoundPull; place: number }) => number {
  const column = columnOf(by);
  const compare = column === null ? null : comparedValues(column, descending);
  return (a, b) => {
    const valueOf = ({ line }: typeof a): Value => asSorted(keyOfLine(line, by)[0]);
    const ofValues = compare === null ? 0 : compare(valueOf(a), valueOf(b));
    return ofValues || a.place - b.place || (descending ? -1 : 1) * (a.line.pullId - b.line.pullId);
  };
}

/** Of values as `asSorted` gives them: below zero where the first comes before. */
export function comparedValues(column: OrderColumn, descending: boolean): (a: Value, b: Value) => number {
  const none = NONE[column];
  const way = descending ? -1 : 1;
  return (a, b) => {
    if (none !== null && (a === none || b === none)) return Number(a === none) - Number(b === none);
    return way * compareValues(a, b);
  };
}

/** Smallest first. */
export function compareValues(a: Value, b: Value): number {
  if (typeof a === 'number' && typeof b === 'number') return a - b;
  return compareTexts(String(a), String(b));
}

export const compareTexts = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

export const asSorted = (value: Value): Value => (typeof value === 'string' ? sortedAsBytes(value) : value);

const HIGH_UNIT = /[\ud800-\uffff]/;

/**
 * A text that stands where the database puts the given one: by bytes of UTF-8, which is by code points. Pairs of
 * surrogates, which come before the last of the single ones, are put behind them.
 */
export function sortedAsBytes(text: string): string {
  if (!HIGH_UNIT.test(text)) return text;
  let sorted = '';
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    sorted += String.fromCharCode(unit >= 0xe000 ? unit - 0x800 : unit >= 0xd800 ? unit + 0x2000 : unit);
  }
  return sorted;
}
