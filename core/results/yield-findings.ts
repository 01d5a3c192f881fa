/** ReH, ReL, Ae and the ratio ReH/Rm, or why the curve has none. */
import { channelValue, lastPresent } from '../curve/channel.ts';
import { numberText } from '../quantity/number-text.ts';
import { type EvaluatedRecord, strainAt } from './evaluated-record.ts';
import { type Finding, given, readingNumber, withhold } from './finding.ts';
import { FROM_TRAVEL } from './record-columns.ts';
import { coarseStep } from './plateau.ts';
import type { YieldPoint } from './yield-point.ts';

const REH = 'upper yield strength';
const REL = 'lower yield strength';
const AE = 'yield point extension';
const ALL = [
  ['ReH', REH],
  ['ReL', REL],
  ['Ae', AE],
] as const;

/** Readings this far apart in stress (part of ReH) before the upper yield may have passed over it. */
const COARSE_FRACTION = 0.01;
/** Noise makes neighbouring readings differ by this many of its standard deviations now and then. */
const NOISE_STEPS = 5;
/** A fall over more strain than this between two readings hides what the force did meanwhile. */
const LEAP_STRAIN = 0.0005;

export function yieldFindings(record: EvaluatedRecord): Finding[] {
  const { stress, yielding } = record;
  const reason = record.strainReason ?? record.lineReason;
  if (stress === undefined || yielding === null || reason !== null) {
    const because = reason ??
      record.columns.stressMissing ?? { code: 'no-strain', reason: 'The curve has no strain.' };
    return ALL.map(([symbol, name]) => withhold(symbol, name, because.code, because.reason));
  }
  if (!yielding.present) {
    const fall =
      yielding.largestFall > 0
        ? `the largest fall is ${numberText(100 * yielding.largestFall, 2)} %`
        : 'the force does not fall';
    const unseen =
      yielding.coarsest >
      COARSE_FRACTION + (NOISE_STEPS * record.noiseMpa) / channelValue(stress, record.peakIndex)
        ? ` Neighbouring readings differ by up to ${numberText(100 * yielding.coarsest, 2)} % there, so a yield point may have passed between them.`
        : '';
    const sentence = `The record shows no yield point: at the start of yielding ${fall}; a fall of ${numberText(100 * yielding.needed, 2)} % with a rise after it would make one.${unseen}`;
    return ALL.map(([symbol, name]) => withhold(symbol, name, 'no-yield-point', sentence));
  }
  const { point } = yielding;
  const remarks = record.columns.strainSource?.channel === 'travel' ? [`Strain is ${FROM_TRAVEL}.`] : [];
  return [
    upper(point, [...remarks, ...coarseRemark(record, point)]),
    lower(point, remarks),
    pointExtension(record, point, [...remarks, ...vagueEndRemark(record, point)]),
  ];
}

/**
 * The rise to it tells: between two readings the force gets no higher than it was rising, however sharply it falls, as
 * long as the extension hasn't leapt with it.
 */
function coarseRemark({ stress, strain, noiseMpa }: EvaluatedRecord, point: YieldPoint): string[] {
  if (stress === undefined) return [];
  const before = lastPresent(stress.column, point.upperIndex - 1, 0);
  const rise = point.upperMpa - channelValue(stress, before);
  const next = nextPresent(stress.column, point.upperIndex + 1);
  const leap =
    next < 0 || strain === undefined
      ? 0
      : channelValue(strain, next) - channelValue(strain, point.upperIndex);
  const fall = leap > LEAP_STRAIN ? point.upperMpa - channelValue(stress, next) : 0;
  const largest =
    (Math.max(fall, Number.isFinite(rise) ? rise : 0) - NOISE_STEPS * noiseMpa) / point.upperMpa;
  return largest > COARSE_FRACTION
    ? [
        `Neighbouring readings at the upper yield differ by ${numberText(100 * largest, 2)} %, so the readings come too slowly for it; the true upper yield may be higher.`,
      ]
    : [];
}

function nextPresent(column: Float64Array, index: number): number {
  let i = index;
  while (i < column.length && Number.isNaN(column[i])) i += 1;
  return i < column.length ? i : -1;
}

/** A force that is coarse or noisy against the hardening leaves the end of yielding open. */
function vagueEndRemark({ stress, load, noiseMpa }: EvaluatedRecord, point: YieldPoint): string[] {
  if (stress === undefined) return [];
  const step = coarseStep(load, point.upperIndex) * stress.factor;
  const vague = Math.max(step, 2 * noiseMpa);
  return vague > VAGUE_FRACTION * point.lowerMpa
    ? [
        step >= 2 * noiseMpa
          ? `The force shows in steps of ${numberText(step, 2)} MPa, so where yielding passes into hardening is no sharper than the hardening of one step.`
          : `The force scatters by ${numberText(noiseMpa, 2)} MPa, so where yielding passes into hardening is no sharper than that leaves it.`,
      ]
    : [];
}

/** Steps or noise above this part of the lower yield blur the end of the plateau. */
const VAGUE_FRACTION = 0.002;

const withRemarks = (remarks: readonly string[]): { remarks?: readonly string[] } =>
  remarks.length === 0 ? {} : { remarks };

function upper(point: YieldPoint, remarks: readonly string[]): Finding {
  return given({
    symbol: 'ReH',
    name: REH,
    value: point.upperMpa,
    unit: 'MPa',
    rounded: [],
    method: 'highest reading before the first fall of force',
    working: {
      formula: 'ReH = highest R before the first fall',
      inputs: [],
      substituted: `ReH = ${numberText(point.upperMpa)} MPa, reading ${readingNumber(point.upperIndex)}; then a fall of ${numberText(100 * point.fall, 3)} %`,
      source:
        'ISO 6892-1, Annex A: fall of at least 0.5 %, then at least 0.05 % strain without exceeding it (from memory)',
    },
    atIndex: point.upperIndex,
    ...withRemarks(remarks),
  });
}

function lower(point: YieldPoint, remarks: readonly string[]): Finding {
  return given({
    symbol: 'ReL',
    name: REL,
    value: point.lowerMpa,
    unit: 'MPa',
    rounded: [],
    method: `lowest ${point.lowerReadings > 1 ? `mean of ${String(point.lowerReadings)} readings (the record is noisy)` : 'reading'} while yielding${point.transientLeftOut ? ', the first transient left out' : ''}`,
    working: {
      formula: 'ReL = lowest R while yielding, initial transient ignored',
      inputs: [],
      substituted: `ReL = ${numberText(point.lowerMpa)} MPa, reading ${readingNumber(point.lowerIndex)}`,
      source: 'ISO 6892-1, lower yield strength (from memory)',
      ...(point.transientLeftOut
        ? { steps: [`first transient left out: ${numberText(point.lowestMpa)} MPa`] }
        : {}),
    },
    atIndex: point.lowerIndex,
    ...withRemarks(remarks),
  });
}

function pointExtension(record: EvaluatedRecord, point: YieldPoint, remarks: readonly string[]): Finding {
  if (point.hardeningStrain === null)
    return withhold(
      'Ae',
      AE,
      'no-hardening',
      'The record shows no start of uniform work hardening after the yield point, so the end of yielding is not known.',
    );
  const from = 100 * strainAt(record, point.upperIndex);
  const to = 100 * (point.hardeningStrain - record.zeroStrain);
  const value = to - from;
  if (!(value > 0))
    return withhold(
      'Ae',
      AE,
      'yielding-too-short',
      'Yielding passes into hardening too soon after the upper yield to measure an extension between them.',
    );
  return given({
    symbol: 'Ae',
    name: AE,
    value,
    unit: '%',
    rounded: [],
    method: 'from the upper yield to where the last minimum’s stress meets the steepest hardening',
    working: {
      formula: 'Ae = e(start of hardening) − e(ReH)',
      inputs: [
        {
          symbol: 'e(hardening)',
          name: 'extension at the start of uniform hardening',
          value: to,
          unit: '%',
          from: 'horizontal through the last minimum, met by the steepest line of the hardening after it',
        },
        {
          symbol: 'e(ReH)',
          name: 'extension at the upper yield',
          value: from,
          unit: '%',
          from: `reading ${readingNumber(point.upperIndex)}`,
        },
      ],
      substituted: `Ae = ${numberText(to)} % − ${numberText(from)} % = ${numberText(value)} %`,
      source: 'ISO 6892-1, percentage yield point extension (from memory)',
    },
    atIndex: Math.min(point.hardeningIndex, record.columns.length - 1),
    ...withRemarks(remarks),
  });
}
