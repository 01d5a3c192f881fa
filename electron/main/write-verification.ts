/** The certificate of a verification written from the window: asked where, composed from the archive, printed here. */
import { app, type BrowserWindow } from 'electron';
import { basename, join } from 'node:path';
import { NO_LABORATORY } from '../../core/certificate/compose-certificate.ts';
import { sheetOf } from '../../core/certificate/paper/paper-style.ts';
import { verificationPaper } from '../../core/certificate/paper/verification-page.ts';
import type { PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import { contract } from '../../core/contract/index.ts';
import type { Answer, Fault } from '../../core/contract/message.ts';
import { momentText } from '../../core/exchange/export/moment-text.ts';
import { paperWords } from '../../core/words/load-paper-words.ts';
import { paperFontsIn } from '../print/paper-fonts.ts';
import { chooseSavePath } from './dialogs.ts';
import { FileNotWritten, writeWholeBytes } from '../exports/whole-bytes.ts';
import { pdfOf } from './page-to-pdf.ts';

export interface VerificationMeans {
  readonly window: BrowserWindow;
  readonly buildFolder: string;
  readonly programVersion: string;
  readonly instrument: (instrumentId: number) => Promise<Answer<unknown>>;
  readonly laboratory: () => Promise<Answer<unknown>>;
}

export async function writeVerification(
  { instrumentId, calibrationId, paper, language, suggestedName }: PageRequestOf<'window.write-verification'>,
  { window, buildFolder, programVersion, instrument, laboratory }: VerificationMeans,
): Promise<Answer<PageReplyOf<'window.write-verification'>>> {
  const [kept, house] = [await instrument(instrumentId), await laboratory()];
  if (!kept.ok) return kept;
  if (!house.ok) return house;
  const { instrument: line, calibrations } = contract['instrument.get'].reply.parse(kept.value);
  const calibration = calibrations.find((one) => one.calibrationId === calibrationId);
  const now = Date.now();
  const page =
    calibration === undefined
      ? null
      : verificationPaper(
          {
            laboratory: contract['laboratory.get'].reply.parse(house.value) ?? NO_LABORATORY,
            instrument: line.form,
            calibration: calibration.form,
            supersededBy: calibration.supersededBy,
            programVersion,
            made: momentText(now, 0 - new Date(now).getTimezoneOffset()),
          },
          { paper, fonts: paperFontsIn(join(buildFolder, 'paper-fonts')), words: await paperWords(language) },
        );
  if (page === null)
    return fault(
      'no-worksheet',
      'That calibration holds no worksheet of a verification, so nothing can be written.',
    );
  const path = await chooseSavePath(window, {
    kind: 'certificate',
    suggestedName: `${suggestedName}.pdf`,
    folder: app.getPath('documents'),
  });
  if (path === null) return { ok: true, value: { path: null } };
  try {
    const bytes = await pdfOf(page, { sheet: sheetOf(paper) });
    await writeWholeBytes({ path, bytes, what: 'certificate', replace: true });
  } catch (error) {
    if (error instanceof FileNotWritten)
      return fault(
        'certificate-not-written',
        `The calibration is kept; its certificate can be written again: ${error.message}`,
      );
    const cause = error instanceof Error ? error.message : String(error);
    return fault(
      'certificate-not-written',
      `"${basename(path)}" could not be written (${cause.slice(0, 300)}). The calibration is kept; choose another place and write it again.`,
    );
  }
  return { ok: true, value: { path } };
}

const fault = (code: string, sentence: string): { readonly ok: false; readonly fault: Fault } => ({
  ok: false,
  fault: { code, sentence },
});
