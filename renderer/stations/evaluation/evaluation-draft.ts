/** Options of an evaluation as entries of a form, and back: every entry is text, a fault stands beside its entry. */
import { evaluationOptions } from '../../../core/contract/evaluation-options.ts';
import type { OptionSource } from '../../../core/contract/evaluation-requests.ts';
import { idleCorrection } from '../../../core/evaluation/idle-corrections.ts';
import {
  exactFromTypedNumber,
  parseQuantity,
  quantityFaultSentence,
} from '../../../core/quantity/parse-quantity.ts';
import { toNumber } from '../../../core/quantity/exact.ts';
import type { Dimension, UnitSymbol } from '../../../core/quantity/units.ts';
import type { CONVERSION_RULES } from '../../../core/results/elongation-conversion.ts';
import type { Corrections, EvaluationOptions } from '../../../core/results/evaluation.ts';
import type { EXTENSOMETER_CLASSES, FORCE_CLASSES } from '../../../core/results/force-uncertainty.ts';
import type { ARC_FORMS } from '../../../core/results/pipe-strip-area.ts';
import type { FINAL_SECTION_FORMS } from '../../../core/results/reduction-of-area.ts';
import type { ROUNDING_RULES } from '../../../core/results/rounding.ts';
import type { SECTION_RULES } from '../../../core/results/section-rule.ts';
import { shapeFaults } from '../../../core/shape-faults.ts';
import type { UnitSystem } from '../../numbers/display-unit.ts';

/** Entries that are typed; empty where the program decides. */
export const TYPED = [
  'slopeLower',
  'slopeUpper',
  'offsets',
  'extensions',
  'required',
  'convertTo',
  'forceZero',
  'extensionZero',
  'travelZero',
  'forceUncertainty',
  'forceStep',
] as const;
export type TypedEntry = (typeof TYPED)[number];

export const SLOPE_WAYS = ['program', 'window', 'loop'] as const;
export type SlopeWay = (typeof SLOPE_WAYS)[number];

/** Entries that are chosen; `auto` leaves it to the program. */
export interface ChosenEntries {
  readonly slope: SlopeWay;
  readonly toe: 'compensated' | 'record';
  readonly strainFrom: 'extensometer' | 'travel';
  readonly conversion: 'none' | (typeof CONVERSION_RULES)[number];
  readonly section: (typeof SECTION_RULES)[number];
  readonly arcForm: (typeof ARC_FORMS)[number];
  readonly finalSection: 'auto' | (typeof FINAL_SECTION_FORMS)[number];
  readonly rounding: 'auto' | (typeof ROUNDING_RULES)[number];
  readonly forceClass: 'auto' | (typeof FORCE_CLASSES)[number];
  readonly extensometerClass: 'auto' | (typeof EXTENSOMETER_CLASSES)[number];
}

export type TableEntry = 'forceTable' | 'extensionTable' | 'frameCompliance';

export interface EvaluationDraft {
  readonly typed: Readonly<Record<TypedEntry, string>>;
  readonly chosen: ChosenEntries;
  /** Tables as they were read from files; absent ones correct nothing. */
  readonly tables: Pick<Corrections, TableEntry>;
  readonly sources: readonly OptionSource[];
  /** Options without an entry in the form (fracture by hand, strain range of n and K): they stay. */
  readonly rest: Pick<EvaluationOptions, 'fractureIndex' | 'hardeningRangePercent'>;
}

export type DraftFaults = ReadonlyMap<TypedEntry | 'whole', string>;
export type DraftOutcome =
  | { readonly ok: true; readonly options: EvaluationOptions }
  | { readonly ok: false; readonly faults: DraftFaults };

const list = (values: readonly number[] | undefined): string => values?.join('; ') ?? '';
/** All digits: an entry that nobody touches must not change the value. */
const withUnit = (value: number | undefined, unit: string): string =>
  value === undefined ? '' : `${String(value)} ${unit}`;

export function draftOf(options: EvaluationOptions, sources: readonly OptionSource[] = []): EvaluationDraft {
  const { corrections: c = {}, measuring = {}, slopeWindow, fractureIndex, hardeningRangePercent } = options;
  return {
    typed: {
      slopeLower: withUnit(slopeWindow?.lowerMpa, 'MPa'),
      slopeUpper: withUnit(slopeWindow?.upperMpa, 'MPa'),
      offsets: list(options.offsetsPercent),
      extensions: list(options.totalExtensionsPercent),
      required:
        options.requiredElongationPercent === undefined ? '' : String(options.requiredElongationPercent),
      convertTo: withUnit(options.elongationOn?.gaugeLengthMm, 'mm'),
      forceZero: withUnit(c.forceZeroN, 'N'),
      extensionZero: withUnit(c.extensionZeroMm, 'mm'),
      travelZero: withUnit(c.travelZeroMm, 'mm'),
      forceUncertainty:
        measuring.forceUncertaintyPercent === undefined ? '' : String(measuring.forceUncertaintyPercent),
      forceStep: withUnit(measuring.forceResolutionN, 'N'),
    },
    chosen: {
      slope: options.slopeFrom === 'loop' ? 'loop' : slopeWindow === undefined ? 'program' : 'window',
      toe: c.toe === false ? 'record' : 'compensated',
      strainFrom: options.strainFrom ?? 'extensometer',
      conversion: options.elongationOn?.rule ?? 'none',
      section: options.section ?? 'mean',
      arcForm: options.arcForm ?? 'exact',
      finalSection: options.finalSection ?? 'auto',
      rounding: options.rounding ?? 'auto',
      forceClass: measuring.forceClass ?? 'auto',
      extensometerClass: measuring.extensometerClass ?? 'auto',
    },
    tables: {
      ...(c.forceTable === undefined ? {} : { forceTable: c.forceTable }),
      ...(c.extensionTable === undefined ? {} : { extensionTable: c.extensionTable }),
      ...(c.frameCompliance === undefined ? {} : { frameCompliance: c.frameCompliance }),
    },
    sources,
    rest: {
      ...(fractureIndex === undefined ? {} : { fractureIndex }),
      ...(hardeningRangePercent === undefined ? {} : { hardeningRangePercent }),
    },
  };
}

/** The sentences that the form's own language has for what only it can see. */
export interface DraftWords {
  readonly percentWrong: (typed: string) => string;
  readonly windowHalf: string;
  readonly windowOrder: string;
  readonly lengthNeeded: string;
}

/** A zero of 12 could be meant in N or in kN: forces carry their unit. */
export function unitIfMissing(dimension: Dimension, units: UnitSystem): { unitIfMissing?: UnitSymbol } {
  if (dimension === 'stress') return { unitIfMissing: units === 'SI' ? 'MPa' : 'ksi' };
  if (dimension === 'length') return { unitIfMissing: units === 'SI' ? 'mm' : 'in' };
  return {};
}

/** Empty options where every entry is at what the program does anyway. Faults are told beside their entries. */
export function optionsOf(draft: EvaluationDraft, units: UnitSystem, words: DraftWords): DraftOutcome {
  const { typed, chosen, tables, rest } = draft;
  const faults = new Map<TypedEntry | 'whole', string>();
  const fault = (entry: TypedEntry, sentence: string): undefined => {
    faults.set(entry, sentence);
    return undefined;
  };
  const quantity = (entry: TypedEntry, dimension: Dimension, positive = false): number | undefined => {
    if (typed[entry].trim() === '') return undefined;
    const outcome = parseQuantity(typed[entry], {
      dimension,
      positive,
      ...unitIfMissing(dimension, units),
    });
    if (outcome.ok) return outcome.quantity.core;
    fault(entry, quantityFaultSentence(outcome.fault, typed[entry]));
    return undefined;
  };
  const percents = (entry: TypedEntry): number[] => {
    // Where a point is the decimal sign, a comma separates; else it may be the decimal sign itself.
    const separator = typed[entry].includes('.') ? /[;,\s]+/ : /;|,\s+|\s+/;
    const texts = typed[entry]
      .replaceAll('%', ' ')
      .split(separator)
      .filter((text) => text.trim() !== '');
    const values = texts.map((text) => {
      const exact = exactFromTypedNumber(text.trim());
      const value = exact === null ? Number.NaN : toNumber(exact);
      if (!(value > 0 && value <= 100)) fault(entry, words.percentWrong(text.trim()));
      return value;
    });
    return [...new Set(values)];
  };

  const slopeWindow = chosen.slope === 'window' ? windowOf(quantity, fault, typed, words) : undefined;
  const offsetsPercent = percents('offsets');
  const totalExtensionsPercent = percents('extensions');
  const required = percents('required').at(-1);
  const gaugeLengthMm = chosen.conversion === 'none' ? undefined : quantity('convertTo', 'length', true);
  if (chosen.conversion !== 'none' && typed.convertTo.trim() === '') fault('convertTo', words.lengthNeeded);
  const forceZeroN = quantity('forceZero', 'force') ?? 0;
  const extensionZeroMm = quantity('extensionZero', 'length') ?? 0;
  const travelZeroMm = quantity('travelZero', 'length') ?? 0;
  const corrections: Corrections = {
    ...(chosen.toe === 'record' ? { toe: false } : {}),
    ...(forceZeroN === 0 ? {} : { forceZeroN }),
    ...(extensionZeroMm === 0 ? {} : { extensionZeroMm }),
    ...(travelZeroMm === 0 ? {} : { travelZeroMm }),
    ...tables,
  };
  const forceUncertaintyPercent = percents('forceUncertainty').at(-1);
  const forceResolutionN = quantity('forceStep', 'force', true);
  const measuring = {
    ...(chosen.forceClass === 'auto' ? {} : { forceClass: chosen.forceClass }),
    ...(forceUncertaintyPercent === undefined ? {} : { forceUncertaintyPercent }),
    ...(forceResolutionN === undefined ? {} : { forceResolutionN }),
    ...(chosen.extensometerClass === 'auto' ? {} : { extensometerClass: chosen.extensometerClass }),
  };
  const options: EvaluationOptions = {
    ...rest,
    ...(chosen.slope === 'loop' ? { slopeFrom: 'loop' } : {}),
    ...(slopeWindow === undefined ? {} : { slopeWindow }),
    ...(offsetsPercent.length === 0 ? {} : { offsetsPercent }),
    ...(totalExtensionsPercent.length === 0 ? {} : { totalExtensionsPercent }),
    ...(required === undefined ? {} : { requiredElongationPercent: required }),
    ...(gaugeLengthMm === undefined || chosen.conversion === 'none'
      ? {}
      : { elongationOn: { gaugeLengthMm, rule: chosen.conversion } }),
    ...(chosen.strainFrom === 'travel' ? { strainFrom: 'travel' } : {}),
    ...(Object.keys(corrections).length === 0 ? {} : { corrections }),
    ...(chosen.section === 'mean' ? {} : { section: chosen.section }),
    ...(chosen.arcForm === 'exact' ? {} : { arcForm: chosen.arcForm }),
    ...(chosen.finalSection === 'auto' ? {} : { finalSection: chosen.finalSection }),
    ...(chosen.rounding === 'auto' ? {} : { rounding: chosen.rounding }),
    ...(Object.keys(measuring).length === 0 ? {} : { measuring }),
  };
  if (faults.size > 0) return { ok: false, faults };
  const idle = idleCorrection(options);
  const shape = evaluationOptions.safeParse(options);
  const sentence =
    idle ??
    (shape.success
      ? null
      : (shapeFaults(shape.error.issues, options, { whole: 'The evaluation' })[0]?.sentence ?? ''));
  return sentence === null ? { ok: true, options } : { ok: false, faults: new Map([['whole', sentence]]) };
}

function windowOf(
  quantity: (entry: TypedEntry, dimension: Dimension) => number | undefined,
  fault: (entry: TypedEntry, sentence: string) => undefined,
  typed: EvaluationDraft['typed'],
  words: DraftWords,
): EvaluationOptions['slopeWindow'] {
  const lowerMpa = quantity('slopeLower', 'stress');
  const upperMpa = quantity('slopeUpper', 'stress');
  for (const entry of ['slopeLower', 'slopeUpper'] as const)
    if (typed[entry].trim() === '') fault(entry, words.windowHalf);
  if (lowerMpa === undefined || upperMpa === undefined) return undefined;
  if (lowerMpa >= 0 && upperMpa > lowerMpa) return { lowerMpa, upperMpa };
  fault('slopeUpper', words.windowOrder);
  return undefined;
}
