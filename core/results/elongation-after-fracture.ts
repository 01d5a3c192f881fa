/**
 * A, percentage elongation after fracture, from the two halves fitted together: value, whether the place of the
 * fracture lets it count, and the method for a fracture near a mark (intervals punched before the test).
 */
import { numberText } from '../quantity/number-text.ts';
import type { IntervalMeasurement, MeasuredDimension, Specimen } from '../specimen/specimen.ts';
import { type Finding, given, withhold } from './finding.ts';
import { type FracturePlace, placeRemarks } from './fracture-place.ts';
import type { Result, WorkingInput } from './result.ts';

export interface ElongationOptions {
  /** Minimum that the product or code demands, %; an elongation that meets it counts wherever it broke. */
  readonly requiredPercent?: number;
}

const SYMBOL = 'A';
const NAME = 'percentage elongation after fracture';
const SOURCE =
  'ISO 6892-1 and IS 1608:2005 clause 11 (original gauge length); ASTM E8/E8M and B557-02a 7.8 in the same terms';

/** A in percent from L0 and Lu, or from intervals; null where nobody has measured the halves. */
export function elongationAfterFracture(
  specimen: Specimen | null,
  options: ElongationOptions = {},
): Finding | null {
  if (specimen === null) return null;
  const { gaugeLength, finalGaugeLength, fractureIntervals } = specimen;
  if (finalGaugeLength === undefined && fractureIntervals === undefined) return null;
  if (gaugeLength === undefined)
    return withhold(
      SYMBOL,
      NAME,
      'no-gauge-length',
      'The final gauge length is measured, but the original one is not given; enter the gauge length that was marked.',
    );
  if (fractureIntervals !== undefined) return byIntervals(gaugeLength, fractureIntervals);
  if (finalGaugeLength === undefined) return null;
  if (finalGaugeLength.mean < gaugeLength.mean)
    return withhold(
      SYMBOL,
      NAME,
      'shorter-than-before',
      `The refitted halves (${lengthText(finalGaugeLength.mean)}) are shorter than the original gauge length (${lengthText(gaugeLength.mean)}); measure both again.`,
    );
  return given(fromHalves(gaugeLength, finalGaugeLength, specimen.distanceToNearestMarkMm, options));
}

function fromHalves(
  original: MeasuredDimension,
  final: MeasuredDimension,
  distanceMm: number | undefined,
  options: ElongationOptions,
): Result {
  const value = elongationPercent(original.mean, final.mean);
  const place: FracturePlace = {
    gaugeLengthMm: original.mean,
    finalGaugeLengthMm: final.mean,
    elongationPercent: value,
    ...(distanceMm === undefined ? {} : { distanceToNearestMarkMm: distanceMm }),
    ...(options.requiredPercent === undefined ? {} : { requiredPercent: options.requiredPercent }),
  };
  const remarks = [...placeRemarks(place), ...smallElongation(value)];
  return {
    symbol: SYMBOL,
    name: NAME,
    value,
    unit: '%',
    rounded: [],
    method: `halves fitted together, gauge length ${asTyped(original)}`,
    working: {
      formula: 'A = (Lu − L0)/L0 × 100 %',
      inputs: [
        lengthInput('L0', 'original gauge length', original),
        lengthInput('Lu', 'final gauge length', final),
      ],
      substituted: `A = (${lengthText(final.mean)} − ${lengthText(original.mean)}) / ${lengthText(original.mean)} × 100 % = ${numberText(value)} %`,
      source: SOURCE,
    },
    ...(remarks.length === 0 ? {} : { remarks }),
  };
}

/** (Lu − L0)/L0 in percent. */
export function elongationPercent(gaugeLengthMm: number, finalGaugeLengthMm: number): number {
  return ((finalGaugeLengthMm - gaugeLengthMm) / gaugeLengthMm) * 100;
}

/**
 * A by intervals: L0 was marked in N equal parts. X is the mark nearest the fracture on the short half's side at the
 * gauge end, Y a mark on the long half as far from the fracture as X, n the intervals between X and Y.
 * N − n even: Z lies (N − n)/2 intervals beyond Y, A = (XY + 2·YZ − L0)/L0; N − n odd: Z′ and Z″ lie (N − n ∓ 1)/2
 * beyond Y, A = (XY + YZ′ + YZ″ − L0)/L0 (ISO 6892-1, annex on fractures outside the middle; from memory).
 */
function byIntervals(original: MeasuredDimension, m: IntervalMeasurement): Finding {
  const rest = m.intervals - m.between;
  const even = rest % 2 === 0;
  const [first, second] = m.beyondMm;
  if (rest < 0 || first === undefined || (even ? second !== undefined : second === undefined))
    return withhold(
      SYMBOL,
      NAME,
      'intervals-wrong',
      `With ${String(m.intervals)} intervals and ${String(m.between)} between X and Y, ${even ? 'one length from Y (to Z) is' : 'two lengths from Y (to Z′ and Z″) are'} needed; measure again.`,
    );
  const beyond = even ? 2 * first : first + (second ?? 0);
  const value = ((m.betweenMm + beyond - original.mean) / original.mean) * 100;
  const beyondText = even ? `2 × ${lengthText(first)}` : `${lengthText(first)} + ${lengthText(second ?? 0)}`;
  return given({
    symbol: SYMBOL,
    name: NAME,
    value,
    unit: '%',
    rounded: [],
    method: `intervals, for a fracture near a mark: ${String(m.intervals)} intervals, ${String(m.between)} between X and Y`,
    working: {
      formula: even ? 'A = (XY + 2·YZ − L0)/L0 × 100 %' : 'A = (XY + YZ′ + YZ″ − L0)/L0 × 100 %',
      inputs: [
        lengthInput('L0', 'original gauge length', original),
        { symbol: 'XY', name: 'length between X and Y', value: m.betweenMm, unit: 'mm', from: 'measured' },
        ...m.beyondMm.map((value, i): WorkingInput => ({
          symbol: even ? 'YZ' : i === 0 ? 'YZ′' : 'YZ″',
          name: 'length beyond Y',
          value,
          unit: 'mm',
          from: 'measured',
        })),
      ],
      substituted: `A = (${lengthText(m.betweenMm)} + ${beyondText} − ${lengthText(original.mean)}) / ${lengthText(original.mean)} × 100 % = ${numberText(value)} %`,
      source: 'ISO 6892-1, annex on measuring elongation by intervals (from memory)',
    },
  });
}

/** Below this the marks' own uncertainty is a large part of the value. */
const SMALL_PERCENT = 5;

function smallElongation(value: number): string[] {
  return value >= SMALL_PERCENT
    ? []
    : [
        'The elongation is under 5 %: ISO 6892-1 asks for special care in measuring it, ASTM E8/E8M for a separate method at 3 % and below (from memory).',
      ];
}

function lengthInput(symbol: string, name: string, dimension: MeasuredDimension): WorkingInput {
  const count = dimension.measurements.length;
  return {
    symbol,
    name,
    value: dimension.mean,
    unit: 'mm',
    from: count === 1 ? `measured as ${asTyped(dimension)}` : `mean of ${String(count)} measurements`,
  };
}

const asTyped = (dimension: MeasuredDimension): string =>
  dimension.measurements[0]?.text ?? lengthText(dimension.mean);

const lengthText = (mm: number): string => `${numberText(mm)} mm`;
