/** Every dimension of the section that was measured, by the name of its field. */
import type { Geometry, MeasuredDimension } from './specimen.ts';

export function measuredDimensions(geometry: Geometry): [name: string, dimension: MeasuredDimension][] {
  return Object.entries<string | MeasuredDimension>({ ...geometry }).flatMap(
    ([name, value]): [string, MeasuredDimension][] => (typeof value === 'string' ? [] : [[name, value]]),
  );
}
