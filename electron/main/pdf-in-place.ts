/** A PDF from a page of HTML, and a file that is put in place whole or not at all. */
import { app } from 'electron';
import { mkdtemp, open, rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { MARGIN_MM, PAPER_MM, type Paper } from '../../core/certificate/paper/paper-style.ts';
import { printPage } from '../print/print-page.ts';

export interface PaperPage {
  readonly html: string;
  /** HTML of head and foot of each page. */
  readonly head: string;
  readonly foot: string;
}

export async function pdfOf(
  { html, head, foot }: PaperPage,
  paper: Paper,
  signal?: AbortSignal,
): Promise<Uint8Array> {
  const folder = await mkdtemp(join(app.getPath('temp'), 'gaugemark-print-'));
  try {
    const page = join(folder, 'page.html');
    await writeFile(page, html);
    const { width, height } = PAPER_MM[paper];
    return await printPage(
      { page, widthMm: width, heightMm: height, marginMm: MARGIN_MM, head, foot },
      signal,
    );
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

/** What the person agreed to replace stays until the new file is on the disk. */
export async function putInPlace(path: string, bytes: Uint8Array): Promise<void> {
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
