/** A certificate written from the window: asked where, issued by the recorder, printed here, put in place at once. */
import { app, type BrowserWindow } from 'electron';
import { basename, join } from 'node:path';
import { certificateCsv } from '../../core/certificate/certificate-csv.ts';
import { type CertificateContent, languageOf } from '../../core/certificate/certificate-content.ts';
import { type PageOptions, certificatePage } from '../../core/certificate/paper/certificate-page.ts';
import { headAndFoot } from '../../core/certificate/paper/head-and-foot.ts';
import { sheetOf } from '../../core/certificate/paper/paper-style.ts';
import type { PhotoBytes } from '../../core/certificate/paper/specimen-section.ts';
import type { PageEventOf, PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import { type RequestOf, contract } from '../../core/contract/index.ts';
import type { Answer } from '../../core/contract/message.ts';
import type { CertificateForm, FileKind } from '../../core/contract/window-requests.ts';
import { paperWords } from '../../core/words/load-paper-words.ts';
import { photosOnPaper } from '../photos/photos-on-paper.ts';
import { paperFontsIn } from '../print/paper-fonts.ts';
import { chooseSavePath } from './dialogs.ts';
import { FileNotWritten, writeWholeBytes } from '../exports/whole-bytes.ts';
import { StoppedByPerson, unlessStopped } from '../print/stoppable-work.ts';
import { pdfOf, savingOf } from './page-to-pdf.ts';

const KIND: Readonly<Record<CertificateForm, FileKind>> = {
  pdf: 'certificate',
  csv: 'certificate-csv',
  json: 'certificate-json',
};

export interface CertificateMeans {
  readonly window: BrowserWindow;
  readonly buildFolder: string;
  readonly ask: (request: RequestOf<'certificate.issue'>) => Promise<Answer<unknown>>;
  readonly photo: (photoId: number) => Promise<Answer<unknown>>;
  /** Raised where a person thinks better of it meanwhile. */
  readonly signal: AbortSignal;
  readonly onStep: (step: PageEventOf<'writing'>) => void;
}

export async function writeCertificate(
  { form, paper, language, beginIn, suggestedName, about }: PageRequestOf<'window.write-certificate'>,
  { window, buildFolder, ask, photo, signal, onStep }: CertificateMeans,
): Promise<Answer<PageReplyOf<'window.write-certificate'>>> {
  const path = await chooseSavePath(window, {
    kind: KIND[form],
    suggestedName: `${suggestedName}.${form}`,
    folder: app.getPath('documents'),
  });
  if (path === null) return { ok: true, value: { written: null } };
  onStep({ step: 'issuing', done: 0, of: 0 });
  const issued = await ask({ about, beginIn, ...(language === undefined ? {} : { language }) });
  if (!issued.ok) return issued;
  const { number, again, content } = contract['certificate.issue'].reply.parse(issued.value);
  try {
    const photos =
      form === 'pdf'
        ? await photosOnPaper(content, async (photoId, at, of) => {
            onStep({ step: 'photos', done: at, of });
            return photoBytes(await unlessStopped(signal, photo(photoId)));
          })
        : new Map<string, PhotoBytes>();
    const fonts = paperFontsIn(join(buildFolder, 'paper-fonts'));
    const words = await paperWords(languageOf(content));
    const bytes = await bytesOf(content, form, { paper, fonts, photos, words }, { signal, onStep });
    signal.throwIfAborted();
    onStep(savingOf(bytes));
    await writeWholeBytes({ path, bytes, what: 'certificate', replace: true });
  } catch (error) {
    if (error instanceof StoppedByPerson) return stopped(number);
    if (error instanceof FileNotWritten) return notWritten(number, error);
    const cause = error instanceof Error ? error.message : String(error);
    return {
      ok: false,
      fault: {
        code: 'certificate-not-written',
        sentence: `The certificate ${number} is issued and kept in the archive, but "${basename(path)}" could not be written (${cause.slice(0, 300)}). Choose another place and write it again; it keeps its number.`,
      },
    };
  }
  return { ok: true, value: { written: { number, again, path } } };
}

const stopped = (number: string): Answer<never> => ({
  ok: false,
  fault: {
    code: 'writing-stopped',
    sentence: `Writing was stopped and no file was made. The certificate ${number} is issued and kept; write it again when you like, it keeps its number.`,
  },
});

const notWritten = (number: string, { message, detail }: FileNotWritten): Answer<never> => ({
  ok: false,
  fault: {
    code: 'certificate-not-written',
    sentence: `The certificate ${number} is issued and kept in the archive, and keeps its number when it is written again: ${message}`,
    ...(detail === undefined ? {} : { detail }),
  },
});

function photoBytes(answer: Answer<unknown>): Uint8Array {
  if (!answer.ok) throw new Error(answer.fault.sentence);
  return contract['photo.get'].reply.parse(answer.value).bytes;
}

async function bytesOf(
  content: CertificateContent,
  form: CertificateForm,
  options: PageOptions,
  { signal, onStep }: Pick<CertificateMeans, 'signal' | 'onStep'>,
): Promise<Uint8Array> {
  if (form === 'csv') return Buffer.from(certificateCsv(content));
  if (form === 'json') return Buffer.from(`${JSON.stringify(content, null, 2)}\n`);
  return pdfOf(
    { html: certificatePage(content, options), ...headAndFoot(content, options.words) },
    { sheet: sheetOf(options.paper), signal, onStep },
  );
}
