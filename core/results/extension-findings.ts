/** Agt and Ag at the maximum force, At and A at the break, from the extension channel. */
import { channelValue, lastPresent } from '../curve/channel.ts';
import { firstAtLeast, lastAtLeast } from '../curve/record-blocks.ts';
import { numberText } from '../quantity/number-text.ts';
import { type EvaluatedRecord, stepsUntil, strainAt } from './evaluated-record.ts';
import { stepClause } from './extension-steps.ts';
import { type Finding, type Reason, given, readingNumber, withhold } from './finding.ts';
import { goesOnAfterBreak } from './goes-on-after-break.ts';
import type { Maximum } from './peak.ts';
import { coarseStep, plateauAt } from './plateau.ts';
import { FROM_TRAVEL } from './record-columns.ts';
import type { Result, WorkingInput } from './result.ts';
import { noiseAtMaximum, smoothMaximum } from './smooth-maximum.ts';

const AGT = 'percentage total extension at maximum force';
const AG = 'percentage plastic extension at maximum force (uniform elongation)';
const AT = 'percentage total extension at fracture';
const A = 'percentage elongation after fracture, from the extensometer';
const A_FROM_TRAVEL = 'percentage elongation after fracture, from crosshead travel';
const SOURCE = 'ISO 6892-1, extensions at maximum force and at fracture (from memory)';

/** The force must have fallen by this part before the end of a record without a break may be taken for the break. */
const NECKED_FRACTION = 0.05;
/** A maximum this flat leaves the extension at it open. */
const FLAT_FRACTION = 0.001;
const FLAT_PERCENT = 1;

interface ExtensionPoint {
  /** Strain ratio from the zero that counts. */
  readonly strain: number;
  readonly stressMpa: number;
  readonly index: number;
  readonly from: string;
  readonly remarks: readonly string[];
}

/** Ag and Agt. */
export function extensionAtMaximum(record: EvaluatedRecord, maximum: Maximum): Finding[] {
  const reason =
    strainTrouble(record) ??
    (maximum.stillRising
      ? {
          code: 'still-rising',
          reason:
            maximum.clipped === undefined
              ? 'The force still rises where the record stops, so there is no maximum force to read it at.'
              : `At its largest, ${maximum.clipped}, so the maximum force is not known.`,
        }
      : null) ??
    lostBefore(record, maximum.index, 'the maximum force');
  if (reason !== null || record.stress === undefined)
    return both([AGT, AG], ['Agt', 'Ag'], reason ?? NO_STRAIN);
  const { stress } = record;
  const place = placeOfMaximum(record, maximum);
  const point: ExtensionPoint = {
    ...place,
    stressMpa: channelValue(stress, maximum.index),
    remarks: [
      ...maximum.remarks,
      ...travelRemark(record),
      ...stepRemark(record, maximum.index),
      ...spacingRemark(record, maximum.index, 'the maximum'),
      ...flatRemark(record, maximum),
    ],
  };
  return [total(record, 'Agt', AGT, point), plastic(record, 'Ag', AG, point)];
}

/** The mid-point of a plateau, the vertex of a parabola in a noisy record, else the largest reading. */
function placeOfMaximum(
  record: EvaluatedRecord,
  maximum: Maximum,
): Pick<ExtensionPoint, 'strain' | 'index' | 'from'> {
  const { load, strain, end, trust, startIndex } = record;
  const range = { from: startIndex, to: Math.min(end.index, trust.until) + 1 };
  const noise = noiseAtMaximum(load, range, maximum.index);
  if (strain !== undefined && noise > NOISY_FRACTION) {
    const vertex = smoothMaximum(load, strain, range, maximum.index, noise);
    if (vertex !== null)
      return {
        strain: (vertex - strain.zero) * strain.factor - record.zeroStrain,
        index: maximum.index,
        from: 'the vertex of a parabola through all readings about the largest force (the record is noisy)',
      };
  }
  const plateau = plateauAt(load, maximum.index, end.index, coarseStep(load, maximum.index));
  return plateau.lastIndex > plateau.firstIndex
    ? {
        strain: (strainAt(record, plateau.firstIndex) + strainAt(record, plateau.lastIndex)) / 2,
        index: Math.round((plateau.firstIndex + plateau.lastIndex) / 2),
        from: `mid-point of the plateau from reading ${readingNumber(plateau.firstIndex)} to ${readingNumber(plateau.lastIndex)}`,
      }
    : {
        strain: strainAt(record, maximum.index),
        index: maximum.index,
        from: `reading ${readingNumber(maximum.index)}, the largest force`,
      };
}

/** Noise above this part of the strength, and the largest reading is somewhere on the flat top. */
const NOISY_FRACTION = 0.002;

/** At and A; `symbolForA` is "A" unless the refitted halves have given one. */
export function extensionAtFracture(record: EvaluatedRecord, halvesMeasured: boolean): Finding[] {
  const symbols = ['At', halvesMeasured ? 'A (extensometer)' : 'A'] as const;
  const { end, stress } = record;
  const reason = strainTrouble(record) ?? noBreak(record) ?? lostBefore(record, end.index, 'the break');
  if (reason !== null || stress === undefined)
    return both([AT, nameOfA(record)], symbols, reason ?? NO_STRAIN);
  const point: ExtensionPoint = {
    strain: strainAt(record, end.index),
    stressMpa: channelValue(stress, lastPresent(stress.column, end.index, 0)),
    index: end.index,
    from: `reading ${readingNumber(end.index)}, ${END_WORDS[end.kind]}`,
    remarks: [
      ...travelRemark(record),
      ...stepRemark(record, end.index),
      ...spacingRemark(record, end.index, 'the break'),
      ...[goesOnAfterBreak(record)].filter((said) => said !== null),
      ...(end.kind === 'stops'
        ? [
            'The record ends without the fall of force that a break makes; its last reading is taken for the break. If the pull was stopped or the extensometer came off before, the true value is larger.',
          ]
        : []),
    ],
  };
  return [total(record, symbols[0], AT, point), plastic(record, symbols[1], nameOfA(record), point)];
}

const nameOfA = ({ columns }: EvaluatedRecord): string =>
  columns.strainSource?.channel === 'travel' ? A_FROM_TRAVEL : A;

/** Why the end of the record is not a break; null where it is one, or may be taken for one. */
export function noBreak({ end, load, peakIndex }: EvaluatedRecord): Reason | null {
  const left = channelValue(load, end.index) / channelValue(load, peakIndex);
  if (end.kind === 'unloaded')
    return {
      code: 'no-break',
      reason: `The specimen was let off from reading ${readingNumber(end.index)} on and no break is recorded.`,
    };
  return end.kind === 'stops' && left > 1 - NECKED_FRACTION
    ? {
        code: 'no-break',
        reason: `No break is recorded: the record stops at ${numberText(100 * left, 3)} % of the maximum force.`,
      }
    : null;
}

const END_WORDS = {
  collapse: 'the last before the force collapses',
  'run-out': 'the last at 10 % of the maximum force or more',
  marked: 'marked as the break',
  unloaded: 'where the specimen was let off',
  stops: 'the last of the record',
} as const;

const NO_STRAIN: Reason = { code: 'no-strain', reason: 'The curve has no strain.' };

function strainTrouble(record: EvaluatedRecord): Reason | null {
  if (record.strainReason !== null) return record.strainReason;
  return record.strain === undefined ? NO_STRAIN : record.columns.stressMissing;
}

function lostBefore({ trust }: EvaluatedRecord, index: number, what: string): Reason | null {
  return trust.trouble !== undefined && trust.until < index
    ? {
        code: 'extension-lost',
        reason: `Before ${what}, ${trust.trouble.clause}; the extension after that doesn’t count.`,
      }
    : null;
}

const travelRemark = (record: EvaluatedRecord): string[] =>
  record.columns.strainSource?.channel === 'travel' ? [`Strain is ${FROM_TRAVEL}.`] : [];

/** Readings farther apart than half of what ISO 6892-1 rounds to, and than this part of the value, leave it open. */
const SPACING_PERCENT = 0.25;
const SPACING_PART = 0.01;

/** How far apart the readings are where the extension is read off; around it where that very reading has none. */
function spacingRemark(record: EvaluatedRecord, index: number, where: string): string[] {
  const { strain, startIndex, end } = record;
  if (strain === undefined) return [];
  const last = lastPresent(strain.column, index, startIndex);
  const next = last === index ? -1 : firstPresentFrom(strain.column, index, end.index);
  const there = next < 0 ? last : next;
  const before = lastPresent(strain.column, there - 1, startIndex);
  if (before < 0) return [];
  const at = 100 * strainAt(record, there);
  const apart = at - 100 * strainAt(record, before);
  return apart > SPACING_PERCENT && apart > SPACING_PART * at
    ? [
        `Neighbouring readings at ${where} are ${numberText(apart, 2)} % of extension apart, so the value is no surer than that.`,
      ]
    : [];
}

/** The first reading from `from` to `to` that has a value; −1 where none has. */
function firstPresentFrom(column: Float64Array, from: number, to: number): number {
  for (let i = from; i <= to; i++) if (!Number.isNaN(column[i])) return i;
  return -1;
}

/** A small slip on the way is part of every extension after it. */
function stepRemark(record: EvaluatedRecord, index: number): string[] {
  const steps = stepsUntil(record, index);
  return steps.length === 0 ? [] : [`The extension ${stepClause(steps)}; that is contained here.`];
}

/** How far the force stays within 0.1 % of the maximum, where that makes the extension at it vague. */
function flatRemark(record: EvaluatedRecord, maximum: Maximum): string[] {
  const { load, blocks, startIndex, end } = record;
  const limit = load.zero + (1 - FLAT_FRACTION) * ((load.column[maximum.index] as number) - load.zero);
  // An upper yield as high as the maximum is no part of its flat top.
  const { yielding } = record;
  const hardening = yielding?.present === true ? yielding.point.hardeningIndex : startIndex;
  const range = { from: Math.min(Math.max(startIndex, hardening), maximum.index), to: end.index + 1 };
  const first = firstAtLeast(blocks.load, range, limit);
  const last = lastAtLeast(blocks.load, range, limit);
  const from = 100 * strainAt(record, first);
  const to = 100 * strainAt(record, last);
  return to - from > FLAT_PERCENT
    ? [
        `The force stays within 0.1 % of its maximum from ${numberText(from, 3)} % to ${numberText(to, 3)} % extension, so the extension at the maximum is no sharper than that.`,
      ]
    : [];
}

const both = (names: readonly string[], symbols: readonly string[], reason: Reason): Finding[] =>
  symbols.map((symbol, i) => withhold(symbol, names[i] ?? symbol, reason.code, reason.reason));

const remarksOf = (point: ExtensionPoint): { remarks?: readonly string[] } =>
  point.remarks.length === 0 ? {} : { remarks: point.remarks };

function total(record: EvaluatedRecord, symbol: string, name: string, point: ExtensionPoint): Finding {
  const value = 100 * point.strain;
  return given({
    ...base(symbol, name, value, point),
    method: `total extension at ${point.from}`,
    working: {
      formula: `${symbol} = e − e0`,
      inputs: strainInputs(record, point),
      substituted: `${symbol} = ${numberText(100 * (point.strain + record.zeroStrain))} % ${takenAway(100 * record.zeroStrain)} % = ${numberText(value)} %`,
      source: SOURCE,
    },
  });
}

/** A plastic part below zero by no more than this is none; smaller ones either way are dust of the arithmetic. */
const NOTHING_PERCENT = 0.05;
const DUST_PERCENT = 1e-4;

function plastic(record: EvaluatedRecord, symbol: string, name: string, point: ExtensionPoint): Finding {
  const { line } = record;
  if (line === null) {
    const reason = record.lineReason ?? NO_STRAIN;
    return withhold(symbol, name, reason.code, `The elastic part can’t be taken off. ${reason.reason}`);
  }
  const slope = line.fit.slope;
  const elastic = 100 * (point.stressMpa / slope);
  const difference = 100 * point.strain - elastic;
  // Less than nothing is left only by the errors of the line and of the extension.
  if (difference < -NOTHING_PERCENT)
    return withhold(
      symbol,
      name,
      'plastic-part-negative',
      `With the elastic part taken off, ${numberText(difference, 3)} % would be left, which no specimen does; the elastic line or the extension is off by more than the plastic part.`,
    );
  const value = Math.abs(difference) < DUST_PERCENT ? 0 : Math.max(0, difference);
  const nothing =
    difference < DUST_PERCENT
      ? [
          `No plastic extension is left above what the elastic line is sure to${difference < -DUST_PERCENT ? ` (${numberText(difference, 2)} %)` : ''}; given as zero.`,
        ]
      : [];
  const totalSymbol = symbol === 'Ag' ? 'Agt' : 'At';
  const stressSymbol = symbol === 'Ag' ? 'Rm' : 'R(fracture)';
  return given({
    ...base(symbol, name, value, { ...point, remarks: [...point.remarks, ...nothing] }),
    method: `extension at ${point.from}, elastic part taken off`,
    working: {
      formula: `${symbol} = ${totalSymbol} − ${stressSymbol}/mE`,
      inputs: [
        ...strainInputs(record, point),
        {
          symbol: stressSymbol,
          name: 'stress there',
          value: point.stressMpa,
          unit: 'MPa',
          from: 'same reading',
        },
        {
          symbol: 'mE',
          name: 'slope of the elastic part',
          value: slope,
          unit: 'MPa',
          from: `line through ${String(line.fit.readings)} readings`,
        },
      ],
      substituted: `${symbol} = ${numberText(100 * point.strain)} % − ${numberText(point.stressMpa)} MPa / ${numberText(slope)} MPa = ${numberText(value)} %`,
      source: SOURCE,
    },
  });
}

function base(
  symbol: string,
  name: string,
  value: number,
  point: ExtensionPoint,
): Pick<Result, 'symbol' | 'name' | 'value' | 'unit' | 'rounded' | 'atIndex' | 'remarks'> {
  return { symbol, name, value, unit: '%', rounded: [], atIndex: point.index, ...remarksOf(point) };
}

function strainInputs(record: EvaluatedRecord, point: ExtensionPoint): WorkingInput[] {
  const source = record.columns.strainSource;
  return [
    {
      symbol: 'e',
      name: 'extension as recorded',
      value: 100 * (point.strain + record.zeroStrain),
      unit: '%',
      from:
        source === undefined || source.channel === 'strain'
          ? point.from
          : `${point.from}; ${source.channel} over ${source.lengthName} of ${numberText(source.lengthMm)} mm`,
    },
    {
      symbol: 'e0',
      name: 'extension that counts as zero',
      value: 100 * record.zeroStrain,
      unit: '%',
      from: record.zeroStrain === 0 ? 'zero of the record' : 'foot of the elastic line',
    },
  ];
}

/** A zero below nothing is added: "15.8 % − -0.0001 %" is no way to write it. */
const takenAway = (percent: number): string =>
  percent < 0 ? `+ ${numberText(-percent)}` : `− ${numberText(percent)}`;
