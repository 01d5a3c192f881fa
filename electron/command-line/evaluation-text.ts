/** An evaluation as people read it in a terminal: values, how each was found, what is missing and why. */
import { numberText } from '../../core/quantity/number-text.ts';
import type { DisplaySystem } from '../../core/quantity/display-unit.ts';
import { UNITS, convert } from '../../core/quantity/units.ts';
import type { Evaluation } from '../../core/results/evaluation.ts';
import type { Result } from '../../core/results/result.ts';
import type { RoundingRuleName } from '../../core/results/rounding.ts';
import { proseInSystem, shownInSystem } from '../../core/results/shown-in-system.ts';
import { measuredInInches } from '../../core/results/specimen-findings.ts';
import { speedSentence } from '../../core/results/testing-speed.ts';
import type { Specimen } from '../../core/specimen/specimen.ts';
import { resolutionLines } from './resolution-text.ts';

export interface EvaluationTextOptions {
  readonly working: boolean;
  readonly specimen: Specimen | null;
  /** Without it as the specimen was measured. */
  readonly units?: DisplaySystem | undefined;
  /** The rule that was asked for. */
  readonly rounding?: RoundingRuleName | undefined;
}

/** Lines of text, without a line end at the last. `working` adds formula, numbers put in and source to each value. */
export function evaluationText(
  evaluation: Evaluation,
  { working, specimen, units: asked, rounding }: EvaluationTextOptions,
): string {
  const measuredIn = specimen !== null && measuredInInches(specimen) ? 'US' : 'SI';
  const units = asked ?? (measuredIn === 'US' ? 'us' : 'si');
  const rows = evaluation.results
    .map((r) => shownInSystem(r, { units, measuredIn, ...(rounding === undefined ? {} : { rounding }) }))
    .map((result) => ({ result, value: valueText(result), reported: reportedText(result, units) }));
  const widths = {
    symbol: widest(rows.map((r) => r.result.symbol)),
    value: widest(rows.map((r) => r.value)),
    reported: widest(rows.map((r) => r.reported)),
  };
  const lines = rows.flatMap(({ result, value, reported }) => [
    `${result.symbol.padEnd(widths.symbol)}  ${value.padStart(widths.value)}  ${reported.padEnd(widths.reported)}  ${result.name}`.trimEnd(),
    ...(working ? workingLines(result) : []),
    ...(result.remarks ?? []).map((remark) => `    note: ${proseInSystem(remark, units)}`),
  ]);
  const prose = (text: string): string => proseInSystem(text, units);
  const withheld = evaluation.withheld.map((w) => `  ${w.symbol}: ${prose(w.reason)}`);
  return [
    ...lines,
    ...(withheld.length === 0 ? [] : ['', 'Not given, and why:', ...withheld]),
    ...resolutionLines(evaluation).map(prose),
    ...speedLines(evaluation, units),
    ...(evaluation.remarks.length === 0
      ? []
      : ['', 'About the record:', ...evaluation.remarks.map((remark) => `  ${prose(remark)}`)]),
  ].join('\n');
}

/** One line a check; a record in which nothing about speed can be told says why in one line. */
function speedLines({ speed }: Evaluation, units: DisplaySystem): string[] {
  if (speed === undefined) return [];
  const sentences = new Set(speed.checks.map((check) => speedSentence(check, units)));
  return [
    '',
    'Speed of testing:',
    ...(sentences.size === 1
      ? [...sentences].map((sentence) => `  ${sentence}`)
      : speed.checks.map((check) => `  ${check.standard}, ${check.method}: ${speedSentence(check, units)}`)),
  ];
}

function workingLines(result: Result): string[] {
  const { working, uncertainty } = result;
  return [
    `    ${working.formula}`,
    ...working.inputs.map(
      (i) => `      ${i.symbol} = ${`${numberText(i.value)} ${unitText(i.unit)}`.trim()} (${i.from})`,
    ),
    `    ${working.substituted}`,
    ...(working.steps ?? []).map((step) => `    ${step}`),
    `    method: ${result.method}`,
    `    source: ${working.source}`,
    ...result.rounded.map((r) => `    ${r.text} ${r.unit} by ${r.rule}`),
    ...(uncertainty === undefined
      ? []
      : [
          `    uncertainty: U = ${withUnit(uncertainty.expanded, 2, result.unit)}, k = ${numberText(uncertainty.coverageFactor, 3)}`,
          ...uncertainty.budget.map(
            (line) =>
              `      ${line.source}: u = ${withUnit(line.standard, 3, line.unit)}, contributes ${withUnit(line.contribution, 3, result.unit)}`,
          ),
        ]),
  ];
}

/** The unrounded value; strains in percent, as the trade says them. */
function valueText(result: Result): string {
  if (result.unit === '1' && isElongation(result.symbol))
    return `${numberText(convert(result.value, '1', '%'))} %`;
  return `${numberText(result.value)} ${unitText(result.unit)}`.trim();
}

const isElongation = (symbol: string): boolean => /^(?:A|Z)/.test(symbol);

const unitText = (unit: string): string => (unit === '1' ? '' : unit);

/** "0.0029 mm"; a plain ratio is said as such, "0.01 (ratio)", so that no unit seems to be missing. */
const withUnit = (value: number, digits: number, unit: string): string =>
  `${numberText(value, digits)} ${unit === '1' ? '(ratio)' : unit}`;

/** The reported value, where there is one in the system shown. */
function reportedText(result: Result, units: DisplaySystem): string {
  const other = units === 'us' ? 'SI' : 'US';
  const first = result.rounded.find((r) => r.unit === '%' || UNITS[r.unit].system !== other);
  return first === undefined ? '' : `→ ${first.text} ${first.unit}`;
}

const widest = (texts: readonly string[]): number => Math.max(0, ...texts.map((t) => t.length));
