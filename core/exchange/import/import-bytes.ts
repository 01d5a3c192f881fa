/** A whole file that is in memory, in one step: for the command line and for small files. */
import type { Curve } from '../../curve/curve.ts';
import type { DateInFile } from './dates-in-head.ts';
import { type ImportFault, shown } from './import-fault.ts';
import type { ImportPlan } from './import-plan.ts';
import type { ImportReport } from './import-report.ts';
import { IMPORT_HEAD_BYTES } from './head-lines.ts';
import { type ImportChoices, proposeImport } from './propose-import.ts';
import { readDelimited } from './read-delimited.ts';
import type { ColumnProposal } from './settle-columns.ts';

export type ImportOutcome =
  | { readonly ok: true; readonly curve: Curve; readonly plan: ImportPlan; readonly report: ImportReport }
  | { readonly ok: false; readonly fault: ImportFault };

/** Reads the file where nothing has to be guessed; otherwise the fault says what to settle. Never throws on bad input. */
export function importBytes(bytes: Uint8Array, choices: ImportChoices = {}): ImportOutcome {
  const head = bytes.subarray(0, IMPORT_HEAD_BYTES);
  const settled = settlePlan(head, head.length === bytes.length, choices);
  if (!settled.ok) return settled;
  const { plan, doubts } = settled;
  const read = readDelimited(bytes, plan);
  if (!read.ok) return read;
  return {
    ok: true,
    curve: read.curve,
    plan,
    report: { ...read.report, notes: [...doubts, ...read.report.notes] },
  };
}

export type SettledPlan =
  | {
      readonly ok: true;
      readonly plan: ImportPlan;
      /** What was taken for likely or left out and not said beyond doubt, each a sentence: for the notes of the report. */
      readonly doubts: readonly string[];
      readonly dates: readonly DateInFile[];
    }
  | { readonly ok: false; readonly fault: ImportFault };

/** The plan for a file from its first IMPORT_HEAD_BYTES, for reading it piece by piece with DelimitedReader. */
export function settlePlan(head: Uint8Array, complete: boolean, choices: ImportChoices = {}): SettledPlan {
  const proposed = proposeImport(head, complete, choices);
  if (!proposed.ok) return proposed;
  const { plan, readyWithoutAsking, questions, columns, notes, dates } = proposed.proposal;
  if (plan !== null && readyWithoutAsking)
    return { ok: true, plan, doubts: [...columns.flatMap(doubtAbout), ...leftOut(columns), ...notes], dates };
  return {
    ok: false,
    fault: {
      code: 'import-columns-unclear',
      sentence: `The table in the file is not beyond doubt: ${questions.join(' ')} Name each column in order, like "time_s;force_kN;travel_mm;extension_mm", and write "-" for one to leave out; all rows of that shape are then read. Or say in which line the rows begin.`,
    },
  };
}

function doubtAbout(
  { used, confidence, name, quantity, unit, evidence }: ColumnProposal,
  cell: number,
): string[] {
  if (!used || confidence !== 'likely') return [];
  return [
    `Column ${String(cell + 1)}, ${shown(name)}, is read as ${quantity ?? ''} in ${unit ?? ''} (${evidence}).`,
  ];
}

/** The same load in two units, for example: only one of them becomes readings. */
function leftOut(columns: readonly ColumnProposal[]): string[] {
  const taken = new Map(
    columns.flatMap(({ used, quantity }, i) => (used ? [[quantity, i + 1] as const] : [])),
  );
  const left = columns
    .flatMap(({ used, quantity, name }, i) =>
      used || quantity === null ? [] : { number: i + 1, name, instead: taken.get(quantity) },
    )
    .filter(({ instead }) => instead !== undefined);
  const [first] = left;
  if (first === undefined) return [];
  const { number, name, instead } = first;
  return [
    left.length === 1
      ? `Column ${String(number)}, ${shown(name)}, is left out: column ${String(instead)} is taken for the same quantity.`
      : `${String(left.length)} columns are left out, since others are taken for the same quantities; the first is column ${String(number)}, ${shown(name)}.`,
  ];
}
