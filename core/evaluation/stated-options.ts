/**
 * What an evaluation departs in from the plain way, each in a sentence: for certificate, terminal and history alike.
 * Nothing is stated of an option that says what the program does anyway.
 */
import { importPlanText } from '../exchange/import/import-plan.ts';
import { numberText } from '../quantity/number-text.ts';
import { type ArcForm, ARC_FORM_FACTS } from '../results/pipe-strip-area.ts';
import type { MaterialKind } from '../results/elongation-conversion.ts';
import type { Corrections, EvaluationOptions } from '../results/evaluation.ts';
import type { FinalSectionForm } from '../results/reduction-of-area.ts';
import type { RoundingRuleName } from '../results/rounding.ts';

export const STATED_KEYS = [
  'toe',
  'forceZero',
  'extensionZero',
  'travelZero',
  'forceTable',
  'extensionTable',
  'frameCompliance',
  'lineFormat',
  'importPlan',
  'judgedBy',
  'offsets',
  'extensionsUnderLoad',
  'slopeLoop',
  'slopeWindow',
  'fractureIndex',
  'strainFromTravel',
  'section',
  'sectionForm',
  'rounding',
  'finalSection',
  'requiredElongation',
  'convertElongation',
  'readoutClass',
  'readoutUncertainty',
  'readoutResolution',
  'extensometerClass',
  'hardeningRange',
] as const;
export type StatedKey = (typeof STATED_KEYS)[number];

export interface StatedOption {
  readonly key: StatedKey;
  /** True where readings were corrected; false where only the way of evaluating was chosen. */
  readonly correction: boolean;
  /** The value alone, in figures and symbols: "0.1 %, 1 %", "−12 N"; empty where the key says it all. */
  readonly value: string;
  /** English, complete. */
  readonly sentence: string;
}

/**
 * In the order of STATED_KEYS; corrections in the words in which the evaluation itself remarks them, so that neither is
 * said twice. Empty for a pull as recorded. */
export function statedOptions(options: EvaluationOptions): StatedOption[] {
  return [...correctionsOf(options.corrections ?? {}), ...choicesOf(options)];
}

type Pair = readonly [StatedKey, string, string];

const points = (list: readonly unknown[]): string => String(list.length);
const percents = (list: readonly number[]): string => list.map((p) => `${numberText(p)} %`).join(', ');

function correctionsOf(c: Corrections): StatedOption[] {
  const { forceZeroN = 0, extensionZeroMm = 0, travelZeroMm = 0 } = c;
  const pairs: (Pair | false)[] = [
    c.toe === false && [
      'toe',
      '',
      'Strain is measured from the zero of the record; the toe is not compensated.',
    ],
    forceZeroN !== 0 && zero('forceZero', `${numberText(forceZeroN)} N`, 'force'),
    extensionZeroMm !== 0 && zero('extensionZero', `${numberText(extensionZeroMm)} mm`, 'extension'),
    travelZeroMm !== 0 && zero('travelZero', `${numberText(travelZeroMm)} mm`, 'travel'),
    c.forceTable !== undefined && tabled('forceTable', c.forceTable, 'Force'),
    c.extensionTable !== undefined && tabled('extensionTable', c.extensionTable, 'Extension'),
    c.frameCompliance !== undefined && [
      'frameCompliance',
      points(c.frameCompliance),
      `Travel is corrected for frame and grips by a blank run of ${points(c.frameCompliance)} points.`,
    ],
  ];
  return pairs.filter((pair) => pair !== false).map(stated(true));
}

const zero = (key: StatedKey, value: string, what: string): Pair => [
  key,
  value,
  `${value} is taken off every ${what} as its zero.`,
];

const tabled = (key: StatedKey, list: readonly unknown[], what: string): Pair => [
  key,
  points(list),
  `${what} is corrected by a calibration table of ${points(list)} points.`,
];

function choicesOf(o: EvaluationOptions): StatedOption[] {
  const { measuring = {} } = o;
  const pairs: (Pair | false)[] = [
    o.lineFormat !== undefined &&
      says(
        'lineFormat',
        `“${o.lineFormat.name}”`,
        (v) => `The lines of the record are read by the readout profile ${v}.`,
      ),
    o.importPlan !== undefined &&
      says('importPlan', importPlanText(o.importPlan), (v) => `The imported file is read again: ${v}.`),
    o.judgedBy !== undefined &&
      says(
        'judgedBy',
        `${o.judgedBy.pack.name}, ${o.judgedBy.pack.edition}`,
        (v) => `This pull is judged by ${v}; its set goes on being judged by its own rules.`,
      ),
    o.offsetsPercent !== undefined &&
      says('offsets', percents(o.offsetsPercent), (v) => `Proof strength at an offset of ${v}.`),
    o.extensionsUnderLoadPercent !== undefined &&
      says(
        'extensionsUnderLoad',
        percents(o.extensionsUnderLoadPercent),
        (v) => `Strength at a total extension of ${v} under load.`,
      ),
    o.slopeFrom === 'loop' && ['slopeLoop', '', 'The elastic slope is taken from the unloading loop.'],
    o.slopeFrom !== 'loop' &&
      o.slopeWindow !== undefined &&
      says(
        'slopeWindow',
        `${numberText(o.slopeWindow.lowerMpa)} – ${numberText(o.slopeWindow.upperMpa)} MPa`,
        (v) => `The elastic slope is fitted by hand between the stresses ${v}.`,
      ),
    o.fractureIndex !== undefined &&
      says(
        'fractureIndex',
        String(o.fractureIndex + 1),
        (v) => `Reading no. ${v} is taken as the last one before the break.`,
      ),
    o.strainFrom === 'travel' && [
      'strainFromTravel',
      '',
      'Strain is taken from crosshead travel, which is no gauge-length strain.',
    ],
    o.section !== undefined &&
      o.section !== 'mean' &&
      says('section', o.section, (v) => `S0 is the ${v} of the measured sections.`),
    o.sectionForm !== undefined &&
      o.sectionForm !== 'arc' &&
      says('sectionForm', arcName(o.sectionForm), (v) => `Area of a strip cut from pipe by the ${v}.`),
    o.rounding !== undefined &&
      says('rounding', ROUNDING_RULE_TITLES[o.rounding], (v) => `Reported values are rounded by ${v}.`),
    o.finalSection !== undefined &&
      says(
        'finalSection',
        o.finalSection,
        () => `Final section of a flat specimen: ${neck(o.finalSection)}.`,
      ),
    o.requiredElongationPercent !== undefined &&
      says(
        'requiredElongation',
        percents([o.requiredElongationPercent]),
        (v) => `An elongation of at least ${v}, which the product demands, counts wherever it broke.`,
      ),
    o.convertElongation !== undefined &&
      says(
        'convertElongation',
        `${numberText(o.convertElongation.gaugeLengthMm)} mm, ${conversionTitle(o.convertElongation.materialKind)}`,
        (v) => `Elongation is also converted to another gauge length: ${v}.`,
      ),
    measuring.readoutClass !== undefined &&
      says(
        'readoutClass',
        measuring.readoutClass,
        (v) => `Force-measuring system of class ${v} (ISO 7500-1).`,
      ),
    measuring.readoutUncertaintyPercent !== undefined &&
      says(
        'readoutUncertainty',
        percents([measuring.readoutUncertaintyPercent]),
        (v) => `Force uncertain by ${v} (k = 2) by its certificate.`,
      ),
    measuring.readoutResolutionN !== undefined &&
      says(
        'readoutResolution',
        `${numberText(measuring.readoutResolutionN)} N`,
        (v) => `The readout of the force shows steps of ${v}.`,
      ),
    measuring.extensometerClass !== undefined &&
      says('extensometerClass', measuring.extensometerClass, (v) => `Extensometer of class ${v} (ISO 9513).`),
    o.hardeningRangePercent !== undefined &&
      says(
        'hardeningRange',
        `${numberText(o.hardeningRangePercent.from)} – ${numberText(o.hardeningRangePercent.to)} %`,
        (v) => `Strain hardening (n, K) over the plastic strains ${v}.`,
      ),
  ];
  return pairs.filter((pair) => pair !== false).map(stated(false));
}

const says = (key: StatedKey, value: string, sentence: (value: string) => string): Pair => [
  key,
  value,
  sentence(value),
];

const stated =
  (correction: boolean) =>
  ([key, value, sentence]: Pair): StatedOption => ({ key, correction, value, sentence });

const ROUNDING_RULE_TITLES: Readonly<Record<RoundingRuleName, string>> = {
  'iso-6892-1': 'ISO 6892-1',
  'e8-1': 'ASTM E8/E8M (1)',
  'e8-2': 'ASTM E8/E8M (2)',
  'e8-3': 'ASTM E8/E8M (3)',
  a370: 'ASTM A370',
  'aws-a5.1': 'AWS A5.1/A5.1M',
  none: 'no rule',
};

const arcName = (form: ArcForm): string => ARC_FORM_FACTS[form].name;
const neck = (form: FinalSectionForm | undefined): string =>
  form === 'parabola' ? 'a parabola through three thicknesses' : 'width times thickness';
const conversionTitle = (kind: MaterialKind): string =>
  kind === 'carbon' ? 'ISO 2566-1 (carbon steel)' : 'ISO 2566-2 (austenitic steel)';
