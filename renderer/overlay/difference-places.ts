/** Points of a difference that a cursor goes through: no closer than a screen tells them apart, extremes among them. */
import { differencePoints } from './overlay-values.tsx';

const WALKED_MAX = 500;

/** Their places in `x` and `y`, ascending; of those inside the range. */
export function differencePlaces(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  { min, max }: { readonly min: number; readonly max: number },
): number[] {
  const isShown = (at: number): boolean => {
    const along = x[at] ?? Number.NaN;
    return along >= min && along <= max && !Number.isNaN(y[at]);
  };
  const shown = Array.from({ length: x.length }, (_, at) => at).filter(isShown);
  const every = Math.max(1, Math.ceil(shown.length / WALKED_MAX));
  const walked = shown.filter((_, i) => i % every === 0);
  const marked = differencePoints(y).flatMap(({ at }) => (isShown(at) ? [at] : []));
  return [...new Set([...walked, ...marked])].sort((a, b) => a - b);
}
