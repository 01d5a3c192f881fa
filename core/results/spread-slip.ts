/**
 * A slip of the extensometer that takes many readings: above the elastic line the extension grows by more than the force
 * explains, and then the curve rises as steeply as the elastic line again. No metal does that of itself: once it yields,
 * its curve never gets elastic again while the stress reaches new heights. (A pause with the force held does it too.)
 */
import type { Channel } from '../curve/channel.ts';
import { channelValue } from '../curve/channel.ts';
import type { ElasticLine } from './elastic-line.ts';
import type { ExtensionStep } from './extension-steps.ts';

export interface SpreadSlipInput {
  readonly stress: Channel;
  readonly strain: Channel;
  readonly line: ElasticLine;
  /** First reading past the part that is looked at. */
  readonly to: number;
  readonly peakMpa: number;
  readonly noiseMpa: number;
}

/** The curve above the line is looked at in steps of new heights of stress, each this part of the maximum. */
const STEP_PART = 0.02;
/** So many steps on end as steep as this part of the elastic slope are elastic again. */
const STEEP_STEPS = 4;
const STEEP_PART = 0.85;
/** Extension beyond the line that is a slip, as a strain; and in scatter of the line. */
const SLIP_STRAIN = 2.5e-4;
const SLIP_SCATTER = 4;
/** Extension beyond the line at which every metal has yielded. */
const YIELDED_STRAIN = 0.006;

interface HeightStep {
  /** First reading that reached it. */
  readonly index: number;
  /** Mean extension beyond the elastic line, as a strain. */
  readonly beyond: number;
  readonly stressMpa: number;
}

/** The slip; null where the extension beyond the line only grows, as it does in yielding. */
export function spreadSlip(input: SpreadSlipInput): ExtensionStep | null {
  const { line, noiseMpa } = input;
  const { slope } = line.fit;
  const steps = heightSteps(input);
  const [first] = steps;
  const least = Math.max(SLIP_STRAIN, (SLIP_SCATTER * noiseMpa) / slope);
  for (let k = 1; k + STEEP_STEPS < steps.length; k++) {
    const here = steps[k];
    const later = steps[k + STEEP_STEPS];
    if (first === undefined || here === undefined || later === undefined) break;
    const moved = here.beyond - first.beyond;
    if (!(moved > least)) continue;
    const elastic = (later.stressMpa - here.stressMpa) / slope;
    if (!(Math.abs(later.beyond - here.beyond) < (1 / STEEP_PART - 1) * elastic)) continue;
    const before = steps.slice(0, k).findLast((step) => step.beyond - first.beyond < moved / 10) ?? first;
    return { index: here.index, strain: moved, from: before.index };
  }
  return null;
}

function heightSteps({ stress, strain, line, to, peakMpa }: SpreadSlipInput): HeightStep[] {
  const { slope, intercept } = line.fit;
  const foot = -intercept / slope;
  const width = STEP_PART * peakMpa;
  const steps: HeightStep[] = [];
  let height = -Infinity;
  let index = line.range.to;
  let n = 0;
  let beyond = 0;
  let total = 0;
  const close = (): void => {
    if (n > 0) steps.push({ index, beyond: beyond / n, stressMpa: total / n });
    n = 0;
    beyond = 0;
    total = 0;
  };
  for (let i = line.range.to; i < to; i++) {
    const y = channelValue(stress, i);
    const past = channelValue(strain, i) - foot - y / slope;
    if (past > YIELDED_STRAIN) break;
    const reached = Math.floor(y / width);
    if (reached > height) {
      close();
      height = reached;
      index = i;
    }
    // Readings below the height (an unloading, a fall) belong to none.
    if (!(reached === height && past === past)) continue;
    n += 1;
    beyond += past;
    total += y;
  }
  close();
  return steps;
}
