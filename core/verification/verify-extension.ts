/**
 * What a worksheet says of an extensometer: bias at every displacement with its working, the class by ISO 9513 and by
 * ASTM E83. What is compared with a limit is compared exactly; rounding is for showing only.
 */
import { type Exact, exactFromDecimal, exactRatio, toNumber } from '../quantity/exact.ts';
import { numberText } from '../quantity/number-text.ts';
import type { Working } from '../results/result.ts';
import {
  E83_CLASSES,
  E83_LIMITS,
  E83_SOURCE,
  type E83Class,
  EXTENSION_RUNS_MIN,
  EXTENSION_STEPS_MIN,
  ISO_9513_CLASSES,
  ISO_9513_LIMITS,
  ISO_9513_SOURCE,
  type Iso9513Class,
} from './extension-classes.ts';
import type { ReadExtensionWorksheet } from './extension-worksheet.ts';
import { type ReadStep, meanApplied } from './worksheet.ts';

export interface VerifiedDisplacement {
  /** Mean applied, in the unit of the worksheet. */
  readonly applied: number;
  readonly appliedText: string;
  /** Of the run that is furthest off. */
  readonly bias: {
    readonly um: number;
    readonly percent: number;
    /** Of the gauge length. */
    readonly strain: number;
    readonly working: Working;
  };
  /** One digit, as a share of what was applied. */
  readonly resolution: { readonly um: number; readonly percent: number; readonly working: Working };
  readonly isoClass: Iso9513Class | null;
  readonly e83Class: E83Class | null;
}

export interface GaugeLengthError {
  readonly percent: number;
  readonly working: Working;
}

/** The class of the whole extensometer, and why none is stated where none is. */
export interface ExtensionVerdict<Class extends string> {
  readonly class: Class | null;
  readonly withheld: readonly string[];
}

export interface ExtensionVerification {
  readonly unit: string;
  readonly runCount: number;
  readonly steps: readonly VerifiedDisplacement[];
  /** Null where the gauge length was not measured. */
  readonly gaugeLength: GaugeLengthError | null;
  readonly iso: ExtensionVerdict<Iso9513Class>;
  readonly e83: ExtensionVerdict<E83Class>;
  readonly remarks: readonly string[];
}

const ZERO = exactRatio(0n, 1n);

/** Every figure that has a working, with what it is of, in the order in which page, paper and terminal say it. */
export const extensionWorkings = ({
  steps,
  gaugeLength,
  unit,
}: ExtensionVerification): { readonly of: string; readonly working: Working }[] => [
  ...steps.flatMap(({ appliedText, bias, resolution }) =>
    [bias, resolution].map(({ working }) => ({ of: `${appliedText} ${unit}`, working })),
  ),
  ...(gaugeLength === null ? [] : [{ of: 'gauge length', working: gaugeLength.working }]),
];

export function verifyExtension(sheet: ReadExtensionWorksheet): ExtensionVerification {
  const steps = sheet.steps.map((step) => verifiedDisplacement(step, sheet));
  const gauge = gaugeLengthError(sheet);
  const { gaugeLength } = sheet;
  const tooFew = fewness(sheet);
  return {
    unit: sheet.unit,
    runCount: sheet.runCount,
    steps,
    gaugeLength: gauge?.shown ?? null,
    iso: verdict(
      ISO_9513_CLASSES,
      [...steps.map((step) => step.isoClass), ...gaugeClass(gauge, ISO_9513_CLASSES, ISO_9513_LIMITS)],
      tooFew,
    ),
    e83: verdict(
      E83_CLASSES,
      [...steps.map((step) => step.e83Class), ...gaugeClass(gauge, E83_CLASSES, E83_LIMITS)],
      tooFew,
    ),
    remarks: [
      ...(gauge === null
        ? [
            `The gauge length of ${gaugeLength.text} ${sheet.unit} was not measured, so its error is in no class.`,
          ]
        : []),
      'The limits of ISO 9513 and ASTM E83 are from memory: check them against your own copy.',
    ],
  };
}

interface Bias {
  readonly error: Exact;
  readonly applied: Exact;
}

/** The run, or the way down, that is furthest off. */
function worstOf({ runs, descending }: ReadStep): Bias {
  const all = [...runs, ...(descending === null ? [] : [descending])].map(({ applied, indicated }) => ({
    error: indicated.exact.sub(applied.exact),
    applied: applied.exact,
  }));
  const [first, ...others] = all;
  if (first === undefined) throw new RangeError('a step has a run');
  return others.reduce((worst, one) => (one.error.abs().compare(worst.error.abs()) > 0 ? one : worst), first);
}

function verifiedDisplacement(step: ReadStep, sheet: ReadExtensionWorksheet): VerifiedDisplacement {
  const { unit, unitUm, gaugeLength, resolution } = sheet;
  const mean = meanApplied(step);
  const { error, applied } = worstOf(step);
  const um = error.mul(unitUm);
  const strain = error.div(gaugeLength.exact);
  const resolutionUm = resolution.exact.mul(unitUm);
  const appliedUm = applied.mul(unitUm);
  const isoHolds = (one: Iso9513Class): boolean => {
    const limits = ISO_9513_LIMITS[one];
    return (
      within(um, appliedUm, limits.biasPercent, limits.biasUm) &&
      within(resolutionUm, appliedUm, limits.resolutionPercent, limits.resolutionUm)
    );
  };
  const e83Holds = (one: E83Class): boolean => {
    const { strain: fixed, percent } = E83_LIMITS[one];
    return within(strain, applied.div(gaugeLength.exact), percent, fixed);
  };
  const percent = error.div(applied).mul(100);
  return {
    applied: toNumber(mean),
    appliedText: numberText(toNumber(mean), 6),
    bias: {
      um: toNumber(um),
      percent: toNumber(percent),
      strain: toNumber(strain),
      working: {
        formula: 'q = 100 × (li − lt) / lt',
        inputs: [
          {
            symbol: 'lt',
            name: 'displacement applied',
            value: toNumber(applied),
            unit,
            from: 'the run that is furthest off',
          },
          { symbol: 'li − lt', name: 'error', value: toNumber(error), unit, from: 'the same run' },
        ],
        substituted: `q = 100 × ${numberText(toNumber(error), 6)} / ${numberText(toNumber(applied), 6)} = ${toNumber(percent).toFixed(3)} %; ${toNumber(um).toFixed(2)} µm; strain ${numberText(toNumber(strain), 6)} of ${gaugeLength.text} ${unit}`,
        source: `${ISO_9513_SOURCE}; ${E83_SOURCE}`,
      },
    },
    resolution: relativeResolution(sheet, applied),
    isoClass: ISO_9513_CLASSES.find(isoHolds) ?? null,
    e83Class: E83_CLASSES.find(e83Holds) ?? null,
  };
}

function relativeResolution(
  { resolution, unit, unitUm }: ReadExtensionWorksheet,
  applied: Exact,
): VerifiedDisplacement['resolution'] {
  const um = toNumber(resolution.exact.mul(unitUm));
  const percent = toNumber(resolution.exact.div(applied).mul(100));
  return {
    um,
    percent,
    working: {
      formula: 'a = 100 × r / lt',
      inputs: [
        { symbol: 'r', name: 'resolution', value: toNumber(resolution.exact), unit, from: 'worksheet' },
        {
          symbol: 'lt',
          name: 'displacement applied',
          value: toNumber(applied),
          unit,
          from: 'the run that is furthest off',
        },
      ],
      substituted: `a = 100 × ${resolution.text} / ${numberText(toNumber(applied), 6)} = ${percent.toFixed(3)} %; ${um.toFixed(2)} µm`,
      source: ISO_9513_SOURCE,
    },
  };
}

/** The greater of a share of the whole and a fixed amount. */
function within(value: Exact, whole: Exact, percent: string, fixed: string): boolean {
  const share = whole.abs().mul(decimal(percent)).div(100);
  const limit = share.compare(decimal(fixed)) > 0 ? share : decimal(fixed);
  return value.abs().compare(limit) <= 0;
}

interface GaugeAtWork {
  readonly exact: Exact;
  readonly shown: GaugeLengthError;
}

function gaugeLengthError({
  gaugeLength,
  measuredGaugeLength,
  unit,
}: ReadExtensionWorksheet): GaugeAtWork | null {
  if (measuredGaugeLength === null) return null;
  const exact = gaugeLength.exact.sub(measuredGaugeLength.exact).div(measuredGaugeLength.exact).mul(100);
  return {
    exact,
    shown: {
      percent: toNumber(exact),
      working: {
        formula: 'qLe = 100 × (Le − L′e) / L′e',
        inputs: [
          {
            symbol: 'Le',
            name: 'nominal gauge length',
            value: toNumber(gaugeLength.exact),
            unit,
            from: 'worksheet',
          },
          {
            symbol: 'L′e',
            name: 'measured gauge length',
            value: toNumber(measuredGaugeLength.exact),
            unit,
            from: 'worksheet',
          },
        ],
        substituted: `qLe = 100 × (${gaugeLength.text} − ${measuredGaugeLength.text}) / ${measuredGaugeLength.text} = ${toNumber(exact).toFixed(3)} %`,
        source: ISO_9513_SOURCE,
      },
    },
  };
}

function gaugeClass<Class extends string>(
  gauge: GaugeAtWork | null,
  classes: readonly Class[],
  limits: Readonly<Record<Class, { readonly gaugeLength: string }>>,
): (Class | null)[] {
  if (gauge === null) return [];
  const held = classes.find((one) => gauge.exact.abs().compare(decimal(limits[one].gaugeLength)) <= 0);
  return [held ?? null];
}

/** The worst of all; none where one has none. */
function verdict<Class extends string>(
  classes: readonly Class[],
  found: readonly (Class | null)[],
  tooFew: readonly string[],
): ExtensionVerdict<Class> {
  if (tooFew.length > 0) return { class: null, withheld: tooFew };
  if (found.includes(null))
    return {
      class: null,
      withheld: ['At least one displacement, or the gauge length, is outside of every class.'],
    };
  const places = found.flatMap((one) => (one === null ? [] : [classes.indexOf(one)]));
  return { class: classes[Math.max(...places)] ?? null, withheld: [] };
}

function fewness({ runCount, steps }: ReadExtensionWorksheet): string[] {
  return [
    ...(runCount < EXTENSION_RUNS_MIN
      ? [
          `A class rests on ${String(EXTENSION_RUNS_MIN)} series at least; the worksheet has ${String(runCount)}.`,
        ]
      : []),
    ...(steps.length < EXTENSION_STEPS_MIN
      ? [
          `A class rests on ${String(EXTENSION_STEPS_MIN)} displacements at least; the worksheet has ${String(steps.length)}.`,
        ]
      : []),
  ];
}

const decimal = (text: string): Exact => exactFromDecimal(text) ?? ZERO;
