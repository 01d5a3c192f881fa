/** The worksheet as it is being typed: kept while one looks elsewhere, read at every keystroke. */
import { computed } from '@preact/signals';
import { type Verification, verifyForce } from '../../core/verification/verify-force.ts';
import {
  type ReadWorksheet,
  type VerificationWorksheet,
  type WorksheetUnit,
  readWorksheet,
} from '../../core/verification/worksheet.ts';
import { filled } from './form-text.ts';
import { HeldSheets } from './held-sheets.ts';
import {
  type AsRead,
  type WorksheetLine,
  blankLine,
  blankLines,
  blankRuns,
  wholeSteps,
} from './worksheet-line.ts';

/** The standards ask for three runs. */
export const RUNS = 3;

export interface WorksheetDraft {
  readonly unit: WorksheetUnit;
  readonly resolution: string;
  readonly capacity: string;
  readonly reference: string;
  readonly temperature: string;
  readonly lines: readonly WorksheetLine[];
  readonly zeros: readonly string[];
}

export const blankForceLine = (): WorksheetLine => blankLine(RUNS);

export const blankWorksheet = (unit: WorksheetUnit): WorksheetDraft => ({
  unit,
  resolution: '',
  capacity: '',
  reference: '',
  temperature: '',
  lines: blankLines(RUNS),
  zeros: blankRuns(RUNS),
});

export const forceSheets = new HeldSheets('forces', blankWorksheet, 'kN');
/** The one that is on the page. */
export const worksheetDraft = forceSheets.shown;

export const changeWorksheet = (change: Partial<WorksheetDraft>): void => forceSheets.change(change);

export const changeLine = (place: number, change: Partial<WorksheetLine>): void =>
  forceSheets.changeLine(place, change);

export type WorksheetAsRead = AsRead<{
  readonly verification: Verification;
  readonly worksheet: VerificationWorksheet;
  readonly read: ReadWorksheet;
}>;

export const worksheetAsRead = computed<WorksheetAsRead>(() => {
  const { unit, resolution, capacity, reference, temperature, lines, zeros } = worksheetDraft.value;
  const { steps, places } = wholeSteps(lines);
  if (resolution.trim() === '' || steps.length === 0) return { kind: 'waits' };
  const outcome = readWorksheet({
    unit,
    resolution: resolution.trim(),
    ...filled({ capacity, reference, temperature }),
    steps,
    ...(zeros.every((text) => text.trim() !== '') ? { zeros: [...zeros] } : {}),
  });
  if (!outcome.ok) return { kind: 'wrong', sentence: outcome.faults[0]?.sentence ?? '' };
  return {
    kind: 'verified',
    verification: verifyForce(outcome.read),
    worksheet: outcome.worksheet,
    read: outcome.read,
    places,
  };
});
