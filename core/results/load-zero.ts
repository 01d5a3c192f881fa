/**
 * What the load shows while nothing is pulled: a steady load before the pull is an error of the zero (or a preload),
 * another one after the break says that the zero has drifted. Told with its size, never taken off by itself.
 */
import { channelValue } from '../curve/channel.ts';
import { numberText } from '../quantity/number-text.ts';
import type { EvaluatedRecord } from './evaluated-record.ts';
import { readingNumber } from './finding.ts';

/** A steady load smaller than this part of the maximum is within what class 0.5 of ISO 7500-1 allows (from memory). */
const ZERO_FRACTION = 0.005;
/** The zero before and after may differ by this part of the maximum. */
const DRIFT_FRACTION = 0.005;
/** More than this is no drift: the break was marked and the load is still there. */
const DRIFT_FRACTION_MAX = 0.2;
/** Readings in a row that are steady before the pull; without an extension to say that nothing is pulled, more. */
const STEADY_READINGS_MIN = 15;
const STEADY_WITHOUT_EXTENSION_MIN = 50;
const STEADY_READINGS_MAX = 5_000;
/** Steady: within this part of the maximum, and within this strain. */
const STEADY_FRACTION = 0.002;
const STEADY_STRAIN = 5e-5;
/** A first load above this is told as a preload (record-remarks.ts). */
const PRELOAD_FRACTION = 0.05;
/** A load left over after the break, worth a word from this part of the maximum on. */
const REST_FRACTION = 0.01;
/** So many readings after the break say where the load comes to rest. */
const REST_READINGS = 20;

export function loadZero(record: EvaluatedRecord): string[] {
  const { columns, load, peakIndex } = record;
  const peak = channelValue(load, peakIndex);
  const unit = columns.force === undefined ? 'MPa' : 'N';
  const size = (value: number): string =>
    `${numberText(value, 3)} ${unit} (${numberText((100 * Math.abs(value)) / peak, 2)} % of the maximum)`;
  const before = beforeThePull(record);
  const rest = atRest(record);
  const remarks: string[] = [];
  if (before !== null && Math.abs(before.level) > ZERO_FRACTION * peak)
    remarks.push(
      `Before the pull the load stands at ${size(before.level)} up to reading ${readingNumber(before.until)} while nothing is pulled: a zero that was not set, or a preload. If it is the zero, every load and strength here contains it; the force zero among the corrections takes it off.`,
    );
  const drift = before === null || rest === null ? 0 : rest - before.level;
  if (before !== null && rest !== null && drifted(drift, peak))
    remarks.push(
      `The load stands at ${numberText(before.level, 3)} ${unit} before the pull and at ${numberText(rest, 3)} ${unit} after the break: its zero has drifted by ${size(drift)}, or the halves still hang together; no single zero corrects that.`,
    );
  else if (rest !== null && Math.abs(rest) >= REST_FRACTION * peak)
    remarks.push(
      `After the break the load rests at ${numberText(rest, 3)} ${unit} (${numberText((100 * rest) / peak, 2)} % of the maximum): the zero is off by that, or the halves still hang together; every load here contains it.`,
    );
  return remarks;
}

const drifted = (drift: number, peak: number): boolean =>
  Math.abs(drift) > DRIFT_FRACTION * peak && Math.abs(drift) < DRIFT_FRACTION_MAX * peak;

/** The level of the steady readings that the record begins with; null where there are too few. */
function beforeThePull(record: EvaluatedRecord): { readonly level: number; readonly until: number } | null {
  const { load, strain, peakIndex, scan } = record;
  const peak = channelValue(load, peakIndex);
  const from = scan.firstPresent;
  const first = middleOf(levels(record, from, Math.min(peakIndex, from + STEADY_READINGS_MIN)));
  if (first === null || Math.abs(first) > PRELOAD_FRACTION * peak) return null;
  const stretch = strain === undefined || record.strainReason !== null ? undefined : strain;
  const x0 = stretch === undefined ? Number.NaN : channelValue(stretch, from);
  let until = from;
  for (let i = from; i < peakIndex && i - from < STEADY_READINGS_MAX; i++) {
    if (Math.abs(channelValue(load, i) - first) > STEADY_FRACTION * peak) break;
    if (stretch !== undefined && Math.abs(channelValue(stretch, i) - x0) > STEADY_STRAIN) break;
    until = i;
  }
  const enough = stretch === undefined ? STEADY_WITHOUT_EXTENSION_MIN : STEADY_READINGS_MIN;
  if (until - from + 1 < enough) return null;
  // A slow pull creeps out of any width: what is steady rises no more at its end than at its beginning.
  const half = (from + until + 1) >> 1;
  const early = middleOf(levels(record, from, half));
  const late = middleOf(levels(record, half, until + 1));
  if (early === null || late === null || Math.abs(late - early) > RISES_FRACTION * peak) return null;
  const level = middleOf(levels(record, from, until + 1));
  return level === null ? null : { level, until };
}

/** The middle of the second half may lie above that of the first by this part of the maximum. */
const RISES_FRACTION = 0.0005;

/** Where the load comes to rest after the break: nothing bears load any more, so it is the zero's error. */
function atRest(record: EvaluatedRecord): number | null {
  const { end, columns } = record;
  const last = columns.length - 1;
  if ((end.kind !== 'collapse' && end.kind !== 'marked') || last - end.index < REST_READINGS) return null;
  const late: number[] = [];
  for (let i = last; i > end.index && late.length < REST_READINGS / 2; i--) {
    const value = channelValue(record.load, i);
    if (!Number.isNaN(value)) late.push(value);
  }
  return middleOf(late);
}

function levels({ load }: EvaluatedRecord, from: number, to: number): number[] {
  const values: number[] = [];
  for (let i = from; i < to; i++) {
    const value = channelValue(load, i);
    if (!Number.isNaN(value)) values.push(value);
  }
  return values;
}

function middleOf(values: readonly number[]): number | null {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? null;
}
