/** Lines out of text that comes in pieces: CR, LF and CRLF each end one, however the pieces are cut. */

/** Longest line: CSV_COLUMNS_MAX cells of twenty characters. */
export const IMPORT_LINE_LENGTH_MAX = 20_000;

export class LineSplitter {
  #carry = '';

  /** Lines that this piece completes, without their ends. */
  *push(text: string): Generator<string> {
    const all = this.#carry + text;
    let from = 0;
    // Looked for only when passed, so that a text without CR is not searched to its end once a line.
    let cr = all.indexOf('\r');
    let lf = all.indexOf('\n');
    for (;;) {
      if (cr !== -1 && cr < from) cr = all.indexOf('\r', from);
      if (lf !== -1 && lf < from) lf = all.indexOf('\n', from);
      const end = cr === -1 || (lf !== -1 && lf < cr) ? lf : cr;
      // A CR at the very end may be half of a CRLF that the next piece completes.
      if (end === -1 || (end === cr && cr === all.length - 1)) break;
      const line = all.slice(from, end);
      from = end === cr && lf === cr + 1 ? end + 2 : end + 1;
      yield line;
    }
    this.#carry = all.slice(from);
  }

  /** The last line where it has no end of its own. */
  *end(): Generator<string> {
    const rest = this.#carry;
    this.#carry = '';
    if (rest !== '') yield rest.endsWith('\r') ? rest.slice(0, -1) : rest;
  }

  /** What waits for its end is already longer than any line may be. */
  get overlong(): boolean {
    return this.#carry.length > IMPORT_LINE_LENGTH_MAX;
  }
}
