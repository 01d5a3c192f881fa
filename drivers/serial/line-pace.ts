/**
 * How much to read from a port at once, so that what is in hand never holds more than one line: a process that is
 * killed between reading and writing down then loses one reading at most, however late it was in reading. Lines of a
 * readout are nearly always equally long, so the shortest of the last ones is read in one piece, and what is left of
 * a longer one byte by byte.
 */
import type { Framing } from '../../core/contract/readout-profile.ts';

/** With so many lines taken singly and still more waiting, what comes is a flood, and is read as fast as it can be. */
export const SINGLE_LINES_MAX = 64;
/** Lines whose length is remembered: one short one (the rest of a line at the opening) slows only so many. */
const REMEMBERED_LINES = 8;
/** Bytes without the end of a line after which there are no lines here that could be taken singly. */
const LINE_BYTES_SINGLE_MAX = 512;

const CR = 0x0d;
const LF = 0x0a;

export class LinePace {
  /** null: CR until a LF has been seen, then LF, which also ends CRLF. */
  readonly #endByte: number | null;
  #sawLineFeed = false;
  #mayBeHalf = false;
  #lengths: number[] = [];
  #shortest = Infinity;
  /** Bytes of the present line that have been taken. */
  #taken = 0;
  #linesInOneGo = 0;
  #linesOfLastPiece = 0;

  constructor(terminator: Framing['terminator']) {
    this.#endByte = endByteOf(terminator);
  }

  /** Bytes to read next, at least 1; Infinity: as many as there are. */
  next(): number {
    if (this.#linesInOneGo >= SINGLE_LINES_MAX || this.#taken >= LINE_BYTES_SINGLE_MAX) return Infinity;
    // Unknown yet, or a CR that may be the first half of CRLF.
    if (this.#lengths.length === 0 || this.#mayBeHalf) return 1;
    return Math.max(1, this.#shortest - this.#taken);
  }

  /**
   * The bytes from `from` to `to` have been read.
   * @returns whether they end a line, so that they have to be written down before more is read
   */
  took(bytes: Uint8Array, from = 0, to = bytes.length): boolean {
    let endsLine = false;
    let lines = 0;
    for (let at = from; at < to; at++) {
      const byte = bytes[at] ?? 0;
      this.#mayBeHalf = this.#endByte === null && !this.#sawLineFeed && byte === CR;
      endsLine = this.#ends(byte);
      this.#taken++;
      if (!endsLine) continue;
      this.#lengths.push(this.#taken);
      if (this.#lengths.length > REMEMBERED_LINES) this.#lengths.shift();
      this.#shortest = Math.min(...this.#lengths);
      this.#taken = 0;
      lines++;
    }
    this.#linesInOneGo += lines;
    this.#linesOfLastPiece = lines;
    return endsLine;
  }

  /** Nothing more waits in the port; where one piece emptied it of so many lines, the next will be as full. */
  emptied(): void {
    if (this.#linesOfLastPiece < SINGLE_LINES_MAX) this.#linesInOneGo = 0;
  }

  #ends(byte: number): boolean {
    if (this.#endByte !== null) return byte === this.#endByte;
    if (byte === LF && !this.#sawLineFeed) {
      // What CR seemed to end ends here; its lengths were one byte short.
      this.#sawLineFeed = true;
      this.#lengths = [];
    }
    return byte === (this.#sawLineFeed ? LF : CR);
  }
}

function endByteOf(terminator: Framing['terminator']): number | null {
  if (typeof terminator === 'object') return terminator.custom.charCodeAt(terminator.custom.length - 1);
  if (terminator === 'any') return null;
  return terminator === 'cr' ? CR : LF;
}
