/**
 * A readout that is switched to another unit in the middle of a pull: the load steps from one reading to the next to
 * a value that is the same force in another unit, and goes on from there as before, and the extension goes on as
 * before too. No specimen does that: a break leaves no load that goes on growing, and yielding loses a few percent.
 */
import type { Channel } from '../curve/channel.ts';
import { BLOCK_READINGS, type ColumnBlocks } from '../curve/record-blocks.ts';
import { numberText } from '../quantity/number-text.ts';
import { factorToCore } from '../quantity/units.ts';
import { readingNumber } from './finding.ts';

export interface UnitStep {
  /** First reading in the other unit. */
  readonly index: number;
  /** Load after over load before. */
  readonly ratio: number;
  readonly from: string;
  readonly to: string;
}

const FORCE_UNITS = ['N', 'kN', 'kgf', 'tf', 'lbf', 'kip'] as const;
/** A change of unit is at least this large; what is nearer to one is looked at by other means. */
const STEP_RATIO_MIN = 1.8;
/** Of the largest loads of stretches: the load may rise meanwhile against a step down. */
const STRETCH_RATIO_MIN = 1.2;
/** The step meets the factor within this part, and how far what comes before and after may leave it open. */
const FACTOR_TOLERANCE = 0.012;
const VAGUE_MAX = 0.2;
/** Readings on either side that must go on as before, and by how much they may differ. */
const BESIDE = 5;
const BESIDE_RATIO_MAX = 4;
const BEYOND_BESIDE = 3;
/** How differently the load may rise before and after: as a part of it, or of the rise. */
const GROWTH_TOLERANCE = 0.05;
const GROWTH_PART = 0.7;
/** The extension's rate after over its rate before. */
const RATE_RATIO_MAX = 3;

const FACTORS: readonly { readonly ratio: number; readonly from: string; readonly to: string }[] =
  FORCE_UNITS.flatMap((from) =>
    FORCE_UNITS.filter((to) => to !== from).map((to) => ({
      ratio: factorToCore(from) / factorToCore(to),
      from,
      to,
    })),
  );

/** The first such step; null where there is none. Only stretches whose largest loads differ are looked through. */
export function unitStep(load: Channel, blocks: ColumnBlocks, strain: Channel | undefined): UnitStep | null {
  const { column, largest } = blocks;
  const { zero } = load;
  for (let k = 0; k < largest.length; k++) {
    if (!differs(largest, k, zero)) continue;
    const to = Math.min(column.length, (k + 1) * BLOCK_READINGS);
    for (let i = Math.max(1, k * BLOCK_READINGS); i < to; i++) {
      const before = (column[i - 1] as number) - zero;
      const after = (column[i] as number) - zero;
      if (!(before > 0 && after > 0)) continue;
      if (after < STEP_RATIO_MIN * before && before < STEP_RATIO_MIN * after) continue;
      const found = stepAt(column, zero, i, strain?.column);
      if (found !== null) return found;
    }
  }
  return null;
}

/** A step within the stretch, or at either edge, shows in the largest loads of it and its neighbours. */
function differs(largest: Float64Array, k: number, zero: number): boolean {
  if (k === 0 || k === largest.length - 1) return true;
  const before = (largest[k - 1] as number) - zero;
  const here = (largest[k] as number) - zero;
  const after = (largest[k + 1] as number) - zero;
  return !(Math.max(before, here, after) < STRETCH_RATIO_MIN * Math.min(before, here, after));
}

function stepAt(
  ys: Float64Array,
  zero: number,
  index: number,
  xs: Float64Array | undefined,
): UnitStep | null {
  const at = (k: number): number => (ys[index + k] ?? Number.NaN) - zero;
  if (!standsOut(at)) return null;
  // What the last step before, or the first after, would have made of it in the other unit.
  const forwards = at(0) / (2 * at(-1) - at(-2));
  const backwards = (2 * at(0) - at(1)) / at(-1);
  const ratio = Math.sqrt(forwards * backwards);
  const vague = Math.abs(forwards / backwards - 1);
  if (!(vague < VAGUE_MAX)) return null;
  const factor = FACTORS.find((f) => Math.abs(ratio / f.ratio - 1) < FACTOR_TOLERANCE + vague / 4);
  if (factor === undefined || !levelGoesOn(at, factor.ratio)) return null;
  if (xs !== undefined && !goesOn(xs, index)) return null;
  return { index, ratio: factor.ratio, from: factor.from, to: factor.to };
}

/** Far larger than the steps beside it: near the zero of the load its noise alone makes every factor now and then. */
function standsOut(at: (k: number) => number): boolean {
  let beside = 0;
  for (let k = 1; k < BESIDE; k++)
    beside = Math.max(beside, Math.abs(at(-k) - at(-k - 1)), Math.abs(at(k) - at(k - 1)));
  return Math.abs(at(0) - at(-1)) > BEYOND_BESIDE * beside;
}

/** In one unit, the load goes on after the step about as it came before it. */
function levelGoesOn(at: (k: number) => number, ratio: number): boolean {
  const before: number[] = [];
  const after: number[] = [];
  for (let k = 0; k < BESIDE; k++) {
    before.push(at(-1 - k));
    after.push(at(k) / ratio);
  }
  const level = at(-1);
  if (![...before, ...after].every((y) => y > level / BESIDE_RATIO_MAX && y < level * BESIDE_RATIO_MAX))
    return false;
  const rise = level - (before.at(-1) ?? level);
  const risen = (after.at(-1) ?? level) - (after[0] ?? level);
  return Math.abs(risen - rise) < Math.max(GROWTH_TOLERANCE * level, GROWTH_PART * Math.max(rise, risen));
}

/** True where the extension goes on at about the rate that it had, step over the change included. */
function goesOn(xs: Float64Array, index: number): boolean {
  const at = (k: number): number => xs[index + k] ?? Number.NaN;
  const before = at(-1) - at(-BESIDE);
  const over = at(BESIDE - 2) - at(-1);
  return over > 0 && before > 0
    ? over < RATE_RATIO_MAX * before && before < RATE_RATIO_MAX * over
    : over === 0 && before === 0;
}

/** What was seen, as a sentence without what to do. */
export function unitStepWords({ index, ratio, from, to }: UnitStep): string {
  return `From reading ${readingNumber(index)} on the load is ${numberText(ratio, 4)} times what it was, as if the readout had been switched from ${from} to ${to}, while everything goes on as before`;
}
