/** The results of a search as a table on paper: the sheet turned across, heads on every page, pages counted. */
import { PAPER_COLUMNS_MAX, PAPER_ROWS_MAX } from '../../exchange/export/asked-columns.ts';
import { numberText } from '../../quantity/number-text.ts';
import { momentText } from '../../exchange/export/moment-text.ts';
import type { MarkedRows, RowMark } from '../../exchange/export/marked-rows.ts';
import type { ResultsTable, TableCell } from '../../exchange/export/results-table.ts';
import { ENGLISH_PAPER, type PaperText, type PaperWords } from '../../words/paper-words.ts';
import { codeSaid } from '../../words/words-of-codes.ts';
import type { Fact } from '../certificate-content.ts';
import { factList } from './fact-list.ts';
import { pageOf } from './head-and-foot.ts';
import { type Markup, NOTHING, html, ready, typed } from './markup.ts';
import { momentOnPaper } from './moment-on-paper.ts';
import { CONTENT_POLICY, type PaperOptions } from './paper-options.ts';
import { MARGIN_MM, PAPER_MM, type Paper, type Sheet, paperStyle } from './paper-style.ts';

export interface ResultsOnPaper {
  readonly table: ResultsTable;
  /** What was searched for (core/exchange/export/search-facts.ts). */
  readonly search: readonly Fact[];
  /** Name of the file, or of the files. */
  readonly archive: string;
  /** What has to be known of some of the rows (`markedRows`). */
  readonly marked: readonly MarkedRows[];
  readonly programVersion: string;
  /** ISO 8601, when it is printed. */
  readonly made: string;
}

export interface ResultsPage {
  readonly html: string;
  readonly head: string;
  readonly foot: string;
  readonly sheet: Sheet;
}

const TITLE = 'Results of a search';
const FIGURES = 6;

/** Throws a RangeError for more rows or columns than are printed. */
export function resultsPage(
  { table, search, archive, marked, programVersion, made }: ResultsOnPaper,
  { paper, fonts, words = ENGLISH_PAPER }: PaperOptions,
): ResultsPage {
  const { text } = words;
  const { titles, rows } = table;
  if (rows.length > PAPER_ROWS_MAX || titles.length > PAPER_COLUMNS_MAX)
    throw new RangeError(
      `${String(rows.length)} rows of ${String(titles.length)} columns; at most ${String(PAPER_ROWS_MAX)} of ${String(PAPER_COLUMNS_MAX)} are printed`,
    );
  const isAmount = titles.map((_, at) => rows.some((row) => row[at]?.kind === 'number'));
  const align = (at: number): Markup => ready(isAmount[at] === true ? ' class="amount"' : '');
  const count = rows.length === 1 ? text('1 pull') : text('{1} pulls', String(rows.length));
  const title = text(TITLE);
  const page = html`<!doctype html>
    <html lang="${words.language}">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content="${CONTENT_POLICY}" />
        <title>${`${title}, ${archive}`}</title>
        <style>
          ${ready(paperStyle(paper, fonts))}
          ${ready(styleOf(paper, titles.length))}
        </style>
      </head>
      <body>
        <h1>${title}</h1>
        ${factList(
          [
            { label: text('archive'), value: archive },
            ...search,
            { label: text('found'), value: count },
            { label: text('made'), value: text('{1} by Gaugemark {2}', momentOnPaper(made), programVersion) },
          ],
          words,
        )}
        ${marked.map((rows) => html`<p class="evidence">${typed(markSentence(rows, words))}</p>`)}
        ${
          rows.length === 0
            ? NOTHING
            : html`<table class="found">
                <thead>
                  <tr>
                    ${titles.map((title, at) => html`<th${align(at)}>${typed(titleOnPaper(title, words))}</th>`)}
                  </tr>
                </thead>
                <tbody>
                  ${rows.map(
                    (row) =>
                      html`<tr>
                        ${row.map((cell, at) => html`<td${align(at)}>${cellOnPaper(cell, PROGRAM_WRITES.has(titles[at] ?? '') ? words : null)}</td>`)}
                      </tr>`,
                  )}
                </tbody>
              </table>`
        }
        <p class="end">${text('End of the table: {1}', count)}</p>
      </body>
    </html>`;
  return { html: page.html, ...headAndFoot(archive, made, words), sheet: sheetAcross(paper) };
}

const MARK_SENTENCES = {
  simulated: ['SIMULATED readings: pull {1}.', 'SIMULATED readings: pulls {1}.'],
  'imported-simulated': [
    'SIMULATED (imported) readings: pull {1}.',
    'SIMULATED (imported) readings: pulls {1}.',
  ],
  replay: ['REPLAYED readings: pull {1}.', 'REPLAYED readings: pulls {1}.'],
  'imported-replay': ['REPLAYED (imported) readings: pull {1}.', 'REPLAYED (imported) readings: pulls {1}.'],
  imported: ['IMPORTED readings: pull {1}.', 'IMPORTED readings: pulls {1}.'],
  void: ['VOID: pull {1}.', 'VOID: pulls {1}.'],
} as const satisfies Readonly<Record<RowMark, readonly [one: PaperText, several: PaperText]>>;

function markSentence({ mark, named, count }: MarkedRows, { text }: PaperWords): string {
  const names = named
    .map(({ pullId, archive }) =>
      archive === undefined ? String(pullId) : text('{1} of {2}', String(pullId), archive),
    )
    .join(', ');
  const unnamed = count - named.length;
  const [one, several] = MARK_SENTENCES[mark];
  return text(
    count === 1 ? one : several,
    unnamed === 0 ? names : text('{1} and {2} more', names, String(unnamed)),
  );
}

/** Columns in which the program's own words stand; what stands in the others was typed. */
const PROGRAM_WRITES: ReadonlySet<string> = new Set([
  'verdict',
  'fracture',
  'source',
  'interrupted',
  'withheld',
  'remarks',
]);

/** "Rm rounded (MPa)" holds one word of the program, "filler lot" is two. */
const titleOnPaper = (title: string, { text, said }: PaperWords): string =>
  said(title.replace(/(?<=^\S+ )rounded(?= \(|$)/, text('rounded')));

/** `words`: null where somebody typed what stands there. */
function cellOnPaper(cell: TableCell, words: PaperWords | null): Markup {
  switch (cell.kind) {
    case 'blank':
      return NOTHING;
    case 'text':
      return typed(words === null ? cell.text : codeSaid(cell.text, words));
    case 'number':
      return typed(cell.text ?? numberText(cell.value, FIGURES));
    case 'moment':
      // By the clock of the place, to the minute.
      return typed(momentText(cell.wallMs, cell.utcOffsetMinutes).slice(0, 16).replace('T', ' '));
  }
}

function sheetAcross(paper: Paper): Sheet {
  const { width, height } = PAPER_MM[paper];
  return { widthMm: height, heightMm: width, marginMm: MARGIN_MM };
}

/** More columns have smaller letters, never below what can be read. */
function styleOf(paper: Paper, columns: number): string {
  const { width, height } = PAPER_MM[paper];
  const points = columns <= 9 ? 8.5 : columns <= 13 ? 7.5 : 6.5;
  return `@page { size: ${String(height)}mm ${String(width)}mm; }
dl { grid-template-columns: 30mm 1fr; margin-bottom: 3mm; }
.found { font-size: ${String(points)}pt; margin-top: 3mm; }
.found th, .found td { padding: 0.7mm 2.8mm 0.7mm 0; overflow-wrap: break-word; }
.found .amount { white-space: nowrap; }
.found th.amount { white-space: normal; }`;
}

const LINE = `width: 100%; padding: 0 ${String(MARGIN_MM.right)}mm 0 ${String(MARGIN_MM.left)}mm; font: 7.5pt/1.5 Arial, 'DejaVu Sans', sans-serif; color: #15191c; display: flex; justify-content: space-between;`;

function headAndFoot(archive: string, made: string, words: PaperWords): Pick<ResultsPage, 'head' | 'foot'> {
  return {
    head: html`<div style="${LINE}"><span>${words.text(TITLE)}</span><span>${typed(archive)}</span></div>`
      .html,
    foot: html`<div style="${LINE}"><span>${typed(momentOnPaper(made))}</span>${pageOf(words)}</div>`.html,
  };
}
