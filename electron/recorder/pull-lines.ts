/**
 * From raw chunks to the readings of a pull, the same live and when parsed again: each instrument has a parser for each
 * of its openings, and a line of the first takes along the newest value of the second. Only what stands in the chunks
 * decides (order, opening, arrival), so that parsing repeats.
 */
import type { RawChunk } from '../../core/archive/codec/raw-block.ts';
import type { Reading, ShownValue } from '../../core/contract/reading.ts';
import { type ReadoutProfile, expectedUnitOf } from '../../core/contract/readout-profile.ts';
import type { InstrumentIndex, Skew } from '../../core/contract/second-readout.ts';
import type { ParsedLine } from '../../drivers/reading.ts';
import { OpeningParser } from './opening-parser.ts';

/** What the readings of a pull are parsed by. */
export interface PullReadouts {
  readonly profile: ReadoutProfile;
  readonly second: { readonly profile: ReadoutProfile; readonly ageMaxMs: number } | null;
}

export interface PullLine {
  readonly instrument: InstrumentIndex;
  readonly line: ParsedLine;
  /** The reading of the pull that this line makes; null for a misfit, and for a line of the second instrument. */
  readonly reading: Reading | null;
}

interface Held {
  readonly reading: Reading;
  readonly elapsedUs: number;
}

interface Opened {
  opening: number;
  parser: OpeningParser;
}

export class PullLines {
  readonly #readouts: PullReadouts;
  readonly #opened: Opened[];
  readonly #blank: readonly ShownValue[];
  #held: Held | null = null;
  /** A line of the second has come since the last reading. */
  #heldIsNew = false;
  #joined = 0;
  #alone = 0;
  #ageSumUs = 0;
  #longestUs = 0;

  constructor(readouts: PullReadouts) {
    this.#readouts = readouts;
    const { profile, second } = readouts;
    this.#opened = [profile, ...(second === null ? [] : [second.profile])].map((its) => ({
      opening: -1,
      parser: new OpeningParser(its),
    }));
    this.#blank = (second?.profile.channels ?? []).map((channel) => ({
      mantissa: null,
      exponent: 0,
      unit: expectedUnitOf(channel),
      status: 'blank',
    }));
  }

  get instruments(): number {
    return this.#opened.length;
  }

  /** Which instrument an opening is of. */
  instrumentOf(opening: number): InstrumentIndex {
    return opening % this.instruments === 1 ? 1 : 0;
  }

  bytesWithoutLine(instrument: InstrumentIndex): number {
    return this.#opened[instrument]?.parser.bytesWithoutLine ?? 0;
  }

  /** How far the second stands behind the first; null where there is none. */
  get skew(): Skew | null {
    if (this.#readouts.second === null) return null;
    return {
      joined: this.#joined,
      alone: this.#alone,
      meanMs: this.#joined === 0 ? 0 : this.#ageSumUs / this.#joined / 1000,
      longestMs: this.#longestUs / 1000,
    };
  }

  /** Lines that ended in this chunk, and the unfinished one of the opening before where this begins a new one. */
  push(chunk: RawChunk): PullLine[] {
    const instrument = this.instrumentOf(chunk.opening);
    const its = this.#opened[instrument];
    if (its === undefined) return [];
    const before = its.opening === chunk.opening ? [] : this.end(instrument);
    its.opening = chunk.opening;
    const lines = its.parser.push(chunk);
    // Nearly every pull has one instrument, and every chunk passes here.
    if (before.length === 0 && lines.length === 0) return NO_LINES;
    return [...before, ...lines.map((line) => this.#lineOf(instrument, line, chunk.elapsedUs))];
  }

  /** No more bytes from this opening of an instrument; what it said is not joined to what comes after the next. */
  end(instrument: InstrumentIndex): PullLine[] {
    const its = this.#opened[instrument];
    const profile = instrument === 0 ? this.#readouts.profile : this.#readouts.second?.profile;
    if (its === undefined || profile === undefined) return [];
    const rest = its.parser.end();
    its.parser = new OpeningParser(profile);
    return rest.map((line) => ({
      instrument,
      line,
      reading:
        line.outcome.kind === 'reading' && instrument === 0 ? this.#join(line.outcome.reading, null) : null,
    }));
  }

  #lineOf(instrument: InstrumentIndex, line: ParsedLine, elapsedUs: number): PullLine {
    if (line.outcome.kind === 'misfit') return { instrument, line, reading: null };
    const { reading } = line.outcome;
    if (instrument === 0) return { instrument, line, reading: this.#join(reading, elapsedUs) };
    this.#held = { reading, elapsedUs };
    this.#heldIsNew = true;
    return { instrument, line, reading: null };
  }

  /** The reading of the pull; `elapsedUs` null where a line ended with its opening and has no moment of its own. */
  #join(reading: Reading, elapsedUs: number | null): Reading {
    const { second } = this.#readouts;
    if (second === null) return reading;
    const held = this.#held;
    const ageUs =
      held === null || elapsedUs === null
        ? Number.POSITIVE_INFINITY
        : Math.max(0, elapsedUs - held.elapsedUs);
    if (held === null || ageUs > second.ageMaxMs * 1000) {
      this.#alone++;
      return { ...reading, channels: [...reading.channels, ...this.#blank] };
    }
    this.#joined++;
    this.#ageSumUs += ageUs;
    this.#longestUs = Math.max(this.#longestUs, ageUs);
    // What the second says of its line as a whole is told once, with the first reading that takes it along.
    const status = reading.status === 'ok' && this.#heldIsNew ? held.reading.status : reading.status;
    this.#heldIsNew = false;
    return { ...reading, status, channels: [...reading.channels, ...held.reading.channels] };
  }
}

const NO_LINES: PullLine[] = [];
