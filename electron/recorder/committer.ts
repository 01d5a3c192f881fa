/**
 * Takes what a recording gathers into the archive, at least every COMMIT_INTERVAL_MS while there is something.
 * A batch that can't be committed is kept as it is and tried again, in order; what comes meanwhile waits behind it.
 */
import type { Batch, NewAct, NewGap, NewZero, PullEnd } from '../../core/archive/batch.ts';
import type { RawChunk } from '../../core/archive/codec/raw-block.ts';
import type { Reading } from '../../core/contract/reading.ts';
import type { InstrumentIndex } from '../../core/contract/second-readout.ts';
import { packBatch } from '../../core/archive/pack-batch.ts';
import { COMMIT_INTERVAL_MS, COMMIT_INTERVAL_MS_MAX, COMMIT_RETRY_MS } from '../../core/limits.ts';
import type { NewMark } from '../../core/pull/pull-state.ts';
import type { ArchiveKeeper } from './archive-keeper.ts';

export interface CommitterListener {
  readonly onCommitted: (batch: Batch) => void;
  /** A commit has failed; null when commits go through again. */
  readonly onTrouble: (trouble: Error | null) => void;
}

export interface CommitterStart {
  readonly pullId: number;
  readonly nextSeq: number;
  /** Lines that gave no reading are counted anew at the end: what the recorder before counted is lost. */
  readonly isRecovered: boolean;
}

export class Committer {
  readonly #keeper: ArchiveKeeper;
  readonly #pullId: number;
  readonly #isRecovered: boolean;
  readonly #listener: CommitterListener;
  #chunks: RawChunk[] = [];
  #readings: Reading[] = [];
  #marks: NewMark[] = [];
  #gaps: NewGap[] = [];
  /** Of each instrument. */
  #gapEndedUs: [number | null, number | null] = [null, null];
  #acts: NewAct[] = [];
  #zeros: NewZero[] = [];
  #nextSeq: number;
  #heldBytes = 0;
  /** When the oldest raw bytes came: of what gathers, and of the batch under way. */
  #gathersSinceMs: number | null = null;
  #batchSinceMs: number | null = null;
  /** The last commit made its oldest bytes safe later than COMMIT_INTERVAL_MS_MAX. */
  #lastWasLate = false;
  #batch: Batch | null = null;
  #end: PullEnd | null = null;
  #timer: NodeJS.Timeout | null = null;
  #running: Promise<void> | null = null;
  /** The interval of what waits has passed; behind a slow commit it is not waited for once more. */
  #isDue = false;
  #troubled = false;
  #finished = false;

  constructor(
    keeper: ArchiveKeeper,
    { pullId, nextSeq, isRecovered }: CommitterStart,
    listener: CommitterListener,
  ) {
    this.#keeper = keeper;
    this.#pullId = pullId;
    this.#nextSeq = nextSeq;
    this.#isRecovered = isRecovered;
    this.#listener = listener;
  }

  addChunk(chunk: RawChunk): void {
    if (chunk.bytes.length > 0) this.#gathersSinceMs ??= performance.now();
    this.#chunks.push(chunk);
    this.#heldBytes += chunk.bytes.length;
    this.#wake();
  }
  addReading(reading: Reading): void {
    this.#readings.push(reading);
  }
  addMark(mark: NewMark): void {
    this.#marks.push(mark);
    this.#wake();
  }
  /** A gap that ends the one before must come after `endGap`: within one batch ends are written first. */
  addGap(gap: NewGap): void {
    this.#gaps.push(gap);
    this.#wake();
  }
  endGap(atUs: number, instrument: InstrumentIndex = 0): void {
    // A gap that began and ended since the last commit is written in one piece.
    const begun = this.#gaps.findIndex((gap) => gap.toUs === null && (gap.instrument ?? 0) === instrument);
    const gap = this.#gaps[begun];
    if (gap === undefined) this.#gapEndedUs[instrument] = atUs;
    else this.#gaps[begun] = { ...gap, toUs: atUs };
    this.#wake();
  }
  addAct(act: NewAct): void {
    this.#acts.push(act);
    this.#wake();
  }
  addZero(zero: NewZero): void {
    this.#zeros.push(zero);
    this.#wake();
  }

  /** Raw bytes that are not in the archive yet. */
  get heldBytes(): number {
    return this.#heldBytes;
  }

  /** Raw bytes wait that are older than COMMIT_INTERVAL_MS_MAX, or that come behind such ones. */
  get isLate(): boolean {
    const oldestMs = this.#batchSinceMs ?? this.#gathersSinceMs;
    return oldestMs !== null && (this.#lastWasLate || isPastBound(oldestMs));
  }

  get isTroubled(): boolean {
    return this.#troubled;
  }

  /** Readings that are not in the archive yet, in order. */
  get heldReadings(): readonly Reading[] {
    return [...(this.#batch?.readings ?? []), ...this.#readings];
  }

  /** Commits everything that is here now. Settles when it is safe, or when a commit has failed. */
  async flush(): Promise<void> {
    // Three rounds: the batch under way, what had gathered behind it, and the end of the record.
    for (let round = 0; round < 3 && this.#hasWork; round++) await this.#commitNow();
  }

  /** The record ends with what is here. True when the end is in the archive, false when a commit has failed. */
  async finish(end: PullEnd): Promise<boolean> {
    this.#end = end;
    this.#wake();
    for (let round = 0; round < 3 && !this.#finished; round++) {
      await this.#commitNow();
      if (this.#troubled) break;
    }
    return this.#finished;
  }

  get isFinished(): boolean {
    return this.#finished;
  }

  /** No further tries; what is not committed stays in the spool. */
  abandon(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#finished = true;
  }

  get #hasWork(): boolean {
    if (this.#finished) return false;
    return this.#batch !== null || !this.#nothingWaits || this.#end !== null;
  }

  /** Nothing has gathered behind the batch under way. */
  get #nothingWaits(): boolean {
    return (
      this.#chunks.length === 0 &&
      this.#readings.length === 0 &&
      this.#marks.length === 0 &&
      this.#gaps.length === 0 &&
      this.#gapEndedUs.every((at) => at === null) &&
      this.#acts.length === 0 &&
      this.#zeros.length === 0
    );
  }

  #wake(): void {
    if (this.#finished || this.#timer !== null) return;
    this.#timer = setTimeout(
      () => {
        this.#timer = null;
        this.#isDue = true;
        void this.#commitNow();
      },
      this.#troubled ? COMMIT_RETRY_MS : COMMIT_INTERVAL_MS,
    );
  }

  #commitNow(): Promise<void> {
    this.#running ??= this.#commit().finally(() => {
      this.#running = null;
      if (this.#hasWork && this.#isDue && !this.#troubled) void this.#commitNow();
      else if (this.#hasWork) this.#wake();
    });
    return this.#running;
  }

  async #commit(): Promise<void> {
    this.#isDue = false;
    if (this.#finished) return;
    const batch = (this.#batch ??= this.#takeBatch());
    // The end is written with the very last batch only; behind a batch that is tried again more may wait.
    const end = this.#nothingWaits ? this.#end : null;
    try {
      if (end === null) await this.#keeper.call('appendPacked', packBatch(batch));
      else await this.#keeper.call('closePull', batch, end, this.#isRecovered);
    } catch (error) {
      this.#troubled = true;
      this.#listener.onTrouble(error instanceof Error ? error : new Error(String(error)));
      return;
    }
    this.#batch = null;
    this.#noteAge();
    for (const chunk of batch.chunks) this.#heldBytes -= chunk.bytes.length;
    if (end !== null) this.#finished = true;
    if (this.#troubled) {
      this.#troubled = false;
      this.#listener.onTrouble(null);
    }
    this.#listener.onCommitted(batch);
  }

  /** The batch under way is safe. */
  #noteAge(): void {
    this.#lastWasLate = this.#batchSinceMs !== null && isPastBound(this.#batchSinceMs);
    this.#batchSinceMs = null;
  }

  #takeBatch(): Batch {
    this.#batchSinceMs = this.#gathersSinceMs;
    this.#gathersSinceMs = null;
    const batch: Batch = {
      pullId: this.#pullId,
      chunks: this.#chunks,
      firstSeq: this.#nextSeq,
      readings: this.#readings,
      marks: this.#marks,
      gaps: this.#gaps,
      gapEndedUs: this.#gapEndedUs[0],
      ...(this.#gapEndedUs[1] === null ? {} : { secondGapEndedUs: this.#gapEndedUs[1] }),
      acts: this.#acts,
      zeros: this.#zeros,
    };
    this.#nextSeq += this.#readings.length;
    this.#chunks = [];
    this.#readings = [];
    this.#marks = [];
    this.#gaps = [];
    this.#gapEndedUs = [null, null];
    this.#acts = [];
    this.#zeros = [];
    return batch;
  }
}

const isPastBound = (cameMs: number): boolean => performance.now() - cameMs > COMMIT_INTERVAL_MS_MAX;
