/** A whole file that is in memory, in one step: for the command line and for small files. */
import type { Curve } from '../../curve/curve.ts';
import type { ImportFault } from './import-fault.ts';
import type { ImportPlan } from './import-plan.ts';
import type { ImportReport } from './import-report.ts';
import { IMPORT_HEAD_BYTES } from './head-lines.ts';
import { type ImportChoices, proposeImport } from './propose-import.ts';
import { readDelimited } from './read-delimited.ts';

export type ImportOutcome =
  | { readonly ok: true; readonly curve: Curve; readonly plan: ImportPlan; readonly report: ImportReport }
  | { readonly ok: false; readonly fault: ImportFault };

/** Reads the file where nothing has to be guessed; otherwise the fault says what to settle. Never throws on bad input. */
export function importBytes(bytes: Uint8Array, choices: ImportChoices = {}): ImportOutcome {
  const settled = settlePlan(
    bytes.subarray(0, IMPORT_HEAD_BYTES),
    bytes.length <= IMPORT_HEAD_BYTES,
    choices,
  );
  if (!settled.ok) return settled;
  const read = readDelimited(bytes, settled.plan);
  return read.ok ? { ...read, plan: settled.plan } : read;
}

/** The plan for a file from its first IMPORT_HEAD_BYTES, for reading it piece by piece with DelimitedReader. */
export function settlePlan(
  head: Uint8Array,
  complete: boolean,
  choices: ImportChoices = {},
): { readonly ok: true; readonly plan: ImportPlan } | { readonly ok: false; readonly fault: ImportFault } {
  const proposed = proposeImport(head, complete, choices);
  if (!proposed.ok) return proposed;
  const { plan, readyWithoutAsking, questions } = proposed.proposal;
  if (plan !== null && readyWithoutAsking) return { ok: true, plan };
  return {
    ok: false,
    fault: {
      code: 'import-columns-unclear',
      sentence: `The columns of the file are not beyond doubt: ${questions.join(' ')} Name each column in order, like "time_s;force_kN;travel_mm;extension_mm", and write "-" for one to leave out.`,
    },
  };
}
