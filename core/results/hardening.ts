/**
 * n and K of Ludwik's form σ = K·εᵖⁿ (ISO 10275, ASTM E646; from memory): a straight line through ln σ over ln ε in
 * a stated range of plastic strain, true values, up to the maximum force.
 *
 * The readings of the range are put together in strain steps of equal ratio, each by the mean of up to 1 024 readings
 * in its middle, and the line goes through the means, so that a densely recorded part doesn't outweigh the rest.
 */
import { type IndexRange, channelValue, columnValue, lastPresent } from '../curve/channel.ts';
import { firstAtLeast } from '../curve/record-blocks.ts';
import { numberText } from '../quantity/number-text.ts';
import type { EvaluatedRecord } from './evaluated-record.ts';
import type { EvaluationOptions } from './evaluation.ts';
import { type Finding, type Reason, given, withhold } from './finding.ts';
import type { Maximum } from './peak.ts';
import { FROM_TRAVEL } from './record-columns.ts';
import type { Result } from './result.ts';

const N = 'tensile strain hardening exponent';
const K = 'strength coefficient';
const SOURCE = 'ISO 10275 and ASTM E646 (from memory)';
const FROM_PERCENT = 2;
const TO_PERCENT = 20;
const STEPS = 24;
/** Readings whose mean makes one point; more don't make it better than the channels are. */
const READINGS_PER_STEP_MAX = 1_024;
/** Points that the standards ask for at least. */
const STEPS_FILLED_MIN = 5;
/** The range must be at least this wide as a ratio of strains. */
const RANGE_RATIO_MIN = 1.5;

export interface HardeningLine {
  readonly exponent: number;
  readonly strengthMpa: number;
  readonly exponentUncertainty: number;
  readonly determination: number;
  readonly points: number;
}

export function hardeningFindings(
  record: EvaluatedRecord,
  maximum: Maximum,
  options: EvaluationOptions,
): Finding[] {
  const outcome = hardening(record, maximum, options);
  if (!outcome.ok) {
    const { code, reason } = outcome.why;
    return [withhold('n', N, code, reason), withhold('K', K, code, reason)];
  }
  const { line, fromPercent, toPercent } = outcome;
  const range = `${numberText(fromPercent, 3)} % to ${numberText(toPercent, 3)} %`;
  const remarks =
    record.columns.strainSource?.channel === 'travel' ? { remarks: [`Strain is ${FROM_TRAVEL}.`] } : {};
  const common: Pick<Result, 'rounded' | 'method' | 'working' | 'remarks'> = {
    rounded: [],
    method: `line through ln σ over ln ε (true, plastic) from ${range} plastic strain, ${String(line.points)} steps of equal ratio`,
    working: {
      formula: 'ln σ = ln K + n·ln ε',
      inputs: [
        { symbol: 'ε1', name: 'lower plastic strain', value: fromPercent, unit: '%', from: 'range' },
        { symbol: 'ε2', name: 'upper plastic strain', value: toPercent, unit: '%', from: 'range' },
        {
          symbol: 'R²',
          name: 'coefficient of determination',
          value: line.determination,
          unit: '1',
          from: 'line',
        },
        {
          symbol: 'u(n)',
          name: 'standard uncertainty of n',
          value: line.exponentUncertainty,
          unit: '1',
          from: 'scatter about the line',
        },
      ],
      substituted: `n = ${numberText(line.exponent, 4)}, K = ${numberText(line.strengthMpa)} MPa`,
      source: SOURCE,
    },
    ...remarks,
  };
  return [
    given({ symbol: 'n', name: N, value: line.exponent, unit: '1', ...common }),
    given({ symbol: 'K', name: K, value: line.strengthMpa, unit: 'MPa', ...common }),
  ];
}

type HardeningOutcome =
  | {
      readonly ok: true;
      readonly line: HardeningLine;
      readonly fromPercent: number;
      readonly toPercent: number;
    }
  | { readonly ok: false; readonly why: Reason };

function hardening(record: EvaluatedRecord, maximum: Maximum, options: EvaluationOptions): HardeningOutcome {
  const no = (code: string, reason: string): HardeningOutcome => ({ ok: false, why: { code, reason } });
  const { stress, strain, line, yielding } = record;
  const reason = record.strainReason ?? record.lineReason;
  if (reason !== null) return { ok: false, why: reason };
  if (stress === undefined || strain === undefined || line === null)
    return no('no-strain', 'The curve has no strain.');
  const slope = line.fit.slope;
  const last = Math.min(maximum.index, record.trust.until);
  const foot = -line.fit.intercept / slope;
  const truePlastic = (engineering: number, mpa: number): number =>
    Math.log1p(engineering) - (mpa * (1 + engineering)) / slope;
  const there = lastPresent(strain.column, last, record.startIndex);
  const reached = 100 * truePlastic(channelValue(strain, there) - foot, channelValue(stress, last));
  const wantedFrom = options.hardeningRangePercent?.from ?? FROM_PERCENT;
  const wantedTo = options.hardeningRangePercent?.to ?? TO_PERCENT;
  const plateauEnd =
    yielding?.present === true && yielding.point.hardeningStrain !== null
      ? 100 * Math.log1p(yielding.point.hardeningStrain - foot)
      : 0;
  const fromPercent = Math.max(wantedFrom, plateauEnd);
  const toPercent = Math.min(wantedTo, reached);
  if (!(toPercent >= RANGE_RATIO_MIN * fromPercent))
    return no(
      'hardening-range-too-short',
      `Between ${numberText(wantedFrom, 3)} % plastic strain${plateauEnd > wantedFrom ? ` (${numberText(plateauEnd, 3)} %, end of the yield point extension)` : ''} and the maximum force (${numberText(reached > 0 ? reached : 0, 3)} %) the curve is too short for a line; state another range.`,
    );

  const hardened = ludwikLine(record, fromPercent / 100, toPercent / 100, last, foot, slope);
  return hardened === null
    ? no(
        'hardening-readings-too-few',
        `Fewer than ${String(STEPS_FILLED_MIN)} different strains lie between ${numberText(fromPercent, 3)} % and ${numberText(toPercent, 3)} %.`,
      )
    : { ok: true, line: hardened, fromPercent, toPercent };
}

/**
 * The readings between two engineering strains that stand for the range, in steps by first passage; the mean of each
 * step as true values. Within a step true and engineering strain are as good as proportional.
 */
function ludwikLine(
  record: EvaluatedRecord,
  from: number,
  to: number,
  last: number,
  foot: number,
  slope: number,
): HardeningLine | null {
  const { stress, strain, blocks, startIndex } = record;
  const { extension } = blocks;
  if (stress === undefined || strain === undefined || extension === undefined) return null;
  const engineeringOf = (plastic: number): number => engineeringStrain(record, plastic, last, foot, slope);
  const first = engineeringOf(from);
  const end = engineeringOf(to);
  const edges = Array.from({ length: STEPS + 1 }, (_, k) => first * (end / first) ** (k / STEPS));
  let i = firstAtLeast(extension, { from: startIndex, to: last + 1 }, columnValue(strain, first + foot));
  const xs: number[] = [];
  const ys: number[] = [];
  for (const edge of edges.slice(1)) {
    const stop = firstAtLeast(extension, { from: i, to: last + 1 }, columnValue(strain, edge + foot));
    const means = meansOf(record, { from: i, to: stop });
    i = stop;
    if (means === null) continue;
    const e = (means.x - strain.zero) * strain.factor - foot;
    const sigma = (means.y - stress.zero) * stress.factor * (1 + e);
    const epsilon = Math.log1p(e) - sigma / slope;
    if (!(epsilon > 0 && sigma > 0)) continue;
    xs.push(Math.log(epsilon));
    ys.push(Math.log(sigma));
  }
  return xs.length < STEPS_FILLED_MIN ? null : lineThrough(xs, ys);
}

/** The engineering strain, from the foot, at which the true plastic strain of the curve first reaches a value. */
function engineeringStrain(
  { stress, strain, blocks, startIndex }: EvaluatedRecord,
  plastic: number,
  last: number,
  foot: number,
  slope: number,
): number {
  if (stress === undefined || strain === undefined || blocks.extension === undefined) return Number.NaN;
  // εp = ln(1 + e) − s·(1 + e)/E, with the stress read off the curve at the strain reached so far.
  let e = Math.expm1(plastic);
  for (let round = 0; round < 4; round++) {
    const index = Math.min(
      last,
      firstAtLeast(blocks.extension, { from: startIndex, to: last + 1 }, columnValue(strain, e + foot)),
    );
    const mpa = channelValue(stress, lastPresent(stress.column, index, startIndex));
    e = Math.expm1(plastic + (mpa * (1 + e)) / slope);
  }
  return e;
}

/** Means of the columns over a range, of its middle where it is long; null where no reading has both. */
function meansOf(
  { load, strain }: EvaluatedRecord,
  { from, to }: IndexRange,
): { x: number; y: number } | null {
  if (strain === undefined) return null;
  const xs = strain.column;
  const ys = load.column;
  const spare = Math.max(0, Math.floor((to - from - READINGS_PER_STEP_MAX) / 2));
  let n = 0;
  let sx = 0;
  let sy = 0;
  for (let i = from + spare; i < to - spare; i++) {
    const x = xs[i] as number;
    const y = ys[i] as number;
    if (!(x === x && y === y)) continue;
    n += 1;
    sx += x;
    sy += y;
  }
  return n === 0 ? null : { x: sx / n, y: sy / n };
}

function lineThrough(xs: readonly number[], ys: readonly number[]): HardeningLine {
  const n = xs.length;
  const meanX = xs.reduce((s, x) => s + x, 0) / n;
  const meanY = ys.reduce((s, y) => s + y, 0) / n;
  let vx = 0;
  let vy = 0;
  let c = 0;
  xs.forEach((x, k) => {
    const dx = x - meanX;
    const dy = (ys[k] ?? 0) - meanY;
    vx += dx * dx;
    vy += dy * dy;
    c += dx * dy;
  });
  const exponent = c / vx;
  return {
    exponent,
    strengthMpa: Math.exp(meanY - exponent * meanX),
    exponentUncertainty: Math.sqrt(Math.max(0, vy - exponent * c) / (n - 2) / vx),
    determination: vy > 0 ? Math.min(1, (c * c) / (vx * vy)) : 0,
    points: n,
  };
}
