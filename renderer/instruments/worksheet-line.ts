/** A line of a worksheet as it is being typed: what the reference applied, what was indicated in each run, and on the way down. */
import type { NameWithin } from '../store/taken-back.ts';

export interface WorksheetLine {
  readonly applied: string;
  readonly runs: readonly string[];
  readonly down: string;
}

/** What of a worksheet is another one than before. */
export const changedInSheet: NameWithin = (before, after) => {
  const [was, is] = [before, after] as readonly { readonly unit: string }[];
  return was?.unit === is?.unit ? 'worksheet' : 'worksheetUnit';
};

const LINES_AT_FIRST = 5;

export const blankRuns = (runs: number): string[] => Array.from({ length: runs }, () => '');
export const blankLine = (runs: number): WorksheetLine => ({ applied: '', runs: blankRuns(runs), down: '' });
export const blankLines = (runs: number): WorksheetLine[] =>
  Array.from({ length: LINES_AT_FIRST }, () => blankLine(runs));

export const withLine = (
  lines: readonly WorksheetLine[],
  place: number,
  change: Partial<WorksheetLine>,
): WorksheetLine[] => lines.map((line, i) => (i === place ? { ...line, ...change } : line));

/** A step as the worksheet takes it. */
export interface TypedStep {
  readonly applied: string;
  readonly indicated: readonly string[];
  readonly descending?: { readonly indicated: string };
}

/** A line that is being filled in is left out until what was applied and every run stand there. */
export function wholeSteps(lines: readonly WorksheetLine[]): {
  readonly steps: readonly TypedStep[];
  /** Place of each step among the lines. */
  readonly places: readonly number[];
} {
  const whole = lines.flatMap(({ applied, runs, down }, place) =>
    [applied, ...runs].every((text) => text.trim() !== '') ? [{ applied, runs, down, place }] : [],
  );
  return {
    steps: whole.map(({ applied, runs, down }) => ({
      applied,
      indicated: [...runs],
      ...(down.trim() === '' ? {} : { descending: { indicated: down } }),
    })),
    places: whole.map(({ place }) => place),
  };
}

/** A worksheet as far as it has been typed. */
export type AsRead<T> =
  | (T & {
      readonly kind: 'verified';
      /** Place of each verified step among the lines. */
      readonly places: readonly number[];
    })
  | { readonly kind: 'waits' }
  | { readonly kind: 'wrong'; readonly sentence: string };
