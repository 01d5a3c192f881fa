/** Tables for corrections from the text of a file: a calibration table, or the curve of a blank run; with its hash. */
import { TABLE_POINTS_MAX } from '../../../core/contract/evaluation-options.ts';
import type { OptionSource } from '../../../core/contract/evaluation-requests.ts';
import { readCurveCsv } from '../../../core/curve/read-csv.ts';
import { compliancePoints } from '../../../core/evaluation/blank-run.ts';
import { readCalibration } from '../../../core/evaluation/calibration-file.ts';
import type { Corrections } from '../../../core/results/evaluation.ts';
import type { TableEntry } from './evaluation-draft.ts';

export interface TextFile {
  readonly name: string;
  readonly text: string;
}

export type TableOutcome =
  | { readonly ok: true; readonly table: Pick<Corrections, TableEntry>; readonly source: OptionSource }
  | { readonly ok: false; readonly sentence: string };

/** What each entry's file is called in the record. */
export const SOURCE_OF: Readonly<Record<TableEntry, string>> = {
  forceTable: 'calibration table of the force',
  extensionTable: 'calibration table of the extension',
  frameCompliance: 'blank run',
};

/** The sentence names the file, what is wrong and what to do. */
export async function tableFromText(
  entry: TableEntry,
  file: TextFile,
  wrongQuantity: (name: string) => string,
): Promise<TableOutcome> {
  const read = entry === 'frameCompliance' ? blankRun(file) : calibration(entry, file, wrongQuantity);
  if (typeof read === 'string') return { ok: false, sentence: read };
  return {
    ok: true,
    table: read,
    source: { what: SOURCE_OF[entry], name: file.name, sha256: await sha256Of(file.text) },
  };
}

function blankRun({ name, text }: TextFile): Pick<Corrections, 'frameCompliance'> | string {
  const curve = readCurveCsv(new TextEncoder().encode(text));
  if (!curve.ok) return `${name}: ${curve.fault.sentence}`;
  const outcome = compliancePoints(curve.curve);
  return outcome.ok ? { frameCompliance: outcome.points } : `${name}: ${outcome.sentence}`;
}

function calibration(
  entry: 'forceTable' | 'extensionTable',
  { name, text }: TextFile,
  wrongQuantity: (name: string) => string,
): Pick<Corrections, TableEntry> | string {
  const outcome = readCalibration(text);
  if (!outcome.ok) return `${name}: ${outcome.sentence}`;
  const { quantity, points } = outcome;
  if ((quantity === 'force') !== (entry === 'forceTable')) return wrongQuantity(name);
  const falls = points.some((point, i) => i > 0 && !(point.shown > (points[i - 1]?.shown ?? Infinity)));
  if (falls || points.length < 2 || points.length > TABLE_POINTS_MAX)
    return `${name}: A calibration table needs 2 to ${String(TABLE_POINTS_MAX)} points in rising order of what the readout showed, each once; correct it there.`;
  return { [entry]: points };
}

export async function sha256Of(text: string): Promise<string> {
  const hash = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  return [...new Uint8Array(hash)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
