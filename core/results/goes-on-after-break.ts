/** What is taken for the break and is none: the extension goes on as before, and the load does something. */
import { channelValue, lastPresent } from '../curve/channel.ts';
import { numberText } from '../quantity/number-text.ts';
import type { EvaluatedRecord } from './evaluated-record.ts';
import { readingNumber } from './finding.ts';

/** Readings after the break that are passed over: the swing of frame and load cell. */
const SWING_READINGS = 5;
const READINGS_MIN = 20;
/** The load after a complete break stays within this part of the maximum. */
const REST_SPREAD = 0.03;
/** The extension goes on at least by this strain. */
const STRAIN_MIN = 0.002;

/** One sentence; null where nothing speaks against the break. */
export function goesOnAfterBreak({ end, load, strain, peakIndex, columns }: EvaluatedRecord): string | null {
  if ((end.kind !== 'collapse' && end.kind !== 'marked') || strain === undefined) return null;
  if (columns.strainSource?.channel === 'travel') return null;
  const from = end.index + 1 + SWING_READINGS;
  const last = columns.length - 1;
  if (last - from < READINGS_MIN) return null;
  const there = lastPresent(strain.column, end.index, 0);
  const late = lastPresent(strain.column, last, from);
  if (!(channelValue(strain, late) - channelValue(strain, there) > STRAIN_MIN)) return null;
  const peak = channelValue(load, peakIndex);
  let low = Infinity;
  let high = -Infinity;
  for (let i = from; i <= last; i++) {
    const y = channelValue(load, i);
    if (y < low) low = y;
    if (y > high) high = y;
  }
  if (!(high - low > REST_SPREAD * peak)) return null;
  const unit = columns.force === undefined ? 'MPa' : 'N';
  return `After the break at reading ${readingNumber(end.index)} the extension goes on and the load moves between ${numberText(low, 3)} and ${numberText(high, 3)} ${unit}, as it does on no broken specimen: the load may have been set to zero, or its sign or unit changed, during the pull.`;
}
