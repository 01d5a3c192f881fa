/** The sample pull's columns as a curve, as the archive gives it. */
import type { Curve } from '../../../core/curve/curve.ts';
import { blocksOf, readings } from './sample-pull.ts';

export function curveOfReadings(): Curve {
  const [block] = blocksOf(readings.length);
  if (block === undefined) throw new Error('the sample has readings');
  return {
    length: block.count,
    timeS: block.elapsedUs.map((us) => us / 1e6),
    forceN: block.channels[0]?.value ?? new Float64Array(),
    extensionMm: block.channels[1]?.value ?? new Float64Array(),
  };
}
