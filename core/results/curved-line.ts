/**
 * What a bent elastic part does to a proof strength: the offset line through its lower half and the one through its
 * upper half meet the curve at different stresses. Metals without a straight part (cast iron, annealed copper) show it.
 */
import type { Channel } from '../curve/channel.ts';
import { channelValue } from '../curve/channel.ts';
import { numberText } from '../quantity/number-text.ts';
import type { ElasticLine } from './elastic-line.ts';
import { fitLine } from './line-fit.ts';
import { firstReaching } from './slope-window.ts';
import { findCrossing } from './strain-crossing.ts';

/** Proof strengths that differ by more than this part are worth a word. */
const DIFFERENCE_MIN = 0.01;
const HALF_READINGS_MIN = 2;

/** Null where the elastic part is straight as far as its scatter lets one see, or too short to be halved. */
export function curvedLineRemark(
  stress: Channel,
  strain: Channel,
  line: ElasticLine,
  lastIndex: number,
  offsetRatio: number,
): string | null {
  const { range, bend } = line;
  if (bend === 0 || line.loop !== undefined) return null;
  const middleMpa = (channelValue(stress, range.from) + channelValue(stress, range.to - 1)) / 2;
  const middle = firstReaching(stress, range, middleMpa);
  if (middle - range.from < HALF_READINGS_MIN || range.to - middle < HALF_READINGS_MIN) return null;
  const halves = [
    fitLine(stress, strain, { from: range.from, to: middle }),
    fitLine(stress, strain, { from: middle, to: range.to }),
  ];
  const [lower, upper] = halves.map((fit) => {
    if (fit === null || !(fit.slope > 0)) return null;
    const found = findCrossing({
      stress,
      strain,
      range: { from: range.to - 1, to: lastIndex + 1 },
      zeroStrain: -fit.intercept / fit.slope,
      compliance: 1 / fit.slope,
      target: offsetRatio,
    });
    return found.found ? found.crossing.stressMpa : Infinity;
  });
  if (lower === undefined || upper === undefined || lower === null || upper === null) return null;
  const text = (mpa: number): string =>
    Number.isFinite(mpa) ? `${numberText(mpa, 4)} MPa` : 'none before the record ends';
  // One of them finite and the other not is the largest difference of all.
  return Math.abs(upper - lower) > DIFFERENCE_MIN * Math.min(upper, lower)
    ? `The elastic part is bent or has few readings: the line through its lower half would give ${text(lower)}, through its upper half ${text(upper)}.`
    : null;
}
