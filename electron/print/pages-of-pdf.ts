/** Whether what was printed is a whole PDF, and of how many pages: looked at before it is given to anybody. */

const HEAD = Buffer.from('%PDF-');
/** ISO 32000-1, 7.5.5: the last line of the file; writers may put a line end behind it. */
const END = Buffer.from('%%EOF');
const END_WITHIN = 32;
/** A page's own dictionary; the tree above them is "/Pages". */
const PAGE = /\/Type\s*\/Page(?![A-Za-z])/g;

/** Null where it is no PDF, was cut off, or has no page. Of PDFs as the printing here writes them: pages are not packed. */
export function pagesOfPdf(bytes: Uint8Array): number | null {
  const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (!file.subarray(0, HEAD.length).equals(HEAD)) return null;
  if (!file.subarray(-END_WITHIN).includes(END)) return null;
  const count = file.toString('latin1').match(PAGE)?.length ?? 0;
  return count === 0 ? null : count;
}

/** Throws an Error where it is no PDF, or not one of as many pages as it should have. */
export function requirePdf(bytes: Uint8Array, pages?: number): void {
  const count = pagesOfPdf(bytes);
  if (count === null) throw new Error('what was printed is no whole PDF');
  if (pages !== undefined && count !== pages)
    throw new Error(`what was printed has ${String(count)} pages instead of ${String(pages)}`);
}
