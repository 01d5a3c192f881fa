/**
 * Sizes that no specimen has. A specimen that was read (read-specimen.ts) has none; one that a caller put together
 * himself may, and would make a confident wrong number of it.
 */
import { measuredDimensions } from './measured-dimensions.ts';
import type { MeasuredDimension, Specimen } from './specimen.ts';

/** "gaugeLength: -50 mm is no size of a specimen", for the first one; null where all are above zero. */
export function sizeFault(specimen: Specimen): string | null {
  const { geometry, ...rest } = specimen;
  for (const [name, value] of [...measuredDimensions(geometry), ...Object.entries(rest)]) {
    const size = sizeOf(name, value);
    // A fracture may lie at a mark itself.
    const least = name === 'distanceToNearestMarkMm' ? 0 : Number.MIN_VALUE;
    if (size === null || (size >= least && size < Infinity)) continue;
    return `${name}: ${Number.isFinite(size) ? String(size) : 'what is no finite number'} is no size of a specimen; measure it, and give what was measured`;
  }
  return null;
}

function sizeOf(name: string, value: string | number | object): number | null {
  if (typeof value === 'number') return name.endsWith('Mm') ? value : null;
  return isMeasured(value) ? value.mean : null;
}

const isMeasured = (value: string | object): value is MeasuredDimension =>
  typeof value === 'object' && 'mean' in value;
