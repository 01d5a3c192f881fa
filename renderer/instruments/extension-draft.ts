/** The worksheet of an extensometer as it is being typed: kept while one looks elsewhere, read at every keystroke. */
import { computed } from '@preact/signals';
import {
  type ExtensionUnit,
  type ExtensionWorksheet,
  type ReadExtensionWorksheet,
  readExtensionWorksheet,
} from '../../core/verification/extension-worksheet.ts';
import { type ExtensionVerification, verifyExtension } from '../../core/verification/verify-extension.ts';
import { filled } from './form-text.ts';
import { HeldSheets } from './held-sheets.ts';
import { type AsRead, type WorksheetLine, blankLine, blankLines, wholeSteps } from './worksheet-line.ts';

/** Both standards ask for two series. */
export const SERIES = 2;

export interface ExtensionDraft {
  readonly unit: ExtensionUnit;
  readonly resolution: string;
  readonly gaugeLength: string;
  readonly measuredGaugeLength: string;
  readonly reference: string;
  readonly temperature: string;
  readonly lines: readonly WorksheetLine[];
}

export const blankExtensionLine = (): WorksheetLine => blankLine(SERIES);

export const blankExtension = (unit: ExtensionUnit): ExtensionDraft => ({
  unit,
  resolution: '',
  gaugeLength: '',
  measuredGaugeLength: '',
  reference: '',
  temperature: '',
  lines: blankLines(SERIES),
});

export const extensionSheets = new HeldSheets('extensions', blankExtension, 'mm');
/** The one that is on the page. */
export const extensionDraft = extensionSheets.shown;

export const changeExtension = (change: Partial<ExtensionDraft>): void => extensionSheets.change(change);

export const changeExtensionLine = (place: number, change: Partial<WorksheetLine>): void =>
  extensionSheets.changeLine(place, change);

export type ExtensionAsRead = AsRead<{
  readonly verification: ExtensionVerification;
  readonly worksheet: ExtensionWorksheet;
  readonly read: ReadExtensionWorksheet;
}>;

export const extensionAsRead = computed<ExtensionAsRead>(() => {
  const { unit, resolution, gaugeLength, measuredGaugeLength, reference, temperature, lines } =
    extensionDraft.value;
  const { steps, places } = wholeSteps(lines);
  if (resolution.trim() === '' || gaugeLength.trim() === '' || steps.length === 0) return { kind: 'waits' };
  const outcome = readExtensionWorksheet({
    unit,
    resolution: resolution.trim(),
    gaugeLength: gaugeLength.trim(),
    ...filled({ measuredGaugeLength, reference, temperature }),
    steps,
  });
  if (!outcome.ok) return { kind: 'wrong', sentence: outcome.faults[0]?.sentence ?? '' };
  return {
    kind: 'verified',
    verification: verifyExtension(outcome.read),
    worksheet: outcome.worksheet,
    read: outcome.read,
    places,
  };
});
