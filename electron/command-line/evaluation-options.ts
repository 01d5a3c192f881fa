/** The flags of an evaluation as options of core, checked by the same schema as everything that comes from outside. */
import type { OptionSource } from '../../core/contract/evaluation-requests.ts';
import { idleCorrection } from '../../core/evaluation/idle-corrections.ts';
import { mergedOptions } from '../../core/evaluation/merged-options.ts';
import { optionFault } from '../../core/evaluation/option-fault.ts';
import { CORE_UNIT, type Dimension } from '../../core/quantity/units.ts';
import { parseQuantity, quantityFaultSentence } from '../../core/quantity/parse-quantity.ts';
import { MATERIAL_KINDS } from '../../core/results/elongation-conversion.ts';
import type { Corrections, EvaluationOptions } from '../../core/results/evaluation.ts';
import { EXTENSOMETER_CLASSES, FORCE_CLASSES } from '../../core/results/force-uncertainty.ts';
import { ARC_FORMS } from '../../core/results/pipe-strip-area.ts';
import { FINAL_SECTION_FORMS } from '../../core/results/reduction-of-area.ts';
import { ROUNDING_RULES } from '../../core/results/rounding.ts';
import { SECTION_RULES } from '../../core/results/section-rule.ts';
import { type VerbArguments, numberOption, oneOf } from './arguments.ts';
import { type BlankRunOfPull, refuseBlankPull } from './blank-run-asked.ts';
import { EVALUATION_FLAGS } from './evaluation-flags.ts';
import { shippedProfile } from '../../drivers/profiles.ts';
import { readProfileFile } from './input-files.ts';
import { blankRunFile, blankRunPulled, calibrationFiles, optionsFile } from './option-files.ts';
import { InputError } from './verb.ts';

export interface GivenOptions {
  readonly options: EvaluationOptions;
  /** Files that tables were read from. */
  readonly sources: readonly OptionSource[];
}

/** Percent values above this are no offset or extension that any standard names. */
const PERCENT_MAX = 50;

/** True where any flag of an evaluation stands in the command. */
export function asksForOptions(given: VerbArguments): boolean {
  return Object.keys(EVALUATION_FLAGS).some((flag) => given.has(flag) || given.text(flag) !== undefined);
}

/**
 * As given, to be laid over what stands and then checked (`checkedOptions`). Throws an InputError that names the flag;
 * a fault in an options file names the file and the field.
 *
 * @param blankRun of the archive, where `--compliance` names a pull (`blankRunAsked`).
 */
export function optionsGiven(given: VerbArguments, blankRun: BlankRunOfPull | null = null): GivenOptions {
  const file = given.text('options');
  const base: GivenOptions = file === undefined ? { options: {}, sources: [] } : optionsFile(file);
  const calibration = calibrationFiles(given.texts('calibration'));
  const blank = given.text('compliance');
  if (blank !== undefined && blankRun === null) refuseBlankPull(blank);
  const compliance =
    blankRun !== null ? blankRunPulled(blankRun) : blank === undefined ? null : blankRunFile(blank);
  const options = mergedOptions(base.options, {
    ...choices(given),
    ...corrections(given, {
      ...calibration.tables,
      ...(compliance === null ? {} : { frameCompliance: compliance.points }),
    }),
  });
  return {
    options,
    sources: [...base.sources, ...calibration.sources, ...(compliance === null ? [] : [compliance.source])],
  };
}

/**
 * What was put together from flags and file (and what stands in the archive) passes the schema that archive and window
 * use, and each correction has something to correct. Throws an InputError.
 */
export function checkedOptions(options: EvaluationOptions): EvaluationOptions {
  const idle = idleCorrection(options);
  if (idle !== null) throw new InputError('correction-without-effect', idle, 'corrections');
  const fault = optionFault(options);
  if (fault !== null) throw new InputError('option-value-wrong', fault.sentence, fault.field);
  return options;
}

function choices(given: VerbArguments): EvaluationOptions {
  const offsets = percents(given, 'offset');
  const extensions = percents(given, 'extension-under-load');
  const fractureIndex = wholeNumber(given, 'fracture-index');
  const strainFrom = oneOf('strain-from', given.text('strain-from'), ['extensometer', 'travel'] as const);
  const section = oneOf('section', given.text('section'), SECTION_RULES);
  const sectionForm = oneOf('section-form', given.text('section-form'), ARC_FORMS);
  const rounding = oneOf('rounding', given.text('rounding'), ROUNDING_RULES);
  const finalSection = oneOf('final-section', given.text('final-section'), FINAL_SECTION_FORMS);
  const requiredElongationPercent = percents(given, 'required-elongation').at(-1);
  const convertElongation = conversion(given);
  const measuring = measuringSystems(given);
  const range = given.text('hardening-range');
  return {
    ...slope(given),
    ...(offsets.length === 0 ? {} : { offsetsPercent: offsets }),
    ...(extensions.length === 0 ? {} : { extensionsUnderLoadPercent: extensions }),
    ...(fractureIndex === undefined ? {} : { fractureIndex }),
    ...(strainFrom === undefined ? {} : { strainFrom }),
    ...(section === undefined ? {} : { section }),
    ...(sectionForm === undefined ? {} : { sectionForm }),
    ...(rounding === undefined ? {} : { rounding }),
    ...(finalSection === undefined ? {} : { finalSection }),
    ...(requiredElongationPercent === undefined ? {} : { requiredElongationPercent }),
    ...(convertElongation === undefined ? {} : { convertElongation }),
    ...(Object.keys(measuring).length === 0 ? {} : { measuring }),
    ...(range === undefined ? {} : { hardeningRangePercent: hardeningRange(range) }),
    ...lineFormat(given),
  };
}

/** A profile of the program by its name, else a file. */
function lineFormat(given: VerbArguments): Pick<EvaluationOptions, 'lineFormat'> {
  const text = given.text('line-format');
  if (text === undefined) return {};
  return { lineFormat: shippedProfile(text) ?? readProfileFile(text) };
}

/** "0.1,1.0", "0.1 %", and several of them; each value once. */
function percents(given: VerbArguments, flag: string): number[] {
  const values = given
    .texts(flag)
    .flatMap((text) => text.split(','))
    .map((text) => numberOption(flag, text.replace(/\s*%\s*$/, ''), { above: 0, max: PERCENT_MAX }))
    .filter((n) => n !== undefined);
  return [...new Set(values)];
}

function wholeNumber(given: VerbArguments, flag: string): number | undefined {
  const text = given.text(flag);
  if (text === undefined) return undefined;
  const number = Number(text);
  if (text.trim() === '' || !Number.isSafeInteger(number) || number < 0)
    throw new InputError(
      'option-value-wrong',
      `--${flag} "${text.slice(0, 40)}" must be a whole number from 0 on.`,
      flag,
    );
  return number;
}

const RANGE = /^\s*(.+?)\s*\.\.\s*(.+?)\s*$/;

/** "loop", "loading", "50..150" or "20..40 ksi". */
function slope(given: VerbArguments): Pick<EvaluationOptions, 'slopeFrom' | 'slopeWindow'> {
  const from = given.text('slope-from');
  if (from === undefined) return {};
  if (from === 'loop' || from === 'loading') return { slopeFrom: from };
  const [, low, high] = RANGE.exec(from) ?? [];
  if (low === undefined || high === undefined)
    throw new InputError(
      'slope-window-half',
      'A window for the elastic line needs both ends: --slope-from 50..150; or give loop or loading.',
      'slope-from',
    );
  // A unit behind the range is meant for both ends.
  const unit = /[A-Za-z]+$/.exec(high)?.[0] ?? '';
  return { slopeWindow: window(/[A-Za-z]$/.test(low) ? low : `${low} ${unit}`, high) };
}

function window(low: string, high: string): NonNullable<EvaluationOptions['slopeWindow']> {
  const lowerMpa = quantity('slope-from', low, 'stress', { bare: true });
  const upperMpa = quantity('slope-from', high, 'stress', { bare: true });
  if (upperMpa <= lowerMpa)
    throw new InputError(
      'slope-window-wrong',
      `The window for the elastic line must rise, and ${high.trim()} does not lie above ${low.trim()}.`,
      'slope-from',
    );
  return { lowerMpa, upperMpa };
}

function hardeningRange(text: string): NonNullable<EvaluationOptions['hardeningRangePercent']> {
  const [, low = '', high = ''] = RANGE.exec(text) ?? [];
  const bound = (end: string): number | undefined =>
    numberOption('hardening-range', end.replace(/\s*%$/, ''), { above: 0, max: 100 });
  const from = low === '' ? undefined : bound(low);
  const to = high === '' ? undefined : bound(high);
  if (from === undefined || to === undefined || to <= from)
    throw new InputError(
      'option-value-wrong',
      `--hardening-range "${text.slice(0, 40)}" must be two rising percentages, for example 4..15.`,
      'hardening-range',
    );
  return { from, to };
}

/** A on another gauge length: the length and the kind of material belong together, so neither is guessed. */
function conversion(given: VerbArguments): EvaluationOptions['convertElongation'] {
  const length = given.text('convert-elongation');
  const materialKind = oneOf('material-kind', given.text('material-kind'), MATERIAL_KINDS);
  if (length === undefined && materialKind === undefined) return undefined;
  if (length === undefined || materialKind === undefined)
    throw new InputError(
      'conversion-half',
      `A on another gauge length needs both: --convert-elongation LENGTH and --material-kind ${MATERIAL_KINDS.join(' or ')}.`,
      'convert-elongation',
    );
  return {
    gaugeLengthMm: quantity('convert-elongation', length, 'length', { positive: true }),
    materialKind,
  };
}

function measuringSystems(given: VerbArguments): NonNullable<EvaluationOptions['measuring']> {
  const readoutClass = oneOf('readout-class', given.text('readout-class'), FORCE_CLASSES);
  const extensometerClass = oneOf(
    'extensometer-class',
    given.text('extensometer-class'),
    EXTENSOMETER_CLASSES,
  );
  const readoutUncertaintyPercent = percents(given, 'readout-uncertainty').at(-1);
  const step = given.text('readout-resolution');
  return {
    ...(readoutClass === undefined ? {} : { readoutClass }),
    ...(readoutUncertaintyPercent === undefined ? {} : { readoutUncertaintyPercent }),
    ...(step === undefined
      ? {}
      : { readoutResolutionN: quantity('readout-resolution', step, 'force', { positive: true }) }),
    ...(extensometerClass === undefined ? {} : { extensometerClass }),
  };
}

function corrections(given: VerbArguments, tables: Corrections): Pick<EvaluationOptions, 'corrections'> {
  if (given.has('toe') && given.has('no-toe'))
    throw new InputError(
      'toe-both',
      '--toe and --no-toe say the opposite of each other; leave one of them.',
      'toe',
    );
  const zero = (flag: string, dimension: Dimension): number | undefined => {
    const text = given.text(flag);
    return text === undefined ? undefined : quantity(flag, text, dimension);
  };
  const forceZeroN = zero('zero-load', 'force');
  const extensionZeroMm = zero('zero-extension', 'length');
  const travelZeroMm = zero('zero-travel', 'length');
  const all: Corrections = {
    ...(given.has('toe') ? { toe: true } : given.has('no-toe') ? { toe: false } : {}),
    ...(forceZeroN === undefined ? {} : { forceZeroN }),
    ...(extensionZeroMm === undefined ? {} : { extensionZeroMm }),
    ...(travelZeroMm === undefined ? {} : { travelZeroMm }),
    ...tables,
  };
  return Object.keys(all).length === 0 ? {} : { corrections: all };
}

/** In core's unit. A unit is needed, but for stresses of a window, which are MPa without one. */
function quantity(
  flag: string,
  text: string,
  dimension: Dimension,
  { positive = false, bare = false }: { readonly positive?: boolean; readonly bare?: boolean } = {},
): number {
  const outcome = parseQuantity(text, {
    dimension,
    positive,
    ...(bare ? { unitIfMissing: CORE_UNIT[dimension] } : {}),
  });
  if (outcome.ok) return outcome.quantity.core;
  throw new InputError(
    'option-value-wrong',
    `--${flag}: ${quantityFaultSentence(outcome.fault, text.slice(0, 60), dimension)}`,
    flag,
  );
}
