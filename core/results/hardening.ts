/**
 * n and K of Ludwik's form σ = K·εᵖⁿ (ISO 10275, ASTM E646; from memory): a straight line through ln σ over ln ε in
 * a stated range of plastic strain, true values, up to the maximum force.
 *
 * The readings of the range are put together in strain steps of equal ratio, each by its mean, and the line goes
 * through the means: every reading counts, and a densely recorded part doesn't outweigh the rest.
 */
import { channelValue, lastPresent } from '../curve/channel.ts';
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
      substituted: `n = ${numberText(line.exponent, 4)}, K = ${numberText(line.strengthMpa, 4)} MPa`,
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

function ludwikLine(
  { stress, strain, startIndex }: EvaluatedRecord,
  from: number,
  to: number,
  last: number,
  foot: number,
  slope: number,
): HardeningLine | null {
  if (stress === undefined || strain === undefined) return null;
  const ratio = Math.log(to / from) / STEPS;
  const edges = Float64Array.from({ length: STEPS + 1 }, (_, k) => from * Math.exp(ratio * k));
  const count = new Float64Array(STEPS);
  const sumStrain = new Float64Array(STEPS);
  const sumStress = new Float64Array(STEPS);
  let step = 0;
  for (let i = startIndex; i <= last; i++) {
    const e = ((strain.column[i] as number) - strain.zero) * strain.factor - foot;
    // Engineering strain is never below the plastic true strain, so most readings before the range end here.
    if (!(e > from)) continue;
    const s = ((stress.column[i] as number) - stress.zero) * stress.factor;
    const sigma = s * (1 + e);
    const epsilon = Math.log1p(e) - sigma / slope;
    if (!(epsilon >= from && epsilon <= to)) continue;
    while (step < STEPS - 1 && epsilon >= (edges[step + 1] as number)) step += 1;
    while (step > 0 && epsilon < (edges[step] as number)) step -= 1;
    count[step] = (count[step] as number) + 1;
    sumStrain[step] = (sumStrain[step] as number) + epsilon;
    sumStress[step] = (sumStress[step] as number) + sigma;
  }
  let n = 0;
  let sx = 0;
  let sy = 0;
  const xs: number[] = [];
  const ys: number[] = [];
  for (let k = 0; k < STEPS; k++) {
    const filled = count[k] as number;
    if (filled === 0 || !((sumStress[k] as number) > 0)) continue;
    const x = Math.log((sumStrain[k] as number) / filled);
    const y = Math.log((sumStress[k] as number) / filled);
    xs.push(x);
    ys.push(y);
    n += 1;
    sx += x;
    sy += y;
  }
  if (n < STEPS_FILLED_MIN) return null;
  let vx = 0;
  let vy = 0;
  let c = 0;
  xs.forEach((x, k) => {
    const dx = x - sx / n;
    const dy = (ys[k] ?? 0) - sy / n;
    vx += dx * dx;
    vy += dy * dy;
    c += dx * dy;
  });
  const exponent = c / vx;
  return {
    exponent,
    strengthMpa: Math.exp(sy / n - (exponent * sx) / n),
    exponentUncertainty: Math.sqrt(Math.max(0, vy - exponent * c) / (n - 2) / vx),
    determination: vy > 0 ? Math.min(1, (c * c) / (vx * vy)) : 0,
    points: n,
  };
}
