/** Records from which nothing can be taken: no load channel, all zeros, compression. One reason for every symbol. */
import { STRENGTH_MPA_MAX } from '../limits.ts';
import { numberText } from '../quantity/number-text.ts';
import type { EvaluationOptions } from './evaluation.ts';
import { type Finding, type Reason, readingNumber, withhold } from './finding.ts';
import { offsetSymbol } from './proof-strength.ts';
import type { RecordColumns } from './record-columns.ts';
import { unitStepWords } from './unit-step.ts';
import type { UsableColumns } from './usable-columns.ts';

/** Symbols that come from the curve, with their names. */
export const CURVE_SYMBOLS: readonly (readonly [string, string])[] = [
  ['Fm', 'maximum force'],
  ['Rm', 'tensile strength (ultimate tensile strength)'],
  ['ReH', 'upper yield strength'],
  ['ReL', 'lower yield strength'],
  ['Ae', 'yield point extension'],
  ['mE', 'slope of the elastic part'],
  ['At', 'percentage total extension at fracture'],
  ['Agt', 'percentage total extension at maximum force'],
  ['Ag', 'percentage plastic extension at maximum force (uniform elongation)'],
  ['Wm', 'energy to maximum force'],
  ['Wt', 'energy to fracture'],
  ['n', 'tensile strain hardening exponent'],
  ['K', 'strength coefficient'],
];

export function unusableRecord(
  columns: RecordColumns,
  usable: UsableColumns | null,
  options: EvaluationOptions,
  /** A was measured on the refitted halves; the extensometer's is then another symbol. */
  halvesMeasured: boolean,
): { readonly findings: readonly Finding[]; readonly remarks: readonly string[] } | null {
  const why = unusable(columns, usable);
  if (why === null) return null;
  const strengths: (readonly [string, string])[] = [
    [
      halvesMeasured ? 'A (extensometer)' : 'A',
      `percentage elongation after fracture, from ${options.strainFrom === 'travel' ? 'crosshead travel' : 'the extensometer'}`,
    ] as const,
    ...(options.offsetsPercent ?? [0.2]).map((p) => [offsetSymbol(p), 'proof strength, offset'] as const),
    ...(options.extensionsUnderLoadPercent ?? [0.5]).map(
      (p) => [`Rt${numberText(p, 4)}`, 'proof strength, total extension'] as const,
    ),
  ];
  return {
    findings: [...CURVE_SYMBOLS, ...strengths].map(([symbol, name]) =>
      withhold(symbol, name, why.code, why.reason),
    ),
    remarks: [],
  };
}

function unusable(columns: RecordColumns, usable: UsableColumns | null): Reason | null {
  if (usable === null)
    return (
      columns.stressMissing ?? { code: 'no-force', reason: 'The curve has no readings of force or stress.' }
    );
  const { load, scan } = usable;
  const unit = columns.force === undefined ? 'MPa' : 'N';
  const largest = (scan.largest - load.zero) * load.factor;
  const smallest = (scan.smallest - load.zero) * load.factor;
  if (smallest < 0 && -smallest > 2 * Math.max(0, largest))
    return {
      code: 'compression',
      reason: `The load goes to ${numberText(smallest, 4)} ${unit} and no further than ${numberText(largest, 4)} ${unit} in tension: compression, or the sign of the channel is reversed; set the sign in the readout profile.`,
    };
  if (!(largest > 0))
    return {
      code: 'no-load',
      reason: `All ${String(scan.present)} readings of the load are zero or below, so nothing was pulled; check the channel and its zero.`,
    };
  if (largest - smallest < STEADY_FRACTION * largest)
    return {
      code: 'load-steady',
      reason: `${steadyAt(smallest, largest, unit)} over the whole record, so nothing was pulled in it; check the channel, or open the record of the pull itself.`,
    };
  const stress = columns.stress;
  const strongest =
    stress === undefined ? 0 : ((stress.column[scan.largestIndex] as number) - stress.zero) * stress.factor;
  if (strongest > STRENGTH_MPA_MAX)
    return {
      code: 'stress-implausible',
      reason: `The largest stress would be ${numberText(strongest, 4)} MPa, which no metal bears; the unit of the load or of a dimension is wrong.`,
    };
  const { unitStep } = usable;
  if (unitStep !== null && unitStep.index < scan.counted)
    return {
      code: 'unit-changed',
      reason: `${unitStepWords(unitStep)}. Which of the two scales is right is not in the record; to evaluate what came before, mark the end at reading ${readingNumber(unitStep.index - 1)}, and check that its unit is the profile’s.`,
    };
  return null;
}

/** In loads, not as a part of one: within the readout's resolution there is no part to speak of. */
function steadyAt(smallest: number, largest: number, unit: 'N' | 'MPa'): string {
  const [low, high] = [numberText(smallest, 4), numberText(largest, 4)];
  return low === high
    ? `The load stays at ${high} ${unit}`
    : `The load stays between ${low} and ${high} ${unit}`;
}

/** A load that changes by less than this part of itself was not pulled with. */
const STEADY_FRACTION = 0.02;
