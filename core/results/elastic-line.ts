/** The line of the elastic part as it was found, whichever way. */
import type { IndexRange } from '../curve/channel.ts';
import type { LineFit } from './line-fit.ts';

export interface UnloadingLoop {
  /** Largest load before the unloading. */
  readonly topIndex: number;
  readonly lowIndex: number;
  /** First reading that is back at the top; excluded from the fit's range. */
  readonly backIndex: number;
}

export interface ElasticLine {
  readonly fit: LineFit;
  readonly range: IndexRange;
  readonly lowerMpa: number;
  readonly upperMpa: number;
  /** Stress that the window is a part of; absent when set by hand. */
  readonly referenceMpa?: number;
  /** Slope of the upper half minus slope of the lower half, over the slope; null where a half is too short. */
  readonly bend: number | null;
  /** Of a sparse line: with Student's factor and the least uncertainty that a reading is taken to have. */
  readonly relativeUncertainty?: number;
  /** Of a line from an unloading loop: `range` is then the stretch of the loading that a parallel touches. */
  readonly loop?: UnloadingLoop;
  readonly chosen: 'standard' | 'above-toe' | 'below-early-yield' | 'whole' | 'sparse' | 'hand' | 'loop';
}
