/** What the texts of one field are, over many lines. */
import { NumberScanner, type NumberStyle } from '../lines/number-grammar.ts';
import { statusOfWord } from '../lines/status-words.ts';
import { type WrittenUnit, writtenUnit } from './unit-words.ts';

export type ColumnKind = 'number' | 'number-unit' | 'clock' | 'unit' | 'words' | 'constant' | 'opaque';

export interface Column {
  readonly kind: ColumnKind;
  /** NaN where no number was shown. */
  readonly values: readonly number[];
  /** Most decimals seen. */
  readonly decimals: number;
  /** A plus or a minus stands with some of the numbers, or parentheses that mean minus. */
  readonly isSigned: boolean;
  /** All numbers are written as digits alone. */
  readonly plainDigits: boolean;
  /** Characters of the numbers where it is always the same. */
  readonly width: number | null;
  /** Always the same text. */
  readonly isConstant: boolean;
  /** The unit written most often, behind the number or alone. */
  readonly unit: { readonly text: string; readonly written: WrittenUnit } | null;
  /** Other words, most frequent first; in a number's place or as a status. */
  readonly words: readonly string[];
}

/** Different words of one status field; more are text, not a status. */
const WORDS_SEEN_MAX = 12;
/** A field is of a kind when nearly all its texts are. */
const NEARLY_ALL = 0.9;
/** An extensometer that was taken off shows dashes for most of a pull. */
const NUMBERS_MIN = 0.2;

/** A number inside a text: a field that holds it is not understood, whatever stays the same around it. */
const HIDDEN_NUMBER = /\d[.,]\d|\d:\d\d/;
const DATE = /^(?:\d{4}[-/.]\d{2}[-/.]\d{2}|\d{2}[-/.]\d{2}[-/.](?:\d{4}|\d{2}))$/;
const CLOCK = /^\d{1,2}:\d{2}(?::\d{2})?(?:[.,]\d+)?$/;
const fillerOf = statusOfWord({ overload: [], blank: [], error: [] });

/** Texts are those of the lines that have the field, with blanks around them cut. */
export function columnKind(texts: readonly string[], style: NumberStyle): Column {
  const scanner = new NumberScanner(style);
  const values: number[] = [];
  const units = new Map<string, number>();
  const words = new Map<string, number>();
  const counts = { number: 0, numberUnit: 0, clock: 0, filler: 0, empty: 0, unit: 0, other: 0 };
  const others = new Set<string>();
  let decimals = 0;
  let plainDigits = true;
  let isSigned = false;
  const widths = new Set<number>();
  for (const text of texts) {
    const behind = scanner.scan(text, 0, text.length);
    const rest = behind === -1 ? text : text.slice(behind);
    const unit = writtenUnit(rest);
    let value = Number.NaN;
    if (CLOCK.test(text)) {
      counts.clock++;
    } else if (behind !== -1 && (rest === '' || (unit !== null && unit.scale === '1'))) {
      value = scanner.mantissa * 10 ** scanner.exponent;
      decimals = Math.max(decimals, -scanner.exponent);
      plainDigits &&= /^\d+$/.test(text.slice(0, behind));
      isSigned ||= /^[+(-]|[+-]$/.test(text.slice(0, behind));
      widths.add(behind);
      if (rest === '') counts.number++;
      else {
        counts.numberUnit++;
        increment(units, rest.trim());
      }
    } else if (text === '') counts.empty++;
    else if (behind === -1 && unit !== null) {
      counts.unit++;
      increment(units, text);
    } else if (fillerOf(text) !== 'malformed') {
      counts.filler++;
      increment(words, text);
    } else {
      counts.other++;
      others.add(text);
      increment(words, text);
    }
    values.push(value);
  }
  const kind = decide(counts, texts.length, words.size, others);
  const unitText = mostFrequent(units);
  const written = unitText === null ? null : writtenUnit(unitText);
  return {
    kind,
    values,
    decimals,
    isSigned,
    plainDigits,
    width: widths.size === 1 ? ([...widths][0] ?? null) : null,
    isConstant: new Set(texts).size === 1,
    unit: unitText === null || written === null ? null : { text: unitText, written },
    words: [...words].sort((a, b) => b[1] - a[1]).map(([word]) => word),
  };
}

interface Counts {
  readonly number: number;
  readonly numberUnit: number;
  readonly clock: number;
  readonly filler: number;
  readonly empty: number;
  readonly unit: number;
  readonly other: number;
}

function decide(
  counts: Counts,
  total: number,
  differentWords: number,
  others: ReadonlySet<string>,
): ColumnKind {
  const { number, numberUnit, clock, empty, unit } = counts;
  const [word = ''] = others;
  // One word of letters that comes instead of the number, however long it stands there: "HHHHH" until the load is off.
  const isInItsPlace = others.size === 1 && /^[A-Za-z]{2,}$/.test(word);
  const filler = counts.filler + (isInItsPlace ? counts.other : 0);
  if (clock >= (total - empty) * NEARLY_ALL && clock > 0) return 'clock';
  if (number >= total * NUMBERS_MIN && number + filler + empty >= total * NEARLY_ALL) return 'number';
  if (numberUnit >= total * NUMBERS_MIN && numberUnit + filler + empty >= total * NEARLY_ALL)
    return 'number-unit';
  if (unit > 0 && unit >= (total - empty) * 0.95) return 'unit';
  if (number + numberUnit > total * (1 - NEARLY_ALL)) return 'opaque';
  if ([...others].some((text) => HIDDEN_NUMBER.test(text) && !DATE.test(text))) return 'opaque';
  if (differentWords <= 1 && empty === 0) return 'constant';
  return differentWords <= WORDS_SEEN_MAX && differentWords <= Math.max(2, total / 3) ? 'words' : 'opaque';
}

/** Whether a column counts lines: digits alone that go up by one, beginning anew now and then. */
export function isSequence(column: Column): boolean {
  if (column.kind !== 'number' || !column.plainDigits || column.isConstant) return false;
  return shareOfSteps(column.values, (step) => step === 1) >= NEARLY_ALL;
}

/** The number at which a counter begins anew; undefined where it was not seen to, or did not begin with 0. */
export function modulusOf({ values }: Column): number | undefined {
  const largest = values.reduce((most, value) => Math.max(most, value), 0);
  const wraps = values.some((value, index) => value === 0 && values[index - 1] === largest);
  return wraps && largest > 0 ? largest + 1 : undefined;
}

/** Whether a column goes up by nearly the same step from line to line, as a clock does. */
export function isSteady(column: Column): boolean {
  const steps: number[] = [];
  column.values.forEach((value, index) => {
    const before = column.values[index - 1];
    if (before !== undefined && !Number.isNaN(value) && !Number.isNaN(before)) steps.push(value - before);
  });
  if (steps.length < 5) return false;
  const sorted = [...steps].sort((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)] ?? 0;
  if (!(middle > 0)) return false;
  const tolerance = Math.max(middle * 0.35, 1.5 * 10 ** -column.decimals);
  return (
    steps.filter((step) => step > 0 && Math.abs(step - middle) <= tolerance).length >=
    steps.length * NEARLY_ALL
  );
}

/** Steps of a clock that nobody calls one are the same within a few parts in a hundred, or within the last digit. */
export function movesLikeClock(column: Column): boolean {
  if (!isSteady(column) || column.isSigned) return false;
  const steps = column.values
    .map((value, index) => value - (column.values[index - 1] ?? Number.NaN))
    .filter((step) => !Number.isNaN(step))
    .sort((a, b) => a - b);
  const middle = steps[Math.floor(steps.length / 2)] ?? 0;
  const tolerance = Math.max(middle * 0.06, 1.01 * 10 ** -column.decimals);
  const even = steps.filter((step) => step >= 0 && Math.abs(step - middle) <= tolerance * 1.0001).length;
  return even >= steps.length * NEARLY_ALL;
}

function shareOfSteps(values: readonly number[], holds: (step: number) => boolean): number {
  let steps = 0;
  let held = 0;
  values.forEach((value, index) => {
    const before = values[index - 1];
    if (before === undefined || Number.isNaN(value) || Number.isNaN(before)) return;
    steps++;
    if (holds(value - before)) held++;
  });
  return steps < 3 ? 0 : held / steps;
}

function increment(counts: Map<string, number>, key: string): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}

function mostFrequent(counts: ReadonlyMap<string, number>): string | null {
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}
