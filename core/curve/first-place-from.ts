/** Place of the first of ascending numbers that is at least `least`, by halving; their count where none is. */
export function firstPlaceFrom(ascending: ArrayLike<number>, least: number): number {
  let low = 0;
  let high = ascending.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ascending[middle] ?? Infinity) < least) low = middle + 1;
    else high = middle;
  }
  return low;
}
