/** A verification worksheet from a file. */
import type { ShapeFault } from '../../core/shape-faults.ts';
import {
  type ExtensionWorksheetOutcome,
  readExtensionWorksheet,
} from '../../core/verification/extension-worksheet.ts';
import { type WorksheetOutcome, readWorksheet } from '../../core/verification/worksheet.ts';
import { readJsonFile } from './input-files.ts';
import { InputError } from './verb.ts';

/** How one is written, for usage texts. */
export const WORKSHEET_EXAMPLE = `  {
    "unit": "kN",
    "resolution": "0.01",
    "steps": [
      { "applied": "20", "indicated": ["20.02", "20.05", "20.03"], "descending": { "indicated": "20.08" } },
      { "applied": "40", "indicated": ["40.05", "40.06", "40.04"] },
      { "applied": "60", "indicated": ["60.05", "60.08", "60.06"] },
      { "applied": "80", "indicated": ["80.09", "80.10", "80.07"] },
      { "applied": "100", "indicated": ["100.11", "100.12", "100.09"] }
    ],
    "zeros": ["0.00", "0.01", "0.00"]
  }`;

/** The same of an extensometer. */
export const EXTENSION_EXAMPLE = `  {
    "unit": "mm", "gaugeLength": "50", "measuredGaugeLength": "50.1", "resolution": "0.0005",
    "steps": [
      { "applied": "0.1", "indicated": ["0.1005", "0.1000"] },
      { "applied": "0.5", "indicated": ["0.5015", "0.5010"], "descending": { "indicated": "0.5020" } }
    ]
  }`;

/** Throws an InputError that names the file and the field. */
export function worksheetFile(path: string): Extract<WorksheetOutcome, { ok: true }> {
  const outcome = readWorksheet(readJsonFile(path, 'worksheet'));
  return outcome.ok ? outcome : refused(path, outcome.faults);
}

/** The worksheet of an extensometer names its gauge length; null where the file is one of forces. */
export function extensionWorksheetFile(
  path: string,
): Extract<ExtensionWorksheetOutcome, { ok: true }> | null {
  const input = readJsonFile(path, 'worksheet');
  if (typeof input !== 'object' || input === null || !('gaugeLength' in input)) return null;
  const outcome = readExtensionWorksheet(input);
  return outcome.ok ? outcome : refused(path, outcome.faults);
}

function refused(path: string, faults: readonly ShapeFault[]): never {
  const [first] = faults;
  const more = faults.length - 1;
  throw new InputError(
    'worksheet-wrong',
    `${path}: ${first?.sentence ?? 'The worksheet is not complete.'}${more > 0 ? ` (${String(more)} more ${more === 1 ? 'fault' : 'faults'} in this file.)` : ''}`,
    first === undefined || first.field === '' ? 'worksheet' : first.field,
  );
}
