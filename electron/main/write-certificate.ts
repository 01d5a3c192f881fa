/** A certificate written from the window: asked where, issued by the recorder, printed here, put in place at once. */
import { app, type BrowserWindow } from 'electron';
import { mkdtemp, open, rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { certificateCsv } from '../../core/certificate/certificate-csv.ts';
import type { CertificateContent } from '../../core/certificate/certificate-content.ts';
import { type PageOptions, certificatePage } from '../../core/certificate/paper/certificate-page.ts';
import { headAndFoot } from '../../core/certificate/paper/head-and-foot.ts';
import { MARGIN_MM, PAPER_MM } from '../../core/certificate/paper/paper-style.ts';
import type { PhotoBytes } from '../../core/certificate/paper/specimen-section.ts';
import type { PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import { type RequestOf, contract } from '../../core/contract/index.ts';
import type { Answer } from '../../core/contract/message.ts';
import type { CertificateForm, FileKind } from '../../core/contract/window-requests.ts';
import { photosOnPaper } from '../photos/photos-on-paper.ts';
import { paperFontsIn } from '../print/paper-fonts.ts';
import { printPage } from '../print/print-page.ts';
import { chooseSavePath } from './dialogs.ts';

const KIND: Readonly<Record<CertificateForm, FileKind>> = {
  pdf: 'certificate',
  csv: 'certificate-csv',
  json: 'certificate-json',
};

export interface CertificateMeans {
  readonly window: BrowserWindow;
  readonly buildFolder: string;
  readonly ask: (request: RequestOf<'set.certificate'>) => Promise<Answer<unknown>>;
  readonly photo: (photoId: number) => Promise<Answer<unknown>>;
}

export async function writeCertificate(
  { form, paper, suggestedName, ...asked }: PageRequestOf<'window.write-certificate'>,
  { window, buildFolder, ask, photo }: CertificateMeans,
): Promise<Answer<PageReplyOf<'window.write-certificate'>>> {
  const path = await chooseSavePath(window, {
    kind: KIND[form],
    suggestedName: `${suggestedName}.${form}`,
    folder: app.getPath('documents'),
  });
  if (path === null) return { ok: true, value: { written: null } };
  const issued = await ask(asked);
  if (!issued.ok) return issued;
  const { number, again, content } = contract['set.certificate'].reply.parse(issued.value);
  try {
    const photos =
      form === 'pdf'
        ? await photosOnPaper(content, async (photoId) => photoBytes(await photo(photoId)))
        : new Map<string, PhotoBytes>();
    const fonts = paperFontsIn(join(buildFolder, 'paper-fonts'));
    await putInPlace(path, await bytesOf(content, form, { paper, fonts, photos }));
  } catch (error) {
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

function photoBytes(answer: Answer<unknown>): Uint8Array {
  if (!answer.ok) throw new Error(answer.fault.sentence);
  return contract['photo.get'].reply.parse(answer.value).bytes;
}

async function bytesOf(
  content: CertificateContent,
  form: CertificateForm,
  options: PageOptions,
): Promise<Uint8Array> {
  if (form === 'csv') return Buffer.from(certificateCsv(content));
  if (form === 'json') return Buffer.from(`${JSON.stringify(content, null, 2)}\n`);
  const folder = await mkdtemp(join(app.getPath('temp'), 'gaugemark-print-'));
  try {
    const page = join(folder, 'page.html');
    await writeFile(page, certificatePage(content, options));
    const { width, height } = PAPER_MM[options.paper];
    return await printPage({
      page,
      widthMm: width,
      heightMm: height,
      marginMm: MARGIN_MM,
      ...headAndFoot(content),
    });
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

/** Whole or not at all: what the person agreed to replace stays until the new file is on the disk. */
async function putInPlace(path: string, bytes: Uint8Array): Promise<void> {
  const beside = join(dirname(path), `.${basename(path)}.${String(process.pid)}.part`);
  try {
    const file = await open(beside, 'wx');
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}
