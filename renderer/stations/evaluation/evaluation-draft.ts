/** Options of an evaluation as entries of a form, and back: every entry is text, a fault stands beside its entry. */
import type { ChosenRules } from '../../../core/acceptance/rule-pack.ts';
import type { OptionSource } from '../../../core/contract/evaluation-requests.ts';
import type { ImportPlan } from '../../../core/exchange/import/import-plan.ts';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { idleCorrection } from '../../../core/evaluation/idle-corrections.ts';
import { optionFault } from '../../../core/evaluation/option-fault.ts';
import {
  exactFromTypedNumber,
  parseQuantity,
  quantityFaultSentence,
} from '../../../core/quantity/parse-quantity.ts';
import { toNumber } from '../../../core/quantity/exact.ts';
import { type Dimension, type UnitSymbol, convert } from '../../../core/quantity/units.ts';
import type { MATERIAL_KINDS } from '../../../core/results/elongation-conversion.ts';
import type { Corrections, EvaluationOptions } from '../../../core/results/evaluation.ts';
import type { EXTENSOMETER_CLASSES, FORCE_CLASSES } from '../../../core/results/force-uncertainty.ts';
import type { ARC_FORMS } from '../../../core/results/pipe-strip-area.ts';
import type { FINAL_SECTION_FORMS } from '../../../core/results/reduction-of-area.ts';
import type { ROUNDING_RULES } from '../../../core/results/rounding.ts';
import type { SECTION_RULES } from '../../../core/results/section-rule.ts';
import type { UnitSystem } from '../../numbers/display-unit.ts';

/** Entries that are typed; empty where the program decides. */
export const TYPED = [
  'slopeLower',
  'slopeUpper',
  'offsets',
  'extensionsUnderLoad',
  'required',
  'convertElongation',
  'forceZero',
  'extensionZero',
  'travelZero',
  'readoutUncertainty',
  'readoutResolution',
  'lastReading',
  'hardeningFrom',
  'hardeningTo',
] as const;
export type TypedEntry = (typeof TYPED)[number];

export const SLOPE_WAYS = ['program', 'window', 'loop'] as const;
export type SlopeWay = (typeof SLOPE_WAYS)[number];

/** Entries that are chosen; `auto` leaves it to the program. */
export interface ChosenEntries {
  readonly slope: SlopeWay;
  readonly toe: 'compensated' | 'record';
  readonly strainFrom: 'extensometer' | 'travel';
  readonly materialKind: 'none' | (typeof MATERIAL_KINDS)[number];
  readonly section: (typeof SECTION_RULES)[number];
  readonly sectionForm: (typeof ARC_FORMS)[number];
  readonly finalSection: 'auto' | (typeof FINAL_SECTION_FORMS)[number];
  readonly rounding: 'auto' | (typeof ROUNDING_RULES)[number];
  readonly readoutClass: 'auto' | (typeof FORCE_CLASSES)[number];
  readonly extensometerClass: 'auto' | (typeof EXTENSOMETER_CLASSES)[number];
}

export type TableEntry = 'forceTable' | 'extensionTable' | 'frameCompliance';

export interface EvaluationDraft {
  readonly typed: Readonly<Record<TypedEntry, string>>;
  readonly chosen: ChosenEntries;
  /** Tables as they were read from files; absent ones correct nothing. */
  readonly tables: Pick<Corrections, TableEntry>;
  /** Null: the lines as they were read at the time. */
  readonly lineFormat: ReadoutProfile | null;
  /** Null: the file as it was read at the import. `open`: it is said otherwise, and not yet wholly. */
  readonly importPlan: ImportPlan | 'open' | null;
  /** Null: the rules of the set. */
  readonly judgedBy: ChosenRules | null;
  readonly sources: readonly OptionSource[];
}

export type DraftFaults = ReadonlyMap<TypedEntry | 'whole', string>;
export type DraftOutcome =
  | { readonly ok: true; readonly options: EvaluationOptions }
  | { readonly ok: false; readonly faults: DraftFaults };

const figure = (value: number | undefined): string => (value === undefined ? '' : String(value));
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
      extensionsUnderLoad: list(options.extensionsUnderLoadPercent),
      required: figure(options.requiredElongationPercent),
      convertElongation: withUnit(options.convertElongation?.gaugeLengthMm, 'mm'),
      forceZero: withUnit(c.forceZeroN, 'N'),
      extensionZero: withUnit(c.extensionZeroMm, 'mm'),
      travelZero: withUnit(c.travelZeroMm, 'mm'),
      readoutUncertainty: figure(measuring.readoutUncertaintyPercent),
      readoutResolution: withUnit(measuring.readoutResolutionN, 'N'),
      // People count readings from one.
      lastReading: figure(fractureIndex === undefined ? undefined : fractureIndex + 1),
      hardeningFrom: figure(hardeningRangePercent?.from),
      hardeningTo: figure(hardeningRangePercent?.to),
    },
    chosen: {
      slope: options.slopeFrom === 'loop' ? 'loop' : slopeWindow === undefined ? 'program' : 'window',
      toe: c.toe === false ? 'record' : 'compensated',
      strainFrom: options.strainFrom ?? 'extensometer',
      materialKind: options.convertElongation?.materialKind ?? 'none',
      section: options.section ?? 'mean',
      sectionForm: options.sectionForm ?? 'arc',
      finalSection: options.finalSection ?? 'auto',
      rounding: options.rounding ?? 'auto',
      readoutClass: measuring.readoutClass ?? 'auto',
      extensometerClass: measuring.extensometerClass ?? 'auto',
    },
    tables: {
      ...(c.forceTable === undefined ? {} : { forceTable: c.forceTable }),
      ...(c.extensionTable === undefined ? {} : { extensionTable: c.extensionTable }),
      ...(c.frameCompliance === undefined ? {} : { frameCompliance: c.frameCompliance }),
    },
    lineFormat: options.lineFormat ?? null,
    importPlan: options.importPlan ?? null,
    judgedBy: options.judgedBy ?? null,
    sources,
  };
}

/** The sentences that the form's own language has for what only it can see. */
export interface DraftWords {
  readonly percentWrong: (typed: string) => string;
  readonly windowHalf: string;
  readonly windowOrder: string;
  readonly lengthNeeded: string;
  readonly readingWrong: (typed: string) => string;
  readonly rangeHalf: string;
  readonly rangeOrder: string;
  readonly planOpen: string;
}

/** A zero of 12 could be meant in N or in kN: forces carry their unit. */
export function unitIfMissing(dimension: Dimension, units: UnitSystem): { unitIfMissing?: UnitSymbol } {
  if (dimension === 'stress') return { unitIfMissing: units === 'SI' ? 'MPa' : 'ksi' };
  if (dimension === 'length') return { unitIfMissing: units === 'SI' ? 'mm' : 'in' };
  return {};
}

/** Empty options where every entry is at what the program does anyway. Faults are told beside their entries. */
export function optionsOf(draft: EvaluationDraft, units: UnitSystem, words: DraftWords): DraftOutcome {
  const { typed, chosen, tables } = draft;
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
  const extensionsUnderLoadPercent = percents('extensionsUnderLoad');
  const required = percents('required').at(-1);
  const gaugeLengthMm =
    chosen.materialKind === 'none' ? undefined : quantity('convertElongation', 'length', true);
  if (chosen.materialKind !== 'none' && typed.convertElongation.trim() === '')
    fault('convertElongation', words.lengthNeeded);
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
  const readoutUncertaintyPercent = percents('readoutUncertainty').at(-1);
  const readoutResolutionN = quantity('readoutResolution', 'force', true);
  const measuring = {
    ...(chosen.readoutClass === 'auto' ? {} : { readoutClass: chosen.readoutClass }),
    ...(readoutUncertaintyPercent === undefined ? {} : { readoutUncertaintyPercent }),
    ...(readoutResolutionN === undefined ? {} : { readoutResolutionN }),
    ...(chosen.extensometerClass === 'auto' ? {} : { extensometerClass: chosen.extensometerClass }),
  };
  const lastReading = typed.lastReading.trim();
  const fractureIndex = lastReading === '' ? undefined : Number(lastReading) - 1;
  if (fractureIndex !== undefined && !/^[1-9]\d{0,14}$/.test(lastReading))
    fault('lastReading', words.readingWrong(lastReading));
  if (draft.importPlan === 'open') faults.set('whole', words.planOpen);
  const hardeningRangePercent = rangeOf(percents, fault, typed, words);
  const options: EvaluationOptions = {
    ...(draft.lineFormat === null ? {} : { lineFormat: draft.lineFormat }),
    ...(draft.importPlan === null || draft.importPlan === 'open' ? {} : { importPlan: draft.importPlan }),
    ...(draft.judgedBy === null ? {} : { judgedBy: draft.judgedBy }),
    ...(fractureIndex === undefined ? {} : { fractureIndex }),
    ...(hardeningRangePercent === undefined ? {} : { hardeningRangePercent }),
    ...(chosen.slope === 'loop' ? { slopeFrom: 'loop' } : {}),
    ...(slopeWindow === undefined ? {} : { slopeWindow }),
    ...(offsetsPercent.length === 0 ? {} : { offsetsPercent }),
    ...(extensionsUnderLoadPercent.length === 0 ? {} : { extensionsUnderLoadPercent }),
    ...(required === undefined ? {} : { requiredElongationPercent: required }),
    ...(gaugeLengthMm === undefined || chosen.materialKind === 'none'
      ? {}
      : { convertElongation: { gaugeLengthMm, materialKind: chosen.materialKind } }),
    ...(chosen.strainFrom === 'travel' ? { strainFrom: 'travel' } : {}),
    ...(Object.keys(corrections).length === 0 ? {} : { corrections }),
    ...(chosen.section === 'mean' ? {} : { section: chosen.section }),
    ...(chosen.sectionForm === 'arc' ? {} : { sectionForm: chosen.sectionForm }),
    ...(chosen.finalSection === 'auto' ? {} : { finalSection: chosen.finalSection }),
    ...(chosen.rounding === 'auto' ? {} : { rounding: chosen.rounding }),
    ...(Object.keys(measuring).length === 0 ? {} : { measuring }),
  };
  if (faults.size > 0) return { ok: false, faults };
  const sentence = idleCorrection(options) ?? optionFault(options)?.sentence ?? null;
  return sentence === null ? { ok: true, options } : { ok: false, faults: new Map([['whole', sentence]]) };
}

/** The window that the entries say; null where they say none that could be fitted. */
export function typedWindow(
  { typed, chosen }: EvaluationDraft,
  units: UnitSystem,
): EvaluationOptions['slopeWindow'] | null {
  if (chosen.slope !== 'window') return null;
  const mpa = (entry: 'slopeLower' | 'slopeUpper'): number => {
    const read = parseQuantity(typed[entry], { dimension: 'stress', ...unitIfMissing('stress', units) });
    return read.ok ? read.quantity.core : Number.NaN;
  };
  const window = { lowerMpa: mpa('slopeLower'), upperMpa: mpa('slopeUpper') };
  return window.lowerMpa >= 0 && window.upperMpa > window.lowerMpa ? window : null;
}

/** Tenths of an MPa are finer than a hand is. */
const DRAGGED_PLACES: Readonly<Record<UnitSystem, number>> = { SI: 1, US: 2 };

/** The window as entries, in the unit that is shown: what was dragged can be read, typed over and told to somebody. */
export function withWindow(
  draft: EvaluationDraft,
  { lowerMpa, upperMpa }: NonNullable<EvaluationOptions['slopeWindow']>,
  units: UnitSystem,
): EvaluationDraft {
  const unit = units === 'SI' ? 'MPa' : 'ksi';
  const text = (mpa: number): string => `${convert(mpa, 'MPa', unit).toFixed(DRAGGED_PLACES[units])} ${unit}`;
  return {
    ...draft,
    chosen: { ...draft.chosen, slope: 'window' },
    typed: { ...draft.typed, slopeLower: text(lowerMpa), slopeUpper: text(upperMpa) },
  };
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

function rangeOf(
  percents: (entry: TypedEntry) => number[],
  fault: (entry: TypedEntry, sentence: string) => undefined,
  typed: EvaluationDraft['typed'],
  words: DraftWords,
): EvaluationOptions['hardeningRangePercent'] {
  const [from] = percents('hardeningFrom');
  const [to] = percents('hardeningTo');
  const blank = (entry: TypedEntry): boolean => typed[entry].trim() === '';
  if (blank('hardeningFrom') && blank('hardeningTo')) return undefined;
  for (const entry of ['hardeningFrom', 'hardeningTo'] as const)
    if (blank(entry)) fault(entry, words.rangeHalf);
  if (from === undefined || to === undefined) return undefined;
  if (to > from) return { from, to };
  fault('hardeningTo', words.rangeOrder);
  return undefined;
}
