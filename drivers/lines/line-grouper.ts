/**
 * Several lines that make one record ("L 12.5 kN", then "E 0.310 mm"), joined by LF. A record that is cut into by the
 * next one, by garbage or by the end of the opening is no record; nothing of it is joined to what comes later.
 */
import type { Framing } from '../../core/contract/readout-profile.ts';
import type { AssembledLine } from './line-assembler.ts';

export class LineGrouper {
  readonly #lines: NonNullable<Framing['lines']>;
  readonly #begins: Buffer | null;
  readonly #ends: Buffer | null;
  readonly #passes: readonly Buffer[];
  #held: Buffer[] = [];

  /** `ignored`: beginnings of lines that belong to no record and break none. */
  constructor(lines: NonNullable<Framing['lines']>, ignored: readonly string[]) {
    this.#lines = lines;
    this.#begins = lines.begins === undefined ? null : Buffer.from(lines.begins, 'latin1');
    this.#ends = lines.ends === undefined ? null : Buffer.from(lines.ends, 'latin1');
    this.#passes = ignored.map((text) => Buffer.from(text, 'latin1'));
  }

  group(lines: readonly AssembledLine[]): AssembledLine[] {
    return lines.flatMap((line) => this.#take(line));
  }

  /** What has begun and will not be whole any more. */
  end(): AssembledLine[] {
    if (this.#held.length === 0) return [];
    const bytes = joined(this.#held);
    this.#held = [];
    return [{ bytes, text: bytes.toString('latin1'), end: 'unfinished' }];
  }

  #take(line: AssembledLine): AssembledLine[] {
    const { bytes } = line;
    if (this.#passes.some((beginning) => bytes.subarray(0, beginning.length).equals(beginning)))
      return [line];
    if (line.end !== 'terminated') return [...this.end(), line];
    const isFirst = this.#begins !== null && bytes.subarray(0, this.#begins.length).equals(this.#begins);
    const cutOff = isFirst ? this.end() : [];
    // A line that no record has begun with is shown as what it is.
    if (this.#begins !== null && !isFirst && this.#held.length === 0) return [line];
    this.#held.push(bytes);
    const isLast = this.#ends !== null && bytes.subarray(-this.#ends.length).equals(this.#ends);
    if (this.#held.length < this.#lines.count) return isLast ? [...cutOff, ...this.end()] : cutOff;
    if (this.#ends !== null && !isLast) return [...cutOff, ...this.end()];
    const record = joined(this.#held);
    this.#held = [];
    return [...cutOff, { bytes: record, text: record.toString('latin1'), end: 'terminated' }];
  }
}

function joined(lines: readonly Buffer[]): Buffer {
  return Buffer.concat(lines.flatMap((line, index) => (index === 0 ? [line] : [LINE_FEED, line])));
}
const LINE_FEED = Buffer.from('\n');
