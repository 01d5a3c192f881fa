/** What stands on every page: the number of the certificate and page x of y. The printing counts the pages. */
import { html, typed } from './markup.ts';
import { MARGIN_MM } from './paper-style.ts';

const STYLE = `width: 100%; padding: 0 ${String(MARGIN_MM.right)}mm 0 ${String(MARGIN_MM.left)}mm; font: 7.5pt Arial, 'DejaVu Sans', sans-serif; color: #15191c; display: flex; justify-content: space-between;`;

/** HTML for the head and the foot of each page; the classes `pageNumber` and `totalPages` are Chromium's. */
export function headAndFoot(number: string, title: string): { readonly head: string; readonly foot: string } {
  return {
    head: html`<div style="${STYLE}"><span>${title}</span><span>${typed(number)}</span></div>`.html,
    foot: html`<div style="${STYLE}">
      <span>${typed(number)}</span
      ><span>page <span class="pageNumber"></span> of <span class="totalPages"></span></span>
    </div>`.html,
  };
}
