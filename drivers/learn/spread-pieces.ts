/** A bounded part of many bytes, spread over all of them: what a readout sends can change half way. */
import type { Framing } from '../../core/contract/readout-profile.ts';

/** Bytes by which layouts are compared. */
export const COMPARED_BYTES_MAX = 262_144;
/** Pieces that they are taken in; at each cut a line or record may be torn. */
const PIECES = 16;

const CR = 0x0d;
const LF = 0x0a;

/** Whole lines each, in order, the first and the last bytes among them. All in one piece where there are few. */
export function spreadPieces(
  bytes: Uint8Array,
  { terminator, lines }: Framing,
  bytesMax = COMPARED_BYTES_MAX,
): Uint8Array[] {
  if (bytes.length <= bytesMax) return [bytes];
  const isEnd = endsLine(terminator);
  // Where nothing tells which line begins a record, one that is begun in the middle would be out of step to its end.
  const pieces = lines !== undefined && lines.begins === undefined ? 1 : PIECES;
  const length = Math.floor(bytesMax / pieces);
  return Array.from({ length: pieces }, (_, piece) => {
    const from = pieces === 1 ? 0 : Math.floor((piece * (bytes.length - length)) / (pieces - 1));
    return wholeLines(bytes, from, Math.min(bytes.length, from + length), isEnd);
  }).filter((piece) => piece.length > 0);
}

type IsEnd = (byte: number | undefined) => boolean;

function endsLine(terminator: Framing['terminator']): IsEnd {
  if (typeof terminator === 'object') {
    const last = terminator.custom.charCodeAt(terminator.custom.length - 1);
    return (byte) => byte === last;
  }
  return (byte) => byte === CR || byte === LF;
}

/** From behind the first end of a line to the last one; where the bytes themselves begin and end, nothing is cut. */
function wholeLines(bytes: Uint8Array, from: number, to: number, isEnd: IsEnd): Uint8Array {
  let begin = from;
  let end = to;
  if (from > 0) while (begin < to && !isEnd(bytes[begin - 1])) begin++;
  if (to < bytes.length) while (end > begin && !isEnd(bytes[end - 1])) end--;
  return bytes.subarray(begin, end);
}
