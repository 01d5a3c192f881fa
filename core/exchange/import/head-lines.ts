/** The first lines of a file, decoded: what a proposal is made from. */
import { IMPORT_LINE_LENGTH_MAX, LineSplitter } from './line-splitter.ts';
import type { ImportFault } from './import-fault.ts';
import type { TextEncoding } from './import-plan.ts';

/** Bytes of a file that a proposal looks at: some thousand rows, or the longest preamble with rows behind it. */
export const IMPORT_HEAD_BYTES = 262_144;
/** Lines of the head; more rows change no proposal. */
export const HEAD_LINES_MAX = 1_000;

export type HeadLines =
  | { readonly ok: true; readonly lines: readonly string[] }
  | { readonly ok: false; readonly fault: ImportFault };

/** `complete` when the head is the whole file: only then the last line counts without an end. */
export function headLines(head: Uint8Array, encoding: TextEncoding, complete: boolean): HeadLines {
  const text = new TextDecoder(encoding).decode(head, { stream: !complete });
  const splitter = new LineSplitter();
  const lines: string[] = [];
  const take = (line: string): boolean => lines.push(line) >= HEAD_LINES_MAX;
  for (const line of splitter.push(text)) if (take(line)) break;
  if (complete && lines.length < HEAD_LINES_MAX) for (const line of splitter.end()) take(line);
  const long = lines.findIndex((line) => line.length > IMPORT_LINE_LENGTH_MAX);
  if (long !== -1 || (splitter.overlong && lines.length < HEAD_LINES_MAX)) {
    const line = long === -1 ? lines.length + 1 : long + 1;
    return {
      ok: false,
      fault: {
        code: 'import-line-too-long',
        sentence: `Line ${String(line)} is longer than ${String(IMPORT_LINE_LENGTH_MAX)} characters; this is no table of readings, or it has lost its line ends.`,
        line,
      },
    };
  }
  return { ok: true, lines };
}
