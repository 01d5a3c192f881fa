/** What stands on every page: number, page x of y, and what its readings are where they are evidence of nothing. */
import type { CertificateContent } from '../certificate-content.ts';
import { ENGLISH_PAPER, type PaperWords } from '../../words/paper-words.ts';
import { type Markup, html, typed } from './markup.ts';
import { MARGIN_MM } from './paper-style.ts';

const STYLE = `width: 100%; padding: 0 ${String(MARGIN_MM.right)}mm 0 ${String(MARGIN_MM.left)}mm; font: 7.5pt/1.5 Arial, 'DejaVu Sans', sans-serif; color: #15191c; display: flex; justify-content: space-between;`;

/** More doesn't fit above the text; the whole sentence stands under the title of the first page. */
const NOTICE_LENGTH_MAX = 150;
const cut = (notice: string): string =>
  notice.length <= NOTICE_LENGTH_MAX
    ? notice
    : `${notice.slice(0, notice.lastIndexOf(' ', NOTICE_LENGTH_MAX))} …`;

/** "page 2 of 3"; the classes are Chromium's. */
export const pageOf = ({ text }: PaperWords): Markup =>
  html`<span
    >${text('page')} <span class="pageNumber"></span> ${text('of')} <span class="totalPages"></span
  ></span>`;

/** HTML for the head and the foot of each page. */
export function headAndFoot(
  { number, title, notices }: Pick<CertificateContent, 'number' | 'title' | 'notices'>,
  words: PaperWords = ENGLISH_PAPER,
): {
  readonly head: string;
  readonly foot: string;
} {
  const lines = notices.map(
    (notice) =>
      html`<div style="width: 100%; font-weight: bold; margin-top: 0.8mm">${typed(cut(notice))}</div>`,
  );
  return {
    head: html`<div style="${STYLE} flex-wrap: wrap">
      <span>${title}</span><span>${typed(number)}</span>${lines}
    </div>`.html,
    foot: html`<div style="${STYLE}"><span>${typed(number)}</span>${pageOf(words)}</div>`.html,
  };
}
