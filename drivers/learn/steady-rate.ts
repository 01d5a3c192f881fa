/**
 * How long what was heard of a port took, at the pace at which it came once the port had been emptied. What waited in
 * the adapter or the system before the port was opened comes at once and says nothing about the pace.
 */

export interface HeardChunk {
  readonly us: number;
  readonly byteCount: number;
}

/** What was queued has come within this time after the first bytes. */
const QUEUE_US = 250_000;
/** Fewer pieces than this make no pace. */
const CHUNKS_MIN = 3;
const SPAN_US_MIN = 400_000;

/** Seconds for all the bytes together; null where too little came after the first moment. */
export function steadySeconds(chunks: readonly HeardChunk[]): number | null {
  const first = chunks[0];
  const last = chunks.at(-1);
  if (first === undefined || last === undefined) return null;
  const from = chunks.findLastIndex(({ us }) => us <= first.us + QUEUE_US);
  const later = chunks.slice(from + 1);
  const spanUs = last.us - (chunks[from]?.us ?? first.us);
  const laterBytes = bytesOf(later);
  if (later.length < CHUNKS_MIN || spanUs < SPAN_US_MIN || laterBytes === 0) return null;
  return (spanUs / 1e6) * (bytesOf(chunks) / laterBytes);
}

const bytesOf = (chunks: readonly HeardChunk[]): number =>
  chunks.reduce((sum, { byteCount }) => sum + byteCount, 0);
