/**
 * From chunks of bytes to lines of bytes. The framing element is the serial library's own readline parser; what
 * stands around it here is the guard that it lacks: a bounded buffer, CR and LF in any mixture, the unfinished
 * tail, and lines given back at once, so that each line knows the chunk in which it ended.
 */
import { ReadlineParser } from '@serialport/parser-readline';
import type { Framing } from '../../core/contract/readout-profile.ts';
import { LINE_BYTES_MAX, LINE_SILENCE_MS_MAX } from '../../core/limits.ts';

const CR = 0x0d;
const LF = 0x0a;

export type LineEnd =
  /** Ended by its terminator. */
  | 'terminated'
  /** Ended by its terminator, but its beginning was given out before (too long, or waited for too long). */
  | 'remainder'
  /** Cut at LINE_BYTES_MAX. */
  | 'too-long'
  /** Cut because no terminator came within LINE_SILENCE_MS_MAX, or because the opening has ended. */
  | 'unfinished';

export interface AssembledLine {
  readonly bytes: Buffer;
  /** The bytes as Latin-1, which keeps each of them. */
  readonly text: string;
  readonly end: LineEnd;
}

/** Assembles the lines of one opening. Results depend on the bytes only, never on how they were cut into chunks. */
export class LineAssembler {
  readonly #parser: ReadlineParser;
  /** Lines that the parser has found in the present piece. */
  readonly #framed: Buffer[] = [];
  readonly #terminatorLength: number;
  readonly #terminator: Framing['terminator'];
  readonly #anyTerminator: boolean;
  readonly #stripCarriageReturn: boolean;
  /** The beginning of the present line has been given out already; the rest must not pass as a line of its own. */
  #cut = false;
  #lineBeganUs: number | null = null;

  constructor({ terminator }: Framing) {
    this.#terminator = terminator;
    this.#anyTerminator = terminator === 'any';
    this.#stripCarriageReturn = terminator === 'lf';
    const delimiter = delimiterBytes(terminator);
    this.#terminatorLength = delimiter.length;
    this.#parser = new ReadlineParser({
      delimiter,
      encoding: undefined as unknown as BufferEncoding,
      readableObjectMode: true,
    });
    // The library's framing without its queue: a stream that hands each line on later costs more than the rest of it.
    this.#parser.push = (line: Buffer) => {
      this.#framed.push(line);
      return true;
    };
  }

  /** Lines that ended in this chunk. */
  push(bytes: Uint8Array, arrivedUs: number): AssembledLine[] {
    // What has waited too long is cut whether or not somebody has ticked: the bytes and their times alone decide.
    const lines: AssembledLine[] = this.#lineBeganUs === null ? [] : this.tick(arrivedUs);
    // A port that is read line by line gives one whole line nearly always: there is nothing to be framed then.
    const only = !this.#cut && this.#parser.buffer.length === 0 ? onlyLineOf(bytes, this.#terminator) : 0;
    if (only > 0) {
      const whole = asBuffer(bytes);
      lines.push({
        bytes: whole.subarray(0, only),
        text: whole.toString('latin1', 0, only),
        end: 'terminated',
      });
      this.#lineBeganUs = null;
      return lines;
    }
    // Empty lines are no lines, so it does not matter which of CR, LF and CRLF has ended one.
    const normal = this.#anyTerminator ? carriageReturnsAsLineFeeds(bytes) : asBuffer(bytes);
    let at = 0;
    while (at < normal.length) {
      const held = this.#parser.buffer;
      const room = LINE_BYTES_MAX - held.length;
      const piece = at === 0 && normal.length <= room ? normal : normal.subarray(at, at + room);
      at += piece.length;
      this.#parser._transform(piece, 'binary', framedAtOnce);
      if (this.#framed.length > 0) this.#takeLines(lines, held, piece);
      if (this.#parser.buffer.length >= LINE_BYTES_MAX) this.#cutOff(lines, 'too-long');
    }
    if (lines.length > 0 && lines[lines.length - 1]?.end !== 'unfinished') this.#lineBeganUs = null;
    if (this.#parser.buffer.length > 0 || this.#cut) this.#lineBeganUs ??= arrivedUs;
    return lines;
  }

  /** Gives out what has waited for its terminator too long. */
  tick(nowUs: number): AssembledLine[] {
    const lines: AssembledLine[] = [];
    if (this.#lineBeganUs !== null && nowUs - this.#lineBeganUs > LINE_SILENCE_MS_MAX * 1000) {
      this.#cutOff(lines, 'unfinished');
      this.#lineBeganUs = null;
    }
    return lines;
  }

  /** The opening has ended: the tail, which must never be joined to bytes of another opening. */
  end(): AssembledLine[] {
    const lines: AssembledLine[] = [];
    this.#cutOff(lines, 'unfinished');
    return lines;
  }

  /** Bytes held that no terminator has ended yet. */
  get heldBytes(): number {
    return this.#parser.buffer.length;
  }

  /** The lines that the parser has found in what it held and the piece behind it, decoded once for all of them. */
  #takeLines(lines: AssembledLine[], held: Buffer, piece: Buffer): void {
    const decoded =
      held.length === 0 ? piece.toString('latin1') : held.toString('latin1') + piece.toString('latin1');
    let at = 0;
    for (const line of this.#framed) {
      const bytes = this.#stripCarriageReturn && line[line.length - 1] === CR ? line.subarray(0, -1) : line;
      const text = decoded.slice(at, at + bytes.length);
      at += line.length + this.#terminatorLength;
      const wasCut = this.#cut;
      this.#cut = false;
      if (wasCut) lines.push({ bytes, text, end: 'remainder' });
      else if (bytes.length > 0) lines.push({ bytes, text, end: 'terminated' });
    }
    this.#framed.length = 0;
  }

  #cutOff(lines: AssembledLine[], end: LineEnd): void {
    const held = this.#parser.buffer;
    if (held.length === 0) return;
    this.#parser.buffer = Buffer.alloc(0);
    // Of an endless line the first piece is given out; the others stay in the raw record only.
    if (!this.#cut) lines.push({ bytes: held, text: held.toString('latin1'), end });
    this.#cut = true;
  }
}

/** Length of the line that these bytes are, with its end and nothing beside it; 0 where they are anything else. */
function onlyLineOf(bytes: Uint8Array, terminator: Framing['terminator']): number {
  const { length } = bytes;
  if (length > LINE_BYTES_MAX || typeof terminator === 'object') return 0;
  const last = bytes[length - 1];
  if (terminator === 'cr' ? last !== CR : last !== LF && !(terminator === 'any' && last === CR)) return 0;
  const isPair = last === LF && bytes[length - 2] === CR;
  if (terminator === 'crlf' && !isPair) return 0;
  const end = isPair ? length - 2 : length - 1;
  for (let at = 0; at < end; at++) {
    const byte = bytes[at];
    // A CR of a readout whose lines end otherwise is left to the framing: it may be content.
    if (byte === LF || byte === CR) return 0;
  }
  return end;
}

/** The framing is done when the call returns; there is nothing to wait for. */
function framedAtOnce(): void {
  return;
}

function delimiterBytes(terminator: Framing['terminator']): Buffer {
  if (typeof terminator === 'object') return Buffer.from(terminator.custom, 'latin1');
  switch (terminator) {
    case 'any':
    case 'lf':
      return Buffer.from([LF]);
    case 'cr':
      return Buffer.from([CR]);
    case 'crlf':
      return Buffer.from([CR, LF]);
  }
}

function asBuffer(bytes: Uint8Array): Buffer {
  if (Buffer.isBuffer(bytes)) return bytes;
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

/** Each CR, LF and CRLF as one LF. A CRLF that was cut between two chunks gives an empty line more, which is none. */
function carriageReturnsAsLineFeeds(bytes: Uint8Array): Buffer {
  let pairs = 0;
  let has = false;
  for (let at = 0; at < bytes.length; at++) {
    if (bytes[at] !== CR) continue;
    has = true;
    if (bytes[at + 1] === LF) pairs++;
  }
  if (!has) return asBuffer(bytes);
  const copy = Buffer.allocUnsafe(bytes.length - pairs);
  let length = 0;
  for (let at = 0; at < bytes.length; at++) {
    const byte = bytes[at] ?? 0;
    if (byte !== CR) {
      copy[length++] = byte;
      continue;
    }
    copy[length++] = LF;
    if (bytes[at + 1] === LF) at++;
  }
  return copy;
}
