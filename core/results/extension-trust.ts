/**
 * Until when the extension can be relied on: an extensometer that slips, jumps, stops (end of travel), is taken off
 * or falls silent before the break is recognised; results after that point use what is left.
 */
import type { Channel } from '../curve/channel.ts';
import { numberText } from '../quantity/number-text.ts';
import { readingNumber } from './finding.ts';

export interface ExtensionTrust {
  /** Last reading whose extension counts, at most `endIndex`. */
  readonly until: number;
  readonly trouble?: {
    readonly code: 'slipped-back' | 'jumped' | 'stopped' | 'silent';
    /** What was seen, as a clause that can be built on: "the extensometer slipped back at reading no. 12 (1.2 %)". */
    readonly clause: string;
  };
}

export interface ExtensionTrustInput {
  readonly stress: Channel;
  readonly strain: Channel;
  readonly startIndex: number;
  /** Last reading before the break, or of the record. */
  readonly endIndex: number;
  /** Slope of the elastic line, MPa; null where there is none. */
  readonly slopeMpa: number | null;
}

/** Strain that a reading must go back beyond the elastic recovery, or forward at once, to be trouble. */
const JUMP_STRAIN = 0.001;
/** A jump is at least this many times the usual step of its neighbourhood. */
const JUMP_STEPS = 25;
/** A jump with a fall of force like this (part of the strength) is the specimen yielding or tearing, not slip. */
const FALL_WITH_YIELD = 0.004;
/** Readings over which the usual step is followed (exponential mean). */
const NEIGHBOURHOOD = 16;
/** Within this strain of the last value, the extension has stopped. */
const STOPPED_STRAIN = 1e-4;
const STOPPED_READINGS_MIN = 3;
const STOPPED_LOAD_FRACTION = 0.02;

export function extensionTrust(input: ExtensionTrustInput): ExtensionTrust {
  return goneAstray(input) ?? stopped(input) ?? { until: input.endIndex };
}

/** Slip back, jump, or silence: one pass over the readings. */
function goneAstray({
  stress,
  strain,
  startIndex,
  endIndex,
  slopeMpa,
}: ExtensionTrustInput): ExtensionTrust | null {
  const ys = stress.column;
  const xs = strain.column;
  const jump = JUMP_STRAIN / strain.factor;
  // Elastic recovery per fall of the stress column; with no slope nothing is allowed for but a wide margin.
  const recovery = slopeMpa === null ? Infinity : (1.5 * stress.factor) / slopeMpa / strain.factor;
  let farthest = -1;
  let farthestX = -Infinity;
  let farthestY = 0;
  let previous = -1;
  let previousX = Number.NaN;
  let previousY = Number.NaN;
  let usual = 0;
  let seen = 0;
  const largeEnough = FALL_WITH_YIELD * largest(ys, stress.zero, startIndex, endIndex);
  for (let i = startIndex; i <= endIndex; i++) {
    const x = xs[i] as number;
    const y = ys[i] as number;
    if (x !== x || y !== y) continue;
    if (x > farthestX) {
      const step = x - previousX;
      if (
        step > jump &&
        step > JUMP_STEPS * usual &&
        seen > NEIGHBOURHOOD &&
        previousY - y < largeEnough &&
        farthestX - previousX < jump / 2 &&
        staysAway(xs, i, endIndex, x - step / 2)
      )
        return astray('jumped', previous, `jumped by ${percent(step * strain.factor)}`, strain, previousX);
      farthestX = x;
      farthest = i;
      farthestY = y;
    } else if (farthestX - x > jump) {
      const allowed = jump + Math.max(0, farthestY - y) * recovery;
      if (farthestX - x > allowed && !comesBack(xs, i, endIndex, farthestX - jump))
        return astray(
          'slipped-back',
          farthest,
          `went back by ${percent((farthestX - x) * strain.factor)} while the specimen still carried load`,
          strain,
          farthestX,
        );
    }
    if (previous >= 0) {
      const step = x > previousX ? x - previousX : previousX - x;
      usual += (step - usual) / NEIGHBOURHOOD;
    }
    seen += 1;
    previous = i;
    previousX = x;
    previousY = y;
  }
  if (previous >= 0 && endIndex - previous > 2 + 0.01 * (endIndex - startIndex))
    return astray('silent', previous, 'gave no more readings', strain, previousX);
  return null;
}

function astray(
  code: 'slipped-back' | 'jumped' | 'silent',
  until: number,
  what: string,
  strain: Channel,
  x: number,
): ExtensionTrust {
  const at = percent((x - strain.zero) * strain.factor);
  return {
    until,
    trouble: { code, clause: `the extension ${what} after reading ${readingNumber(until)} (at ${at})` },
  };
}

const percent = (ratio: number): string => `${numberText(100 * ratio, 3)} %`;

function largest(ys: Float64Array, zero: number, from: number, to: number): number {
  let top = 0;
  for (let i = from; i <= to; i++) if ((ys[i] as number) - zero > top) top = (ys[i] as number) - zero;
  return top;
}

/** A single stray reading is not a jump: the next ones must stay where it went. */
function staysAway(xs: Float64Array, index: number, end: number, limit: number): boolean {
  let beyond = 0;
  let looked = 0;
  for (let i = index + 1; i <= end && looked < 3; i++) {
    if (Number.isNaN(xs[i])) continue;
    looked += 1;
    if ((xs[i] as number) > limit) beyond += 1;
  }
  return beyond === looked;
}

/** A single stray reading is not a slip: within three readings it is back. */
function comesBack(xs: Float64Array, index: number, end: number, limit: number): boolean {
  let looked = 0;
  for (let i = index + 1; i <= end && looked < 3; i++) {
    if (Number.isNaN(xs[i])) continue;
    looked += 1;
    if ((xs[i] as number) > limit) return true;
  }
  return false;
}

/** At the end of its travel, or taken off and left lying: the extension stays while the force goes on changing. */
function stopped({
  stress,
  strain,
  startIndex,
  endIndex,
  slopeMpa,
}: ExtensionTrustInput): ExtensionTrust | null {
  const xs = strain.column;
  let last = endIndex;
  while (last > startIndex && Number.isNaN(xs[last])) last -= 1;
  const near = STOPPED_STRAIN / strain.factor;
  const finalX = xs[last] as number;
  let first = last;
  let low = Infinity;
  let high = -Infinity;
  for (let i = last; i > startIndex; i--) {
    const x = xs[i] as number;
    if (x !== x) continue;
    if (Math.abs(x - finalX) > near) break;
    first = i;
    const y = stress.column[i] as number;
    if (y < low) low = y;
    if (y > high) high = y;
  }
  const readings = last - first + 1;
  if (readings < STOPPED_READINGS_MIN || first <= startIndex + 1) return null;
  const swing = (high - low) * stress.factor;
  const top = largest(stress.column, stress.zero, startIndex, endIndex) * stress.factor;
  const moved = Math.abs(finalX - (xs[first] as number)) * strain.factor;
  const loadGoesOn =
    swing > STOPPED_LOAD_FRACTION * top && slopeMpa !== null && moved < (0.5 * swing) / slopeMpa;
  const before = xs[Math.max(startIndex, first - readings)] as number;
  const grew = ((xs[first] as number) - before) * strain.factor;
  const timeGoesOn = readings >= 10 && grew > 10 * STOPPED_STRAIN;
  if (!loadGoesOn && !timeGoesOn) return null;
  return {
    until: first,
    trouble: {
      code: 'stopped',
      clause: `the extension stayed at ${percent((finalX - strain.zero) * strain.factor)} from reading ${readingNumber(first)} on (end of its travel, or taken off)`,
    },
  };
}
