/** The parser of one opening of a source: made anew at each, so that nothing is joined across a loss. */
import type { RawChunk } from '../../core/archive/codec/raw-block.ts';
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
