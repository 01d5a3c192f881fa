/**
 * A slip of the extensometer that takes many readings: the extension grows by more than the force explains, and then
 * the curve rises as steeply as the elastic line again. No metal does that of itself: once it yields, its curve never
 * gets elastic again while the stress reaches new heights. (A pause with the force held does it too.)
 *
 * It is looked for twice: in the elastic part, before any line is fitted there, by the slopes on either side of it; and
 * above the line, against the line.
 */
import type { ElasticLine } from './elastic-line.ts';
import type { ExtensionStep } from './extension-steps.ts';
import type { HeightStep } from './height-steps.ts';

/** Steps of height on either side over which the slope is told. */
const STEEP_STEPS = 4;

/** Fewer readings on a side tell neither its slope nor the noise. */
const SIDE_READINGS_MIN = 8;

/** A slip in the elastic part: its least size as a strain, and in standard deviations of what noise makes of it. */
const ELASTIC_SLIP_STRAIN = 1.2e-4;
const ELASTIC_SLIP_SCATTER = 7;
/** It takes no more steps of height than this, and in it the curve is less steep by at least this part. */
const ELASTIC_SLIP_STEPS_MAX = 14;
const LESS_STEEP_PART = 0.35;
/** So much of the largest figure for it is all of it. */
const WHOLE_PART = 0.97;
/** Slopes before and after differ by no more than this part, beside what noise makes of them. */
const PARALLEL_PART = 0.12;
/** The elastic compliance is that which a fifth of the curve falls short of; both sides lie this near to it. */
const ELASTIC_QUANTILE = 0.2;
const ELASTIC_PART = 0.25;

/** Of a coarse channel; a step of height shifts by up to one of its own, however many readings it has. */
const QUANTA_MIN = 3;

/** Standard deviations of the noise of both channels and, where they are coarse, their steps: MPa and strain. */
export interface ChannelsNoise {
  readonly stressMpa: number;
  readonly strain: number;
  readonly stressStepMpa: number;
  readonly strainStep: number;
}

/** The slip in the elastic part; null where there is none, or too few steps tell. */
export function slipInElasticPart(steps: readonly HeightStep[], noise: ChannelsNoise): ExtensionStep | null {
  const compliances = steps.slice(STEEP_STEPS).map((step, k) => complianceBetween(steps[k], step));
  const rising = compliances.filter((c) => c > 0).sort((a, b) => a - b);
  const elastic = rising[Math.floor(ELASTIC_QUANTILE * rising.length)];
  if (elastic === undefined) return null;
  const isElastic = (c: number): boolean => Math.abs(c / elastic - 1) < ELASTIC_PART;
  const found: FoundSlip[] = [];
  for (let k = STEEP_STEPS; k + STEEP_STEPS + 1 < steps.length; k++) {
    const before = compliances[k - STEEP_STEPS] ?? Number.NaN;
    if (!isElastic(before) || readingsIn(steps, k - STEEP_STEPS) < SIDE_READINGS_MIN) continue;
    for (let m = k + 1; m <= k + ELASTIC_SLIP_STEPS_MAX && m + STEEP_STEPS < steps.length; m++) {
      const after = compliances[m] ?? Number.NaN;
      const [here, there] = [steps[k], steps[m]];
      if (here === undefined || there === undefined || !isElastic(after)) continue;
      if (readingsIn(steps, m) < SIDE_READINGS_MIN) continue;
      const usual = (before + after) / 2;
      const rise = there.stressMpa - here.stressMpa;
      const moved = there.strain - here.strain - usual * rise;
      const scatter = scatterOf(steps, k, m, usual, noise);
      const coarse = QUANTA_MIN * (noise.strainStep + usual * noise.stressStepMpa);
      if (!(moved > Math.max(ELASTIC_SLIP_STRAIN, ELASTIC_SLIP_SCATTER * scatter, coarse))) continue;
      if (!(moved > LESS_STEEP_PART * usual * rise)) continue;
      const run = (steps[m + STEEP_STEPS]?.stressMpa ?? Number.NaN) - there.stressMpa;
      if (!(Math.abs(after - before) < PARALLEL_PART * usual + (3 * scatter) / run)) continue;
      found.push({ from: here.index, index: there.index, strain: moved, steps: m - k });
    }
  }
  // Wider stretches about a slip show it as well; the narrowest that holds nearly all of it is where it is.
  const largest = Math.max(...found.map((slip) => slip.strain));
  const [narrowest] = found
    .filter((slip) => slip.strain > WHOLE_PART * largest)
    .sort((a, b) => a.steps - b.steps || b.strain - a.strain);
  return narrowest === undefined
    ? null
    : { index: narrowest.index, strain: narrowest.strain, from: narrowest.from };
}

interface FoundSlip extends Required<ExtensionStep> {
  /** Steps of height that it takes. */
  readonly steps: number;
}

/** Readings of the steps over which a slope is told, from step `k` on. */
const readingsIn = (steps: readonly HeightStep[], k: number): number =>
  steps.slice(k, k + STEEP_STEPS + 1).reduce((sum, step) => sum + step.readings, 0);

const complianceBetween = (low: HeightStep | undefined, high: HeightStep): number =>
  low === undefined ? Number.NaN : (high.strain - low.strain) / (high.stressMpa - low.stressMpa);

/** Standard deviation of a slip from step `k` to step `m` by the noise of the readings alone, as a strain. */
function scatterOf(
  steps: readonly HeightStep[],
  k: number,
  m: number,
  compliance: number,
  noise: ChannelsNoise,
): number {
  const one = Math.hypot(noise.strain, compliance * noise.stressMpa);
  const of = (j: number): number => one / Math.sqrt(steps[j]?.readings ?? 1);
  // The slopes on either side carry the noise of their ends over to the slip.
  const reach = (m - k) / (2 * STEEP_STEPS);
  return Math.hypot(
    (1 + reach) * of(k),
    (1 + reach) * of(m),
    reach * of(k - STEEP_STEPS),
    reach * of(m + STEEP_STEPS),
  );
}

/** So many steps on end as steep as this part of the elastic slope are elastic again. */
const STEEP_PART = 0.85;
/** Extension beyond the line that is a slip, as a strain; and in scatter of the line. */
const SLIP_STRAIN = 2.5e-4;
const SLIP_SCATTER = 4;
/** Extension beyond the line at which every metal has yielded. */
const YIELDED_STRAIN = 0.006;

/** The slip above the line; null where the extension beyond the line only grows, as it does in yielding. */
export function slipAboveLine(
  all: readonly HeightStep[],
  line: ElasticLine,
  noiseMpa: number,
): ExtensionStep | null {
  const { slope, intercept } = line.fit;
  const beyondLine = all
    .filter(({ index }) => index >= line.range.to)
    .map(({ index, stressMpa, strain }) => ({
      index,
      stressMpa,
      /** Mean extension beyond the elastic line, as a strain. */
      beyond: strain - (stressMpa - intercept) / slope,
    }));
  const yielded = beyondLine.findIndex(({ beyond }) => beyond > YIELDED_STRAIN);
  const steps = yielded < 0 ? beyondLine : beyondLine.slice(0, yielded);
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
