/** Medians, quantiles and spread of measured times. */
import { quantile } from '../../../core/statistics/quantile.ts';

export const shareOf = (values: readonly number[], share: number): number =>
  values.length === 0 ? Number.NaN : quantile(values, share, 'hyndman-fan-7');

export const median = (values: readonly number[]): number => shareOf(values, 0.5);

/** The middle of the ratios of each round: what slowed a whole round slowed both its halves. */
export const ratioOf = (floor: readonly number[], measured: readonly number[]): number =>
  median(ratios(floor, measured));

export function ratios(floor: readonly number[], measured: readonly number[]): number[] {
  return measured.map((value, round) => value / (floor[round] ?? Number.NaN));
}

/** "1.21–1.44": least and largest, with so many significant digits. */
export function spreadText(values: readonly number[], digits = 3): string {
  if (values.length === 0) return '–';
  return `${short(Math.min(...values), digits)}–${short(Math.max(...values), digits)}`;
}

/** A number with so many significant digits, without powers of ten. */
export function short(value: number, digits = 3): string {
  if (!Number.isFinite(value)) return '–';
  const places = Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value) || 1)));
  return value.toFixed(Math.min(places, 6)).replace(/\B(?=(?:\d{3})+(?:$|\.))/g, places === 0 ? ' ' : '');
}
