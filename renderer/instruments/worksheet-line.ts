/** A line of a worksheet as it is being typed: what the reference applied, what was indicated in each run, and on the way down. */
import type { Signal } from '@preact/signals';
import { type FormName, holdsTyping } from '../store/held-typing.ts';
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

/** A worksheet as it is being typed. */
interface SheetDraft<Unit> {
  readonly instrumentId: number | null;
  /** In which it is an instrument. */
  readonly archive: string;
  readonly unit: Unit;
}

/** From now on closing asks while the worksheet is another one than its blank. */
export function holdsSheet<Unit, Draft extends SheetDraft<Unit>>(
  name: FormName,
  draft: Signal<Draft>,
  blank: (instrumentId: number | null, unit: Unit, archive?: string) => Draft,
): void {
  holdsTyping(
    name,
    () => {
      const { instrumentId, unit, archive } = draft.value;
      return JSON.stringify(draft.value) !== JSON.stringify(blank(instrumentId, unit, archive));
    },
    (butOf) => {
      if (butOf !== draft.peek().archive) draft.value = blank(null, draft.peek().unit);
    },
  );
}

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
