/**
 * The small picture of a curve in a list: at most THUMBNAIL_POINTS_MAX points in a square of 256 by 256, three bytes
 * each (x, y from below, 1 where the pen is lifted before it). Made once and kept with the pull.
 */
import type { Curve } from './curve.ts';
import { thinCurve } from './thin-curve.ts';

/** Enough for the elastic line, yield, strain hardening, the peak and the break in a picture as large as a line of text. */
export const THUMBNAIL_POINTS_MAX = 64;
const BYTES_PER_POINT = 3;
const SIDE = 255;
/** With more stretches than this the gaps are not drawn: a picture of this size could not show them. */
const STRETCHES_MAX = 8;

export interface Thumbnail {
  /** What lies along the picture, and what upright. */
  readonly x: 'extension' | 'strain' | 'travel' | 'time' | 'reading';
  readonly y: 'force' | 'stress';
  readonly bytes: Uint8Array;
}

/** Null where the curve has neither force nor stress, or no reading with both values. */
export function thumbnailOf(curve: Curve): Thumbnail | null {
  const upright = curve.forceN ?? curve.stressMpa;
  if (upright === undefined) return null;
  const [name, along] = alongOf(curve);
  const xRange = rangeOf(along, upright);
  const yRange = rangeOf(upright, along);
  if (xRange === null || yRange === null) return null;
  const gaps = (curve.gaps ?? []).map((gap) => gap.beforeIndex);
  const source = { length: curve.length, x: along, y: upright };
  const map = {
    xOffset: -xRange.min * xRange.perUnit,
    xPerUnit: xRange.perUnit,
    yOffset: -yRange.min * yRange.perUnit,
    yPerUnit: yRange.perUnit,
  };
  const thinned = withinPoints(source, gaps, map);
  const bytes = new Uint8Array(thinned.length * BYTES_PER_POINT);
  for (let i = 0; i < thinned.length; i++) {
    bytes[i * BYTES_PER_POINT] = Math.round(thinned.x[i] ?? 0);
    bytes[i * BYTES_PER_POINT + 1] = Math.round(thinned.y[i] ?? 0);
    bytes[i * BYTES_PER_POINT + 2] = thinned.lifts[i] ?? 0;
  }
  return { x: name, y: curve.forceN === undefined ? 'stress' : 'force', bytes };
}

/** The `d` of an SVG path, y downward, in a box of the size given. Bytes that are no thumbnail give an empty path. */
export function thumbnailPath(bytes: Uint8Array, width: number, height: number): string {
  if (bytes.length % BYTES_PER_POINT !== 0) return '';
  const steps: string[] = [];
  for (let at = 0; at < bytes.length; at += BYTES_PER_POINT) {
    const x = ((bytes[at] ?? 0) / SIDE) * width;
    const y = height - ((bytes[at + 1] ?? 0) / SIDE) * height;
    steps.push(`${at === 0 || bytes[at + 2] === 1 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`);
  }
  return steps.join('');
}

function alongOf(curve: Curve): [Thumbnail['x'], Float64Array] {
  if (curve.extensionMm !== undefined) return ['extension', curve.extensionMm];
  if (curve.strainRatio !== undefined) return ['strain', curve.strainRatio];
  if (curve.travelMm !== undefined) return ['travel', curve.travelMm];
  if (curve.timeS !== undefined) return ['time', curve.timeS];
  return ['reading', Float64Array.from({ length: curve.length }, (_, i) => i)];
}

/** Over the readings that have both values; a column that never changes lies in the middle. */
function rangeOf(column: Float64Array, other: Float64Array): { min: number; perUnit: number } | null {
  let min = Infinity;
  let max = -Infinity;
  for (let i = 0; i < column.length; i++) {
    const value = column[i] ?? Number.NaN;
    if (!Number.isFinite(value) || !Number.isFinite(other[i] ?? Number.NaN)) continue;
    min = Math.min(min, value);
    max = Math.max(max, value);
  }
  if (min > max) return null;
  return max > min ? { min, perUnit: SIDE / (max - min) } : { min: min - SIDE / 2, perUnit: 1 };
}

function withinPoints(
  source: { length: number; x: Float64Array; y: Float64Array },
  gaps: readonly number[],
  map: Parameters<typeof thinCurve>[1],
): ReturnType<typeof thinCurve> {
  const options = { cornersMax: THUMBNAIL_POINTS_MAX, hysteresisPx: 1 };
  if (gaps.length < STRETCHES_MAX) {
    try {
      return thinCurve({ ...source, lifts: gaps }, map, options);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
    }
  }
  // Missing values lift the pen too: only the readings that have both are joined.
  const there = Array.from(source.x.keys()).filter(
    (i) => Number.isFinite(source.x[i]) && Number.isFinite(source.y[i]),
  );
  const joined = (column: Float64Array): Float64Array =>
    Float64Array.from(there, (i) => column[i] ?? Number.NaN);
  return thinCurve({ length: there.length, x: joined(source.x), y: joined(source.y) }, map, options);
}
