/** Which of the columns that have a meaning are used: one per quantity, and none that follows from another. */
import { shown } from './import-fault.ts';
import type { ImportQuantity, TimeForm } from './import-plan.ts';
import { CONFIDENCES, type NamedColumn } from './name-column.ts';

export interface ColumnProposal extends NamedColumn {
  readonly name: string;
  readonly written: TimeForm;
  readonly used: boolean;
}

export interface SettledColumns {
  readonly columns: readonly ColumnProposal[];
  /** Questions that a person must answer before the file can be read, or before the answer can be trusted. */
  readonly questions: readonly string[];
  readonly ready: boolean;
}

/** A quantity that is left out where the ones named here are in the file: it follows from them. */
const FOLLOWS_FROM: Readonly<Partial<Record<ImportQuantity, readonly ImportQuantity[]>>> = {
  stress: ['force'],
  'true-stress': ['force', 'stress'],
  strain: ['extension'],
  'true-strain': ['extension', 'strain'],
};

export function settleColumns(named: readonly Omit<ColumnProposal, 'used'>[]): SettledColumns {
  const columns = displacementBesideTravel(named);
  const chosen = new Set<number>();
  for (const quantity of new Set(columns.map((c) => c.quantity).filter((q) => q !== null))) {
    const best = bestOf(columns, quantity);
    if (best !== null) chosen.add(best);
  }
  const has = (quantity: ImportQuantity): boolean =>
    [...chosen].some((i) => columns[i]?.quantity === quantity && isFirm(columns[i]));
  const settled = columns.map((column, i): ColumnProposal => {
    if (column.quantity === null) return { ...column, used: false };
    if (!chosen.has(i))
      return {
        ...column,
        used: false,
        evidence: `${column.evidence}; another column is taken as ${column.quantity}`,
      };
    const source = FOLLOWS_FROM[column.quantity]?.find(has);
    if (source !== undefined)
      return {
        ...column,
        used: false,
        evidence: `${column.evidence}; left out because it follows from the ${source}`,
      };
    return { ...column, used: column.unit !== null };
  });
  return { columns: settled, ...judged(settled) };
}

/** Beside a column of the machine's own travel, a plain "displacement" is what an extensometer gave. */
function displacementBesideTravel(
  columns: readonly Omit<ColumnProposal, 'used'>[],
): Omit<ColumnProposal, 'used'>[] {
  const travelIsSure = columns.some((c) => c.quantity === 'travel' && c.confidence === 'sure');
  const extensionIsThere = columns.some((c) => c.quantity === 'extension');
  return columns.map((column) =>
    travelIsSure && !extensionIsThere && column.quantity === 'travel' && column.confidence === 'likely'
      ? {
          ...column,
          quantity: 'extension',
          evidence: "name and unit; taken as extension because another column is the machine's own travel",
        }
      : column,
  );
}

/** The most certain column of a quantity, the first one among equals. */
function bestOf(columns: readonly Omit<ColumnProposal, 'used'>[], quantity: ImportQuantity): number | null {
  for (const confidence of CONFIDENCES) {
    const at = columns.findIndex((c) => c.quantity === quantity && c.confidence === confidence);
    if (at !== -1) return at;
  }
  return null;
}

function isFirm(column: Omit<ColumnProposal, 'used'> | undefined): boolean {
  return (
    column !== undefined &&
    column.unit !== null &&
    (column.confidence === 'sure' || column.confidence === 'likely')
  );
}

function judged(columns: readonly ColumnProposal[]): Pick<SettledColumns, 'questions' | 'ready'> {
  const questions: string[] = [];
  for (const [i, column] of columns.entries()) {
    const wanted =
      column.used ||
      (column.quantity !== null && column.unit === null && !column.evidence.includes('left out'));
    if (wanted && column.confidence === 'guess')
      questions.push(
        `Is column ${String(i + 1)}, ${shown(column.name)}, ${article(column.quantity)} in ${column.unit ?? 'an unknown unit'}? (${column.evidence})`,
      );
  }
  if (!columns.some((column) => isLoad(column.quantity))) questions.push(NO_LOAD);
  return { questions, ready: questions.length === 0 };
}

export const NO_LOAD =
  'No column is known to hold a force or a stress; say what the columns are, like "time_s;force_kN;extension_mm".';

/** A curve needs one of these; without it there is nothing to evaluate. */
export function isLoad(quantity: ImportQuantity | null): boolean {
  return quantity === 'force' || quantity === 'stress' || quantity === 'true-stress';
}

function article(quantity: ImportQuantity | null): string {
  const words = (quantity ?? 'quantity').replace('-', ' ');
  return /^[aeiou]/.test(words) ? `an ${words}` : `a ${words}`;
}
