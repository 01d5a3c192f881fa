/** The results of a search as PDF, of one archive or of several. */
import { basename, resolve } from 'node:path';
import { type Paper } from '../../core/certificate/paper/paper-style.ts';
import { resultsPage } from '../../core/certificate/paper/results-page.ts';
import type { SearchOrder, SearchQuery } from '../../core/contract/search-requests.ts';
import type { AskedColumn } from '../../core/exchange/export/asked-columns.ts';
import { momentText } from '../../core/exchange/export/moment-text.ts';
import { markedRows } from '../../core/exchange/export/marked-rows.ts';
import type { TabledPull } from '../../core/exchange/export/results-table.ts';
import { searchFacts } from '../../core/exchange/export/search-facts.ts';
import { paperWords } from '../../core/words/load-paper-words.ts';
import type { PaperLanguage } from '../../core/words/paper-words.ts';
import { paperTableOf } from '../exports/results-file.ts';
import { paperFonts } from './paper-fonts.ts';
import { printPdf } from './print-pdf.ts';
import { PROGRAM_VERSION } from './program-version.ts';

export interface ResultsToPrint {
  readonly pulls: readonly TabledPull[];
  readonly columns: readonly AskedColumn[] | undefined;
  readonly query: SearchQuery;
  readonly order: SearchOrder;
  readonly paths: readonly string[];
  readonly to: string;
  readonly paper: Paper;
  readonly language: PaperLanguage;
  readonly say: (line: string) => void;
}

export interface PrintedResults {
  readonly path: string;
  readonly rows: number;
  readonly pages: number;
  readonly blank: string[];
}

/** Throws an ArchiveRefusal where that is more than is printed; and what `printPdf` throws. */
export async function printResults(asked: ResultsToPrint): Promise<PrintedResults> {
  const { pulls, columns, query, order, paths, to, paper, language, say } = asked;
  const words = await paperWords(language);
  const table = paperTableOf(pulls, columns);
  const now = Date.now();
  const page = resultsPage(
    {
      table,
      search: searchFacts(query, order, words),
      archive: paths.map((path) => basename(path)).join(', '),
      marked: markedRows(pulls),
      programVersion: PROGRAM_VERSION,
      made: momentText(now, 0 - new Date(now).getTimezoneOffset()),
    },
    { paper, fonts: paperFonts(), words },
  );
  const path = resolve(to);
  const { pages } = await printPdf({ ...page, out: path, what: 'table', option: 'pdf', say });
  return { path, rows: table.rows.length, pages, blank: [...table.blank] };
}
