/** The results of a search on paper, from the window: asked where, worked out by the recorder, printed here. */
import { app, type BrowserWindow } from 'electron';
import { basename, join } from 'node:path';
import { resultsPage } from '../../core/certificate/paper/results-page.ts';
import type { PageEventOf, PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import { type RequestOf, contract } from '../../core/contract/index.ts';
import type { Answer } from '../../core/contract/message.ts';
import { momentText } from '../../core/exchange/export/moment-text.ts';
import { searchFacts } from '../../core/exchange/export/search-facts.ts';
import { paperWords } from '../../core/words/load-paper-words.ts';
import { writeWholeBytes } from '../exports/whole-bytes.ts';
import { pagesOfPdf } from '../print/pages-of-pdf.ts';
import { paperFontsIn } from '../print/paper-fonts.ts';
import { StoppedByPerson } from '../print/stoppable-work.ts';
import { chooseSavePath } from './dialogs.ts';
import { notWritten } from './file-not-written.ts';
import { pdfOf, savingOf } from './page-to-pdf.ts';

export interface ResultsMeans {
  readonly window: BrowserWindow;
  readonly buildFolder: string;
  readonly programVersion: string;
  readonly ask: (request: RequestOf<'archive.results-table'>) => Promise<Answer<unknown>>;
  /** Raised where a person thinks better of it meanwhile. */
  readonly signal: AbortSignal;
  readonly onStep: (step: PageEventOf<'writing'>) => void;
}

export async function writeResults(
  { query, order, columns, paper, language }: PageRequestOf<'window.write-results'>,
  { window, buildFolder, programVersion, ask, signal, onStep }: ResultsMeans,
): Promise<Answer<PageReplyOf<'window.write-results'>>> {
  const path = await chooseSavePath(window, {
    kind: 'results-pdf',
    suggestedName: 'results.pdf',
    folder: app.getPath('documents'),
  });
  if (path === null) return { ok: true, value: { written: null } };
  const answered = await ask({ query, order, ...(columns === undefined ? {} : { columns }) });
  if (!answered.ok) return answered;
  const { archive, marked, blank, ...table } = contract['archive.results-table'].reply.parse(answered.value);
  const now = Date.now();
  try {
    const words = await paperWords(language);
    const page = resultsPage(
      {
        table,
        search: searchFacts(query, order, words),
        archive,
        marked,
        programVersion,
        made: momentText(now, 0 - new Date(now).getTimezoneOffset()),
      },
      { paper, fonts: paperFontsIn(join(buildFolder, 'paper-fonts')), words },
    );
    const bytes = await pdfOf(page, { sheet: page.sheet, signal, onStep });
    signal.throwIfAborted();
    onStep(savingOf(bytes));
    await writeWholeBytes({ path, bytes, what: 'table', replace: true });
    const pages = pagesOfPdf(bytes) ?? 0;
    return { ok: true, value: { written: { path: basename(path), rows: table.rows.length, pages, blank } } };
  } catch (error) {
    if (error instanceof StoppedByPerson)
      return { ok: false, fault: { code: 'stopped', sentence: 'It was stopped; no file was written.' } };
    return { ok: false, fault: notWritten(error, path, 'results-not-written') };
  }
}
