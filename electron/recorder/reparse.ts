/** Parses the raw chunks of a pull again, opening by opening, exactly as the recorder did when they came. */
import type { RawChunk } from '../../core/archive/codec/raw-block.ts';
import type { Reading } from '../../core/contract/reading.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import { createParser } from '../../drivers/create-parser.ts';
import type { ParsedLine, ReadoutParser } from '../../drivers/reading.ts';

/**
 * The parser of one opening, fed with stored chunks or with new ones alike. An empty chunk at the head of an
 * opening says when the source was opened: the parser then knows whether its first line can be whole.
 */
export class OpeningParser {
  readonly #profile: ReadoutProfile;
  #parser: ReadoutParser | null = null;

  constructor(profile: ReadoutProfile) {
    this.#profile = profile;
  }

  /** Lines that ended in this chunk. Times decide nothing but what the chunk itself tells, so that parsing repeats. */
  push({ chunkSeq, elapsedUs, bytes }: Omit<RawChunk, 'opening'>): readonly ParsedLine[] {
    if (bytes.length === 0) {
      this.#parser ??= createParser(this.#profile, { openedUs: elapsedUs });
      return [];
    }
    this.#parser ??= createParser(this.#profile);
    return [...this.#parser.tick(elapsedUs), ...this.#parser.push(chunkSeq, bytes, elapsedUs)];
  }

  end(): readonly ParsedLine[] {
    return this.#parser?.end() ?? [];
  }

  get bytesWithoutLine(): number {
    return this.#parser?.counts().bytesWithoutLine ?? 0;
  }
}

/** Every line of a pull from its raw chunks, in order; the unfinished tail of each opening but the last included. */
function* linesOf(profile: ReadoutProfile, chunks: Iterable<RawChunk>): Generator<ParsedLine> {
  let opening = -1;
  let parser = new OpeningParser(profile);
  for (const chunk of chunks) {
    if (chunk.opening !== opening) {
      yield* parser.end();
      opening = chunk.opening;
      parser = new OpeningParser(profile);
    }
    yield* parser.push(chunk);
  }
}

/** Readings of a whole pull from its raw chunks. */
export function* reparse(profile: ReadoutProfile, chunks: Iterable<RawChunk>): Generator<Reading> {
  for (const { outcome } of linesOf(profile, chunks)) if (outcome.kind === 'reading') yield outcome.reading;
}

/** How many lines gave no reading, by reason. */
export function countMisfits(
  profile: ReadoutProfile,
  chunks: Iterable<RawChunk>,
): Readonly<Record<string, number>> {
  const counts: Record<string, number> = {};
  for (const { outcome } of linesOf(profile, chunks))
    if (outcome.kind === 'misfit') counts[outcome.reason] = (counts[outcome.reason] ?? 0) + 1;
  return counts;
}
