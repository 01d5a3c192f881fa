/**
 * The arithmetic of one specimen as it is written on a board, step by step: formula, measured values, numbers put in,
 * answer. Made from the working of each result, in the units that are shown; nothing is worked out anew.
 */
import { groupedWithin } from '../acceptance/number-text.ts';
import { numberText } from '../quantity/number-text.ts';
import { reportedIn, reportedValue } from '../results/reported-in.ts';
import type { Result } from '../results/result.ts';
import type { UnitSystem } from '../results/rounding.ts';

export interface BoardStep {
  readonly symbol: string;
  readonly name: string;
  readonly formula: string;
  /** "b0 = 19.05 mm", one line a value that stands in the formula. */
  readonly given: readonly string[];
  /** The formula with the numbers put in, up to its last sign of equality: "Rm = 64 000 N / 120 mm²". */
  readonly numbers: string;
  /** What comes out, before rounding: "533.33 MPa". */
  readonly unrounded: string;
  /** As it is reported: "533 MPa"; the same as `unrounded` where no rule covers it. */
  readonly answer: string;
}

/** The order in which it is done by hand. Other results need the curve's own geometry and are no arithmetic. */
const ORDER = ['S0', 'Fm', 'Rm', 'ReH', 'Rp0.2', 'L0', 'A', 'Z'] as const;
const INPUT_DIGITS = 6;
const ANSWER_DIGITS = 6;

export function boardSteps(results: readonly Result[], system: UnitSystem): BoardStep[] {
  return ORDER.flatMap((symbol) => {
    const result = results.find((one) => one.symbol === symbol);
    return result === undefined ? [] : [spaced(stepOf(reportedIn(result, system)))];
  });
}

/** Blanks between thousands from five digits on, as one writes them; no line breaks there. */
function spaced(step: BoardStep): BoardStep {
  return {
    ...step,
    given: step.given.map(groupedWithin),
    numbers: groupedWithin(step.numbers),
    unrounded: groupedWithin(step.unrounded),
    answer: groupedWithin(step.answer),
  };
}

function stepOf(result: Result): BoardStep {
  const { symbol, name, working } = result;
  const rounded = reportedValue(result);
  const at = working.substituted.lastIndexOf(' = ');
  const unit = result.unit === '1' ? '' : ` ${result.unit}`;
  const unrounded =
    at < 0 ? `${numberText(result.value, ANSWER_DIGITS)}${unit}` : working.substituted.slice(at + 3);
  return {
    symbol,
    name,
    formula: working.formula,
    given: working.inputs
      .filter((input) => input.symbol !== symbol && working.formula.includes(input.symbol))
      .map(
        (input) =>
          `${input.symbol} = ${numberText(input.value, INPUT_DIGITS)}${input.unit === '1' ? '' : ` ${input.unit}`}`,
      ),
    numbers: at < 0 ? symbol : working.substituted.slice(0, at),
    unrounded,
    // Which reading it was belongs to the step, not to what is carried on.
    answer: rounded === null ? unrounded.replace(/, .*$/, '') : `${rounded.text} ${rounded.unit}`,
  };
}

/** One press of the key: how much of which step stands on the board. */
export type Beat =
  | { readonly kind: 'formula' | 'question' | 'answer'; readonly step: number }
  /** After the last step. */
  | { readonly kind: 'curve' };

/** `hidden`: before each answer stands a question mark, until the class has answered. */
export function boardBeats(stepCount: number, options: { hidden: boolean; curve: boolean }): Beat[] {
  const beats: Beat[] = [];
  for (let step = 0; step < stepCount; step++) {
    beats.push({ kind: 'formula', step });
    if (options.hidden) beats.push({ kind: 'question', step });
    beats.push({ kind: 'answer', step });
  }
  if (options.curve) beats.push({ kind: 'curve' });
  return beats;
}

/** The place in the other list of beats that shows the same, or the nearest before it. */
export function sameBeat(from: Beat | undefined, to: readonly Beat[]): number {
  if (from === undefined) return 0;
  if (from.kind === 'curve') return to.length - 1;
  const exact = to.findIndex((beat) => beat.kind === from.kind && 'step' in beat && beat.step === from.step);
  if (exact >= 0) return exact;
  const formula = to.findIndex((beat) => beat.kind === 'formula' && beat.step === from.step);
  return Math.max(0, formula);
}
