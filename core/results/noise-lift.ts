/**
 * By how much noise lifts the largest reading. Of n readings that are equal but for normal noise, the largest lies
 * about Φ⁻¹(n/(n + 1)) standard deviations above them. Said, never taken off: the largest reading is what was measured.
 */
import { columnValue, channelValue } from '../curve/channel.ts';
import { firstAtLeast, lastAtLeast } from '../curve/record-blocks.ts';
import { numberText } from '../quantity/number-text.ts';
import { standardNormalQuantile } from '../statistics/normal-distribution.ts';
import type { EvaluatedRecord } from './evaluated-record.ts';

/** A lift below this part of the strength is not worth a word: it is below what the codes round to. */
export const NOISE_LIFT_MIN = 0.002;
/** Readings within this many standard deviations of the largest may have become the largest by noise. */
const REACH = 4;

/** Null where the noise is not known or too small to matter. */
export function noiseLift(record: EvaluatedRecord, index: number): string | null {
  const { stress, blocks, noiseMpa, end } = record;
  if (stress === undefined || !(noiseMpa > 0)) return null;
  const peakMpa = channelValue(stress, index);
  // Stress is force over area in the very column of the load, so that the blocks tell for both.
  const limit = columnValue(stress, peakMpa - REACH * noiseMpa);
  const range = { from: record.startIndex, to: end.index + 1 };
  const readings = lastAtLeast(blocks.load, range, limit) - firstAtLeast(blocks.load, range, limit) + 1;
  if (readings < 2) return null;
  const liftMpa = noiseMpa * standardNormalQuantile(readings / (readings + 1));
  if (!(liftMpa > NOISE_LIFT_MIN * peakMpa)) return null;
  return `Noise lifts the largest reading: with a standard deviation of ${numberText(noiseMpa, 2)} MPa (scatter in the elastic part) and ${String(readings)} readings near the maximum, it is likely high by about ${numberText(liftMpa, 2)} MPa (${numberText((100 * liftMpa) / peakMpa, 2)} %); the value is not changed for it.`;
}
