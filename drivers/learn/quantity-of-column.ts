/** What a column of numbers measures, from unit, label and behaviour, the strongest first; null where nothing tells. */
import type { Dimension } from '../../core/quantity/units.ts';
import { type Column, isSteady } from './column-kind.ts';
import { type LearntQuantity, fits, meaningOfLabel, quantityOfDimension } from './label-words.ts';
import { type WrittenUnit, dimensionOf } from './unit-words.ts';

export interface ColumnFacts {
  readonly column: Column;
  readonly unit: WrittenUnit | null;
  readonly label: string;
}

export interface ColumnMeaning {
  readonly quantity: LearntQuantity | null;
  readonly peak: boolean;
  /** Said by a unit or a label, not only guessed from how the numbers move. */
  readonly isSaid: boolean;
}

/** One meaning per column. */
export function quantitiesOf(columns: readonly ColumnFacts[]): ColumnMeaning[] {
  const meanings = columns.map((facts) => meaningOf(facts));
  separateLengths(columns, meanings);
  keepOneTime(columns, meanings);
  return meanings;
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

function meaningOf({ column, unit, label }: ColumnFacts): ColumnMeaning {
  const dimension: Dimension | null = unit === null ? null : dimensionOf(unit);
  const said = meaningOfLabel(label, dimension);
  if (said.quantity !== null) {
    // A single letter without unit is believed only where the numbers do not speak against it.
    if (said.quantity === 'time' && dimension === null && !isSteady(column) && column.kind !== 'clock')
      return { quantity: null, peak: said.peak, isSaid: false };
    return { quantity: said.quantity, peak: said.peak, isSaid: true };
  }
  if (dimension !== null) {
    const quantity = quantityOfDimension(dimension);
    if (quantity !== null) return { quantity, peak: said.peak, isSaid: true };
  }
  if (column.kind === 'clock') return { quantity: 'time', peak: false, isSaid: true };
  if (isSteady(column)) return { quantity: 'time', peak: false, isSaid: false };
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

/** Rises to a maximum far above its noise, and is nearly gone soon after: a load at the break. */
function breaksOff(values: readonly number[]): boolean {
  const numbers = values.filter((value) => !Number.isNaN(value));
  if (numbers.length < 20) return false;
  const largest = numbers.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const at = numbers.findIndex((value) => Math.abs(value) === largest);
  const early = numbers.slice(0, Math.max(3, Math.floor(numbers.length / 20)));
  const late = numbers.slice(-Math.max(3, Math.floor(numbers.length / 50)));
  const mean = (list: readonly number[]): number =>
    list.reduce((sum, value) => sum + Math.abs(value), 0) / list.length;
  return (
    largest > 0 && at > numbers.length * 0.1 && mean(early) < largest * 0.4 && mean(late) < largest * 0.15
  );
}

/** A time without unit: whole steps of several units are milliseconds, anything else seconds. */
export function unitOfTime(column: Column): 's' | 'ms' {
  const first = column.values.find((value) => !Number.isNaN(value)) ?? 0;
  const last = column.values.reduce((latest, value) => (Number.isNaN(value) ? latest : value), first);
  const step = (last - first) / Math.max(1, column.values.length - 1);
  return column.decimals === 0 && step >= 2 ? 'ms' : 's';
}
