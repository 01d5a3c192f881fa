/** The columns of a table of results for the pulls that stand in it. */
import type { UnitSymbol } from '../../quantity/units.ts';
import { reportedValue } from '../../results/reported-in.ts';
import type { Result } from '../../results/result.ts';
import { type AskedColumn, type PullFact, type ResultForm, USUAL_COLUMNS } from './asked-columns.ts';

/** Columns of one table. */
export const TABLE_COLUMNS_MAX = 200;

export type ColumnChoice =
  | { readonly kind: 'fact'; readonly fact: PullFact }
  /** A result by its symbol, unrounded in the unit asked for, or as the rule rounds it. */
  | {
      readonly kind: 'result';
      readonly symbol: string;
      readonly unit?: UnitSymbol;
      readonly form: ResultForm;
    };

interface WithResults {
  readonly archive?: string;
  readonly pulledOn?: string | null;
  readonly results: readonly Result[];
}

/**
 * What is asked for, for these pulls. The archive is named only where pulls of several stand together, and without a choice
 * the day that was stated only where it was of one. A rule rounds in
 * its own unit and one column has one unit, so a rounded result has a column for each unit that some pull reports it in.
 * Among `results` a form that no pull has is left out; a result that is asked for by its symbol has its column always.
 */
export function chosenColumns(
  pulls: readonly WithResults[],
  asked: readonly AskedColumn[] = USUAL_COLUMNS,
): ColumnChoice[] {
  const isOfSeveral = pulls.some(({ archive }) => archive !== undefined);
  const isDayStated = pulls.some(({ pulledOn }) => typeof pulledOn === 'string');
  const reported = unitsReported(pulls);
  const rounded = (symbol: string): ColumnChoice[] =>
    [...(reported.get(symbol) ?? [])].map((unit) => ({ kind: 'result', symbol, unit, form: 'rounded' }));
  return asked.flatMap((column): readonly ColumnChoice[] => {
    if (column.kind === 'fact') {
      const isLeftOut =
        (column.fact === 'archive' && !isOfSeveral) ||
        (column.fact === 'pulled-on' && asked === USUAL_COLUMNS && !isDayStated);
      return isLeftOut ? [] : [column];
    }
    if (column.kind === 'results')
      return [...reported.keys()].flatMap((symbol) =>
        column.forms.flatMap((form) =>
          form === 'rounded' ? rounded(symbol) : [{ kind: 'result', symbol, form } as const],
        ),
      );
    if (column.form === 'unrounded') return [column];
    const its = rounded(column.symbol);
    return its.length === 0 ? [column] : its;
  });
}

/** Every symbol that some pull has, in the order of first appearance, with the units that it is reported in. */
function unitsReported(pulls: readonly WithResults[]): ReadonlyMap<string, ReadonlySet<UnitSymbol>> {
  const units = new Map<string, Set<UnitSymbol>>();
  for (const result of pulls.flatMap(({ results }) => results)) {
    const its = units.get(result.symbol) ?? new Set();
    units.set(result.symbol, its);
    const reported = reportedValue(result);
    if (reported !== null) its.add(reported.unit);
  }
  return units;
}
