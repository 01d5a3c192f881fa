/** What a column of numbers measures, from unit, label and behaviour, the strongest first; null where nothing tells. */
import type { Dimension } from '../../core/quantity/units.ts';
import { type Column, isSteady, movesLikeClock } from './column-kind.ts';
import { type LearntQuantity, fits, meaningOfLabel, quantityOfDimension } from './label-words.ts';
import { peakColumns } from './peak-column.ts';
import { type WrittenUnit, dimensionOf } from './unit-words.ts';

export interface ColumnFacts {
  readonly column: Column;
  readonly unit: WrittenUnit | null;
  readonly label: string;
  /** A unit of something that no pull needs stands behind it (V, °C). */
  readonly isForeign: boolean;
}

export interface ColumnMeaning {
  readonly quantity: LearntQuantity | null;
  readonly peak: boolean;
  /** Said by a unit or a label, not only guessed from how the numbers move. */
  readonly isSaid: boolean;
}

/** One meaning per column. */
export function quantitiesOf(columns: readonly ColumnFacts[]): ColumnMeaning[] {
  const areLabelled = columns.filter(({ label }) => /[A-Za-z]/.test(label)).length > 1;
  const meanings = columns.map((facts) => meaningOf(facts, areLabelled));
  tellPeaks(columns, meanings);
  separateLengths(columns, meanings);
  doubtForces(columns, meanings);
  keepOneTime(columns, meanings);
  doubtTime(columns, meanings);
  return meanings;
}

/** The peak is of the quantity of the value that it follows; it is not the value of the moment. */
function tellPeaks(columns: readonly ColumnFacts[], meanings: ColumnMeaning[]): void {
  for (const [at, live] of peakColumns(columns.map(({ column }) => column))) {
    const [its, followed] = [meanings[at], meanings[live]];
    if (its === undefined || followed === undefined || followed.peak) continue;
    meanings[at] = { ...(its.isSaid ? its : { ...followed, isSaid: false }), peak: true };
  }
}

/**
 * Of several numbers that only fall away like a load, none is called one unless they are the same load in two units: a
 * readout that has changed the order of its fields looks so.
 */
function doubtForces(columns: readonly ColumnFacts[], meanings: ColumnMeaning[]): void {
  const guessed = meanings.flatMap(({ quantity, isSaid, peak }, index) =>
    quantity === 'force' && !isSaid && !peak ? [index] : [],
  );
  const [first, ...others] = guessed.map((index) => columns[index]?.column.values ?? []);
  if (first === undefined || others.every((values) => Math.abs(correlation(first, values)) > SAME_COURSE))
    return;
  for (const index of guessed) meanings[index] = { quantity: null, peak: false, isSaid: false };
}

/** Of two columns that show the same thing, and of one that rises as evenly as time does, beside its noise. */
const SAME_COURSE = 0.999;
const STRAIGHT = 0.998;

/** −1 to 1; 0 where one of them does not change. */
function correlation(left: readonly number[], right: readonly number[]): number {
  const pairs = left.flatMap((value, index) => {
    const other = right[index] ?? Number.NaN;
    return Number.isNaN(value + other) ? [] : [[value, other] as const];
  });
  const mean = (at: 0 | 1): number => pairs.reduce((sum, pair) => sum + pair[at], 0) / pairs.length;
  const [a, b] = [mean(0), mean(1)];
  const product = pairs.reduce((sum, pair) => sum + (pair[0] - a) * (pair[1] - b), 0);
  const squares = ([0, 1] as const).map((at) =>
    pairs.reduce((sum, pair) => sum + (pair[at] - (at === 0 ? a : b)) ** 2, 0),
  );
  const spread = Math.sqrt((squares[0] ?? 0) * (squares[1] ?? 0));
  return spread > 0 ? product / spread : 0;
}

/**
 * A line has one clock. At a constant crosshead speed the travel rises as evenly as it does, so of several that only
 * move like time the evenest stays, and none beside one that says so.
 */
function keepOneTime(columns: readonly ColumnFacts[], meanings: ColumnMeaning[]): void {
  const times = meanings.flatMap(({ quantity }, index) => (quantity === 'time' ? [index] : []));
  if (times.length < 2) return;
  const said = times.find((index) => meanings[index]?.isSaid === true);
  const unevenness = (index: number): number => unevennessOf(columns[index]?.column.values ?? []);
  const clock =
    said ?? times.reduce((evenest, index) => (unevenness(index) < unevenness(evenest) ? index : evenest));
  for (const index of times)
    if (index !== clock) meanings[index] = { quantity: null, peak: false, isSaid: false };
}

/**
 * A load can rise as evenly as a clock, and at a constant crosshead speed the travel does. A column that only moves like
 * time is none where it is the only one, where it isn't the first and its steps are none of a readout's clock, or where
 * another that nobody has named moves as evenly, unless it is the first and it alone has the steps of a clock.
 */
function doubtTime(columns: readonly ColumnFacts[], meanings: ColumnMeaning[]): void {
  const clock = meanings.findIndex(({ quantity, isSaid }) => quantity === 'time' && !isSaid);
  const facts = columns[clock];
  if (facts === undefined) return;
  const rivals = columns.filter(
    ({ column }, index) =>
      index !== clock &&
      meanings[index]?.quantity === null &&
      (isSteady(column) || correlation(facts.column.values, column.values) > STRAIGHT),
  );
  const isFirst = clock === 0 && hasUsualStep(facts.column);
  const isBelieved =
    rivals.length === 0
      ? columns.length > 1 && (clock === 0 || isStepOfReadout(facts.column))
      : isFirst && !rivals.some(({ column }) => isSteady(column) && isStepOfReadout(column));
  if (!isBelieved) meanings[clock] = { quantity: null, peak: false, isSaid: false };
}

/** Mean step from line to line; NaN where there is none. */
function stepOf({ values }: Column): number {
  const numbers = values.filter((value) => !Number.isNaN(value));
  return ((numbers.at(-1) ?? Number.NaN) - (numbers[0] ?? Number.NaN)) / Math.max(1, numbers.length - 1);
}

/** Steps of 1, 2, 2.5, 4, 5 or 8 times a power of ten, as clocks are read (common practice, no source). */
function hasUsualStep(column: Column): boolean {
  const step = stepOf(column);
  if (!(step > 0)) return false;
  const power = 10 ** Math.floor(Math.log10(step) + 1e-9);
  const tolerance = Math.max(0.004, 10 ** -column.decimals / (column.values.length * power));
  return [1, 2, 2.5, 4, 5, 8, 10].some((usual) => Math.abs(step / power - usual) <= tolerance);
}

/** Continuous outputs send a line to a hundred a second (common practice, no source). */
const STEP_S_MIN = 0.0099;
const STEP_S_MAX = 1.01;

function isStepOfReadout(column: Column): boolean {
  const stepS = stepOf(column) / (unitOfTime(column) === 'ms' ? 1000 : 1);
  return hasUsualStep(column) && stepS >= STEP_S_MIN && stepS <= STEP_S_MAX;
}

/** How far steps depart from the middle one, in thousandths of it. */
function unevennessOf(values: readonly number[]): number {
  const steps = values
    .map((value, index) => value - (values[index - 1] ?? Number.NaN))
    .filter((step) => !Number.isNaN(step))
    .sort((a, b) => a - b);
  const middle = steps[Math.floor(steps.length / 2)] ?? Number.NaN;
  // A line lost now and then makes one long step; nine of ten steps are looked at.
  const from = steps[Math.floor(steps.length * 0.05)] ?? middle;
  const to = steps[Math.floor(steps.length * 0.95)] ?? middle;
  // Below a thousandth it is the last digit of a double that speaks; then the one that stands first is the clock.
  return Math.round(((to - from) / middle) * 1_000);
}

/** `areLabelled`: the numbers of the line have labels; a clock would have one that says so. */
function meaningOf({ column, unit, label, isForeign }: ColumnFacts, areLabelled: boolean): ColumnMeaning {
  if (isForeign) return { quantity: null, peak: false, isSaid: false };
  const dimension: Dimension | null = unit === null ? null : dimensionOf(unit);
  const said = meaningOfLabel(label, dimension);
  if (said.quantity !== null) {
    // A single letter without unit is believed only where the numbers do not speak against it.
    if (said.quantity === 'time' && dimension === null && !isSteady(column) && column.kind !== 'clock')
      return { quantity: null, peak: said.peak, isSaid: false };
    return { quantity: said.quantity, peak: said.peak, isSaid: true };
  }
  if (dimension !== null) {
    if (said.isAmbiguous) return { quantity: null, peak: said.peak, isSaid: false };
    const quantity = quantityOfDimension(dimension);
    if (quantity !== null) return { quantity, peak: said.peak, isSaid: true };
  }
  if (column.kind === 'clock') return { quantity: 'time', peak: false, isSaid: true };
  if (movesLikeClock(column) && !(areLabelled && label !== ''))
    return { quantity: 'time', peak: false, isSaid: false };
  if (breaksOff(column.values)) return { quantity: 'force', peak: said.peak, isSaid: false };
  return { quantity: null, peak: said.peak, isSaid: false };
}

/** Two lengths of which no label says which is which: the finer one is the extensometer. */
function separateLengths(columns: readonly ColumnFacts[], meanings: ColumnMeaning[]): void {
  const lengths = columns.flatMap(({ label, unit }, index) => {
    const dimension = unit === null ? null : dimensionOf(unit);
    const isOpen =
      meanings[index]?.quantity === 'extension' && meaningOfLabel(label, dimension).quantity === null;
    return isOpen && fits('extension', dimension) ? [index] : [];
  });
  if (lengths.length !== 2 || meanings.some((meaning) => meaning.quantity === 'travel')) return;
  const [first = 0, second = 0] = lengths;
  const finer =
    (columns[second]?.column.decimals ?? 0) > (columns[first]?.column.decimals ?? 0) ? second : first;
  const other = finer === first ? second : first;
  meanings[other] = { quantity: 'travel', peak: false, isSaid: false };
}

/** A bit that is set or a coarse display's noise takes a few values; a load on its way up takes more. */
const VALUES_OF_A_PULL_MIN = 10;

/** Rises to a maximum far above its noise, and is nearly gone soon after: a load at the break. */
export function breaksOff(values: readonly number[]): boolean {
  const numbers = values.filter((value) => !Number.isNaN(value));
  if (numbers.length < 20 || new Set(numbers).size < VALUES_OF_A_PULL_MIN) return false;
  const steps = numbers.slice(1).map((value, index) => Math.abs(value - (numbers[index] ?? value)));
  const usualStep = steps.sort((a, b) => a - b)[Math.floor(steps.length / 2)] ?? 0;
  const largest = numbers.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const at = numbers.findIndex((value) => Math.abs(value) === largest);
  const early = numbers.slice(0, Math.max(3, Math.floor(numbers.length / 20)));
  const late = numbers.slice(-Math.max(3, Math.floor(numbers.length / 50)));
  const mean = (list: readonly number[]): number =>
    list.reduce((sum, value) => sum + Math.abs(value), 0) / list.length;
  return (
    largest > 0 &&
    usualStep < largest * 0.1 &&
    at > numbers.length * 0.1 &&
    mean(early) < largest * 0.4 &&
    mean(late) < largest * 0.15
  );
}

/** A time without unit: whole steps of several units are milliseconds, anything else seconds. */
export function unitOfTime(column: Column): 's' | 'ms' {
  const first = column.values.find((value) => !Number.isNaN(value)) ?? 0;
  const last = column.values.reduce((latest, value) => (Number.isNaN(value) ? latest : value), first);
  const step = (last - first) / Math.max(1, column.values.length - 1);
  return column.decimals === 0 && step >= 2 ? 'ms' : 's';
}
