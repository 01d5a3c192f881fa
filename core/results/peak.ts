/**
 * Fm and Rm. ISO 6892-1 takes the maximum after yielding has begun to harden; where an upper yield is higher than
 * that, the absolute maximum is given beside it under its own symbol. A record that still rises where it stops has
 * no maximum force: then the largest reading is given as what it is.
 */
import { channelValue, lastPresent } from '../curve/channel.ts';
import { largestIndex } from '../curve/record-blocks.ts';
import { numberText } from '../quantity/number-text.ts';
import type { EvaluatedRecord } from './evaluated-record.ts';
import { strainAt } from './evaluated-record.ts';
import { goesOnAfterBreak } from './goes-on-after-break.ts';
import { noiseLift } from './noise-lift.ts';
import { type Finding, given, readingNumber, withhold } from './finding.ts';
import type { Result, WorkingInput } from './result.ts';

export interface Maximum {
  /** Reading of the maximum that Fm and Rm rest on. */
  readonly index: number;
  readonly absoluteIndex: number;
  /** True where the record stops while the force still rises. */
  readonly stillRising: boolean;
  /** Why the largest reading is only a lower bound, where the load stood still at it. */
  readonly clipped?: string;
  readonly remarks: readonly string[];
}

/** A maximum this close to the end of the record, in readings or in strain, is no maximum. */
const END_READINGS = 0.005;
const END_STRAIN = 0.01;
/** A fall after the maximum smaller than this part is mentioned. */
const FALL_TO_BE_SURE = 0.002;
/** Noise alone sets the largest and the smallest of many readings this many standard deviations apart. */
const FALL_OF_NOISE = 7;

export function maximumOf(record: EvaluatedRecord): Maximum {
  const { load, blocks, end, peakIndex, yielding } = record;
  let index = peakIndex;
  if (yielding?.present === true && peakIndex <= yielding.point.hardeningIndex) {
    const after = largestIndex(blocks.load, {
      from: yielding.point.hardeningIndex,
      to: end.index + 1,
    });
    if (after >= 0) index = after;
  }
  const remarks: string[] =
    record.strainReason?.code === 'slope-implausible'
      ? [
          'The slope of the elastic part is one that no metal has: one of the units, the area or the gauge length is probably wrong; check before using this value.',
        ]
      : [];
  if (record.unitStep !== null)
    remarks.push(
      'After the marked break the load goes on in another unit, so the pull probably went on and a larger force may have followed.',
    );
  const fault = record.loadFaults.find((f) => f.kind === 'steps' || (f.from <= index && index <= f.to));
  if (fault !== undefined)
    remarks.push(
      `${fault.clause.charAt(0).toUpperCase()}${fault.clause.slice(1)}, so this is not the strength of the specimen for sure.`,
    );
  const goesOn = goesOnAfterBreak(record);
  if (goesOn !== null) remarks.push(goesOn);
  const lift = noiseLift(record, index);
  if (lift !== null) remarks.push(lift);
  const { stress } = record;
  const clipped = record.loadFaults.find(
    (f) =>
      f.kind === 'stands-still' && stress !== undefined && stress.column[f.from] === stress.column[index],
  );
  if (clipped !== undefined)
    return { index, absoluteIndex: peakIndex, stillRising: true, clipped: clipped.clause, remarks };
  const stops = end.kind === 'stops' || end.kind === 'unloaded';
  const stillRising = stops && risesUntil(record, index);
  if (stops && !stillRising) {
    const peak = channelValue(load, index);
    const lowest = smallestFrom(load.column, index, end.index);
    const fall = (peak - (lowest - load.zero) * load.factor) / peak;
    if (fall < FALL_TO_BE_SURE + noiseFall(record, index))
      remarks.push(
        `After the maximum the force falls by only ${numberText(100 * fall, 2)} % before the record stops, so a larger force may have followed.`,
      );
  }
  return { index, absoluteIndex: peakIndex, stillRising, remarks };
}

function risesUntil(record: EvaluatedRecord, index: number): boolean {
  const { end, startIndex, strain } = record;
  if (end.index - index <= Math.max(1, END_READINGS * (end.index - startIndex))) return true;
  if (strain === undefined || record.strainReason !== null) return false;
  const span = strainAt(record, end.index) - strainAt(record, startIndex);
  return strainAt(record, end.index) - strainAt(record, index) < END_STRAIN * span && lateFall(record, index);
}

/** True while the force after the maximum hasn't fallen by anything that tells. */
function lateFall({ load, end }: EvaluatedRecord, index: number): boolean {
  const peak = channelValue(load, index);
  const last = channelValue(load, lastPresent(load.column, end.index, index));
  return peak - last < FALL_TO_BE_SURE * peak;
}

/** What noise makes the force seem to fall by after the maximum, as a part of it. */
function noiseFall({ stress, noiseMpa }: EvaluatedRecord, index: number): number {
  return stress === undefined ? 0 : (FALL_OF_NOISE * noiseMpa) / channelValue(stress, index);
}

function smallestFrom(column: Float64Array, from: number, to: number): number {
  let smallest = Infinity;
  for (let i = from; i <= to; i++) if ((column[i] as number) < smallest) smallest = column[i] as number;
  return smallest;
}

export function maximumFindings(record: EvaluatedRecord, maximum: Maximum): Finding[] {
  return [...forceFindings(record, maximum), ...strengthFindings(record, maximum)];
}

const FM = 'maximum force';
const RM = 'tensile strength (ultimate tensile strength)';
const ISO_MAXIMUM =
  'ISO 6892-1, maximum force; with a yield point the maximum after the start of work hardening (from memory)';

function forceFindings(record: EvaluatedRecord, maximum: Maximum): Finding[] {
  const { force } = record.columns;
  if (force === undefined)
    return [
      withhold(
        'Fm',
        FM,
        'no-force',
        record.columns.stressFrom === 'stress-column'
          ? 'The curve gives stress and no force, so the maximum force is not known.'
          : 'The curve has no readings of force.',
      ),
    ];
  const value = channelValue(force, maximum.index);
  if (maximum.stillRising)
    return [
      withhold('Fm', FM, 'still-rising', boundSentence(maximum, numberText(value), 'N')),
      given(reading(record, maximum, 'Fmax', 'largest force recorded', value, 'N', 'Fmax = largest F')),
    ];
  const findings = [given(reading(record, maximum, 'Fm', FM, value, 'N', 'Fm = largest F'))];
  const absolute = channelValue(force, maximum.absoluteIndex);
  if (absolute > value)
    findings.push(
      given(
        reading(
          record,
          { ...maximum, index: maximum.absoluteIndex, remarks: [] },
          'Fmax',
          'largest force recorded, before work hardening',
          absolute,
          'N',
          'Fmax = largest F of all',
        ),
      ),
    );
  return findings;
}

function strengthFindings(record: EvaluatedRecord, maximum: Maximum): Finding[] {
  const { stress } = record;
  const missing = record.columns.stressMissing;
  if (stress === undefined || missing !== null)
    return [withhold('Rm', RM, missing?.code ?? 'no-stress', missing?.reason ?? 'The curve has no stress.')];
  const value = channelValue(stress, maximum.index);
  if (maximum.stillRising)
    return [
      withhold('Rm', RM, 'still-rising', boundSentence(maximum, numberText(value), 'MPa')),
      given(strength(record, maximum, 'Rmax', 'largest stress recorded, not the tensile strength', value)),
    ];
  const findings = [given(strength(record, maximum, 'Rm', RM, value))];
  const absolute = channelValue(stress, maximum.absoluteIndex);
  if (absolute > value)
    findings.push(
      given(
        strength(
          record,
          { ...maximum, index: maximum.absoluteIndex, remarks: [] },
          'Rmax',
          'largest stress recorded, before work hardening (absolute maximum)',
          absolute,
        ),
      ),
    );
  return findings;
}

const boundSentence = ({ index, clipped }: Maximum, value: string, unit: string): string =>
  clipped !== undefined
    ? `At its largest (${value} ${unit}) ${clipped}: the end of the range of load cell or readout, and only a lower bound.`
    : `The force still rises where the record stops (${value} ${unit} at reading ${readingNumber(index)}) and no break is recorded; that reading is only a lower bound.`;

function strength(
  record: EvaluatedRecord,
  maximum: Maximum,
  symbol: string,
  name: string,
  value: number,
): Result {
  const { areaMm2, force } = record.columns;
  if (record.columns.stressFrom !== 'force' || areaMm2 === undefined || force === undefined)
    return reading(record, maximum, symbol, name, value, 'MPa', `${symbol} = largest R`);
  const forceN = channelValue(force, maximum.index);
  const forceSymbol = symbol === 'Rm' ? 'Fm' : 'Fmax';
  return {
    ...reading(record, maximum, symbol, name, value, 'MPa', `${symbol} = ${forceSymbol} / S0`),
    working: {
      formula: `${symbol} = ${forceSymbol} / S0`,
      inputs: [
        {
          symbol: forceSymbol,
          name: FM,
          value: forceN,
          unit: 'N',
          from: `reading ${readingNumber(maximum.index)}`,
        },
        {
          symbol: 'S0',
          name: 'original cross-section area',
          value: areaMm2,
          unit: 'mm²',
          from: 'measured dimensions of the specimen',
        },
      ],
      substituted: `${symbol} = ${numberText(forceN)} N / ${numberText(areaMm2)} mm² = ${numberText(value)} MPa`,
      source: ISO_MAXIMUM,
    },
  };
}

function reading(
  record: EvaluatedRecord,
  maximum: Maximum,
  symbol: string,
  name: string,
  value: number,
  unit: 'N' | 'MPa',
  formula: string,
): Result {
  const { columns } = record;
  const hardening = record.yielding?.present === true && maximum.index !== maximum.absoluteIndex;
  const steps: string[] = [];
  const inputs: WorkingInput[] = [];
  const time = columns.timeS?.[maximum.index];
  if (time !== undefined && Number.isFinite(time)) {
    inputs.push({
      symbol: 't',
      name: 'time there',
      value: time,
      unit: 's',
      from: 'time of the reading, by the clock of the curve',
    });
    steps.push(`at ${numberText(time)} s by the clock of the curve`);
  }
  const strain = record.strainReason === null ? strainAt(record, maximum.index) : Number.NaN;
  if (Number.isFinite(strain) && maximum.index <= record.trust.until) {
    const percent = 100 * strain;
    inputs.push({ symbol: 'e', name: 'extension there', value: percent, unit: '%', from: 'same reading' });
    steps.push(`at ${numberText(percent, 4)} % extension`);
  }
  return {
    symbol,
    name,
    value,
    unit,
    rounded: [],
    method: hardening
      ? 'largest reading after the start of work hardening'
      : record.scan.spikes.length > 0
        ? 'largest reading, spikes left out'
        : 'largest reading',
    working: {
      formula,
      inputs,
      substituted: `${symbol} = ${numberText(value)} ${unit}, reading ${readingNumber(maximum.index)} of ${String(columns.length)}`,
      source: ISO_MAXIMUM,
      ...(steps.length === 0 ? {} : { steps }),
    },
    atIndex: maximum.index,
    ...(maximum.remarks.length === 0 ? {} : { remarks: maximum.remarks }),
  };
}
