/** Corrections that bend a column: a calibration table of the readout, and what frame and grips give under load. */

export interface TablePoint {
  readonly x: number;
  readonly y: number;
}

/**
 * Straight lines between the points, the end segments carried on beyond them. Points ascending in x.
 * Throws a RangeError on fewer than two points or an x that doesn't ascend: tables are checked where they come in.
 */
export function interpolator(points: readonly TablePoint[]): (x: number) => number {
  if (points.length < 2) throw new RangeError('a table needs at least two points');
  points.forEach((p, i) => {
    if (i > 0 && !(p.x > (points[i - 1]?.x ?? Number.NaN)))
      throw new RangeError('a table ascends from point to point');
  });
  const xs = points.map((p) => p.x);
  return (x) => {
    // A handful of points: a scan is as fast as anything.
    let k = 1;
    while (k < xs.length - 1 && x > (xs[k] ?? Infinity)) k += 1;
    const a = points[k - 1];
    const b = points[k];
    if (a === undefined || b === undefined) return Number.NaN;
    return a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);
  };
}

/** A new column with each value put through the table; values that weren't there stay so. */
export function throughTable(column: Float64Array, points: readonly TablePoint[]): Float64Array {
  const at = interpolator(points);
  return column.map(at);
}

/** Travel without what frame and grips gave at that force (from a blank run), a new column. */
export function withoutCompliance(
  travelMm: Float64Array,
  force: { readonly column: Float64Array; readonly zero: number },
  blankRun: readonly { readonly forceN: number; readonly travelMm: number }[],
): Float64Array {
  const given = interpolator(blankRun.map((p) => ({ x: p.forceN, y: p.travelMm })));
  return travelMm.map((travel, i) => travel - given((force.column[i] ?? Number.NaN) - force.zero));
}
