/** A PDF from a page of HTML, printed in this process and looked at before anybody is given it. */
import { app } from 'electron';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Sheet } from '../../core/certificate/paper/paper-style.ts';
import type { PageEventOf } from '../../core/contract/bridge.ts';
import { pagesOfPdf, requirePdf } from '../print/pages-of-pdf.ts';
import { type OnPrintStep, printPage } from '../print/print-page.ts';

export interface PaperPage {
  readonly html: string;
  /** HTML of head and foot of each page. */
  readonly head: string;
  readonly foot: string;
}

export interface PrintOn {
  readonly sheet: Sheet;
  /** How many it must have; left out: any number. */
  readonly pages?: number;
  readonly signal?: AbortSignal;
  readonly onStep?: OnPrintStep;
}

/** Rejects where printing failed, or gave no whole PDF. */
export async function pdfOf(
  { html, head, foot }: PaperPage,
  { sheet, pages, signal, onStep }: PrintOn,
): Promise<Uint8Array> {
  const folder = await mkdtemp(join(app.getPath('temp'), 'gaugemark-print-'));
  try {
    const page = join(folder, 'page.html');
    await writeFile(page, html);
    const bytes = await printPage({ page, ...sheet, head, foot }, { signal, onStep });
    requirePdf(bytes, pages);
    return bytes;
  } finally {
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  }
}

/** What is told once it is printed: how many pages there are, none of what is no PDF. */
export function savingOf(bytes: Uint8Array): PageEventOf<'writing'> {
  const pages = pagesOfPdf(bytes) ?? 0;
  return { step: 'saving', done: pages, of: pages };
}
