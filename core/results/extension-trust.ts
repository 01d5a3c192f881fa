/**
 * Until when the extension can be relied on: an extensometer that slips, jumps, stops (end of travel), is taken off
 * or falls silent before the break is recognised; results after that point use what is left.
 */
import type { Channel, IndexRange } from '../curve/channel.ts';
import { channelValue, lastPresent } from '../curve/channel.ts';
import { BLOCK_READINGS, type ExtensionBlocks } from '../curve/record-blocks.ts';
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
  /** Of the strain column. */
  readonly blocks: ExtensionBlocks;
  readonly startIndex: number;
  /** Last reading before the break, or of the record. */
  readonly endIndex: number;
  readonly peakMpa: number;
  /** Time of each reading, s. */
  readonly timeS?: Float64Array;
  /** Slope of the elastic line, MPa; null where there is none. */
  readonly slopeMpa: number | null;
}

/** Strain that a reading must go back beyond the elastic recovery, or forward at once, to be trouble. */
const JUMP_STRAIN = 0.001;
/** A jump is at least this many times the usual step of its neighbourhood: 3 of 7 872 clean records seem to have one. */
const JUMP_STEPS = 15;
/** A jump with a fall of force like this (part of the strength) is the specimen yielding or tearing, not slip. */
const FALL_WITH_YIELD = 0.004;
/** A reading that comes after this many times the usual interval comes after others that are missing. */
const MISSING_STEPS = 10;
/** A jump is this many times the steps that follow it, of which a few are looked at. */
const NEXT_STEPS = 4;
const STEPS_AFTER = 4;
/** Readings before a jump that tell the usual step. */
const NEIGHBOURHOOD = 16;
/** Unloading lines are never quite parallel to the loading line. */
const RECOVERY_MARGIN = 1.5;
/** Within this strain of the last value, the extension has stopped. */
const STOPPED_STRAIN = 1e-4;
const STOPPED_READINGS_MIN = 3;
const STOPPED_LOAD_FRACTION = 0.02;

export function extensionTrust(input: ExtensionTrustInput): ExtensionTrust {
  return goneAstray(input) ?? stopped(input) ?? { until: input.endIndex };
}

/** Slip back, jump, or silence. Stretches in which the extension neither steps nor falls far are passed over. */
function goneAstray(input: ExtensionTrustInput): ExtensionTrust | null {
  const { strain, blocks, startIndex, endIndex } = input;
  const xs = strain.column;
  const jump = JUMP_STRAIN / strain.factor;
  // The farthest extension so far; over stretches that were passed over only known to be below `reach`.
  let farthest = -Infinity;
  let farthestIndex = -1;
  let reach = -Infinity;
  let passedFrom = -1;
  let i = startIndex;
  while (i <= endIndex) {
    const k = Math.floor(i / BLOCK_READINGS);
    const to = Math.min(endIndex + 1, (k + 1) * BLOCK_READINGS);
    // All within one jump of each other and of the farthest: nothing to look for.
    const highest = Math.max(reach, blocks.largest[k] as number);
    if (i > startIndex && highest - (blocks.smallest[k] as number) <= jump) {
      reach = highest;
      if (passedFrom < 0) passedFrom = i;
      i = to;
      continue;
    }
    if (passedFrom >= 0) {
      const before = farthestOf(blocks, { from: passedFrom, to: i }, farthest);
      if (before >= 0) {
        farthestIndex = before;
        farthest = xs[before] as number;
      }
      passedFrom = -1;
    }
    for (; i < to; i++) {
      const x = xs[i] as number;
      if (x > farthest) {
        if (x - farthest > jump && farthestIndex >= 0 && jumped(input, farthestIndex, i))
          return astray(
            'jumped',
            lastPresent(xs, i - 1, startIndex),
            `jumped by ${percent((x - farthest) * strain.factor)}`,
            strain,
            farthest,
          );
        farthest = x;
        farthestIndex = i;
      } else if (x < farthest - jump && slippedBack(input, farthestIndex, i)) {
        return astray(
          'slipped-back',
          farthestIndex,
          `went back by ${percent((farthest - x) * strain.factor)} while the specimen still carried load`,
          strain,
          farthest,
        );
      }
    }
    reach = farthest;
  }
  const last = lastPresent(xs, endIndex, startIndex);
  return last >= 0 && endIndex - last > 2 + 0.01 * (endIndex - startIndex)
    ? astray('silent', last, 'gave no more readings', strain, xs[last] as number)
    : null;
}

/** The farthest reading of whole stretches that is above `farthest`; −1 if none is. From the last one back. */
function farthestOf(
  { column, largest }: ExtensionBlocks,
  { from, to }: IndexRange,
  farthest: number,
): number {
  let best = -1;
  let top = farthest;
  for (let end = to; end > from;) {
    const k = Math.floor((end - 1) / BLOCK_READINGS);
    const start = Math.max(from, k * BLOCK_READINGS);
    if ((largest[k] as number) > top)
      for (let i = start; i < end; i++)
        if ((column[i] as number) > top) {
          top = column[i] as number;
          best = i;
        }
    end = start;
  }
  return best;
}

/** A step up that is far larger than the usual ones before it, without the fall of force of yielding or tearing. */
function jumped(
  { stress, strain, timeS, startIndex, endIndex, peakMpa }: ExtensionTrustInput,
  farthestIndex: number,
  index: number,
): boolean {
  const xs = strain.column;
  const before = lastPresent(xs, index - 1, startIndex);
  // Over a stretch without readings the specimen went on extending; that is no jump of the extensometer.
  if (timeS !== undefined && readingsMissing(timeS, before, index, startIndex)) return false;
  const step = (xs[index] as number) - (xs[before] as number);
  const { usual, steps } = usualStep(xs, before, startIndex);
  if (steps < NEIGHBOURHOOD || !(step > JUMP_STEPS * usual)) return false;
  // Coming out of an unloading loop, the farthest extension is older than the reading before.
  if (before !== farthestIndex && (xs[farthestIndex] as number) - (xs[before] as number) > step / 2)
    return false;
  // Readings that are as far apart from there on come more seldom; that is no jump either.
  if (NEXT_STEPS * meanStepAfter(xs, index, endIndex) > step) return false;
  const fall = channelValue(stress, before) - channelValue(stress, index);
  return fall < FALL_WITH_YIELD * peakMpa && staysAway(xs, index, endIndex, (xs[index] as number) - step / 2);
}

function readingsMissing(ts: Float64Array, before: number, index: number, from: number): boolean {
  const first = Math.max(from, before - NEIGHBOURHOOD);
  const usual = ((ts[before] as number) - (ts[first] as number)) / (before - first);
  return usual > 0 && (ts[index] as number) - (ts[before] as number) > MISSING_STEPS * usual;
}

/** Mean size of the steps between the readings before. */
function usualStep(xs: Float64Array, index: number, from: number): { usual: number; steps: number } {
  let total = 0;
  let steps = 0;
  let later = xs[index] as number;
  for (let i = index - 1; i >= from && steps < 2 * NEIGHBOURHOOD; i--) {
    const x = xs[i] as number;
    if (x !== x) continue;
    total += Math.abs(later - x);
    steps += 1;
    later = x;
  }
  return { usual: steps === 0 ? 0 : total / steps, steps };
}

/** Mean size of the next few steps; 0 where there are none. */
function meanStepAfter(xs: Float64Array, index: number, end: number): number {
  let before = xs[index] as number;
  let total = 0;
  let steps = 0;
  for (let i = index + 1; i <= end && steps < STEPS_AFTER; i++) {
    const x = xs[i] as number;
    if (x !== x) continue;
    total += Math.abs(x - before);
    steps += 1;
    before = x;
  }
  return steps === 0 ? 0 : total / steps;
}

/** Back by more than the elastic recovery of the fall of force allows, and not for a single stray reading. */
function slippedBack(
  { stress, strain, endIndex, slopeMpa }: ExtensionTrustInput,
  farthestIndex: number,
  index: number,
): boolean {
  const xs = strain.column;
  const fall = channelValue(stress, farthestIndex) - channelValue(stress, index);
  // With no slope a wide margin is allowed for.
  const recovery = slopeMpa === null ? Infinity : (RECOVERY_MARGIN * Math.max(0, fall)) / slopeMpa;
  const back = ((xs[farthestIndex] as number) - (xs[index] as number)) * strain.factor;
  return (
    back > JUMP_STRAIN + (fall > 0 ? recovery : 0) &&
    !comesBack(xs, index, endIndex, (xs[farthestIndex] as number) - JUMP_STRAIN / strain.factor)
  );
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
  peakMpa,
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
  const moved = Math.abs(finalX - (xs[first] as number)) * strain.factor;
  const loadGoesOn =
    swing > STOPPED_LOAD_FRACTION * peakMpa && slopeMpa !== null && moved < (0.5 * swing) / slopeMpa;
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
