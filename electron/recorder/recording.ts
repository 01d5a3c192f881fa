/**
 * One open record: chunks into the spool before anything looks at them, lines into readings, readings through the
 * state machine, everything into the archive. Times are µs since the record began. What is safe in the spool is parsed
 * a few milliseconds later, together with what follows closely: line by line it would cost twice as much.
 */
import type { RawChunk } from '../../core/archive/codec/raw-block.ts';
import type { NewGap, NewZero } from '../../core/archive/batch.ts';
import type { Gap, Mark } from '../../core/contract/record.ts';
import type { Reading } from '../../core/contract/reading.ts';
import type { ReadoutChannel } from '../../core/contract/readout-profile.ts';
import type { InstrumentIndex, Skew } from '../../core/contract/second-readout.ts';
import { HELD_BYTES_MAX } from '../../core/limits.ts';
import type { ChannelConverter } from '../../core/pull/channel-value.ts';
import { joinedChannels } from '../../core/pull/joined-channels.ts';
import { effectiveMarks } from '../../core/pull/effective-marks.ts';
import { loadChannel } from '../../core/pull/peak-only.ts';
import type { NewMark, PullState } from '../../core/pull/pull-state.ts';
import { convertersOf } from '../../core/pull/reading-columns.ts';
import { type ActOutcome, type PullAct, takeAct, takeTime } from '../../core/pull/take-act.ts';
import { takeReading } from '../../core/pull/take-reading.ts';
import { withZeroTaken } from '../../core/pull/zero-taken.ts';
import type { Exact } from '../../core/quantity/exact.ts';
import { monotonicUs } from '../../drivers/transport.ts';
import type { Committer } from './committer.ts';
import { GapKeeper } from './gap-keeper.ts';
import { RecentRate } from './recent-rates.ts';
import type { RecordingListener, RecordingStart } from './recording-start.ts';
import { type PullLine, PullLines } from './pull-lines.ts';
import { RangeWatch, rangeSentence } from './range-watch.ts';
import type { Spool } from './spool.ts';
import { ViewBuffer } from './view-buffer.ts';

/** Lines that follow closer than this are parsed together; a line after a pause is parsed at once. */
export const GATHERED_MS = 10;
/** So much is not waited with. */
const GATHERED_BYTES_MAX = 16_384;

export class Recording {
  readonly start: RecordingStart;
  readonly view: ViewBuffer;
  readonly forceRate = new RecentRate();
  readonly extensionRate = new RecentRate();
  readonly #listener: RecordingListener;
  readonly #committer: Committer;
  #spool: Spool | null = null;
  #state: PullState;
  #marks: Mark[];
  readonly #gaps: GapKeeper;
  #zeros: Map<string, Exact>;
  #converters: ChannelConverter[];
  readonly #channels: readonly ReadoutChannel[];
  readonly #channelOf: Readonly<Record<'force' | 'extension', number>>;
  readonly #lines: PullLines;
  readonly #ranges: RangeWatch;
  #nextChunk: number;
  /** In the spool, and not parsed yet. */
  #gathered: RawChunk[] = [];
  #gatheredBytes = 0;
  #gatheredTimer: NodeJS.Timeout | null = null;
  /** When what had gathered was parsed last. */
  #caughtUpUs = -Infinity;
  /** Openings so far, of each instrument. */
  readonly #openings: number[];
  #savedThroughSeq: number;
  readonly #misfits: Record<string, number> = {};
  /** Of each instrument. */
  readonly #lastReadingUs: [number | null, number | null] = [null, null];
  #lastReading: Reading | null = null;
  #spoolFailed = false;
  /** Of each instrument: its last bytes were let go. */
  readonly #isLosing: [boolean, boolean] = [false, false];
  readonly #heldBytesMax: number;

  /** `heldBytesMax`: raw bytes that are held while the archive can't be written to. */
  constructor(
    start: RecordingStart,
    committer: Committer,
    listener: RecordingListener,
    heldBytesMax = HELD_BYTES_MAX,
  ) {
    this.#heldBytesMax = heldBytesMax;
    this.start = start;
    this.#listener = listener;
    this.#committer = committer;
    this.#state = start.state;
    this.#marks = [...start.marks];
    this.#gaps = new GapKeeper(committer, start.gaps);
    this.#zeros = new Map(start.zeros);
    this.#channels = joinedChannels(start.profile, start.second?.profile ?? null);
    this.#converters = convertersOf(this.#channels, this.#zeros);
    this.#lines = new PullLines(start);
    this.#ranges = new RangeWatch(start.rangeLimits);
    this.#nextChunk = start.chunkCount;
    this.#openings = [...start.openingCounts];
    this.#savedThroughSeq = start.state.nextSeq;
    this.view = new ViewBuffer(start.state.nextSeq);
    this.#channelOf = {
      force: loadChannel(this.#channels),
      extension: this.#channels.findIndex((c) => c.quantity === 'extension' && !c.peak),
    };
  }

  get state(): PullState {
    return this.#state;
  }
  get marks(): readonly Mark[] {
    return this.#marks;
  }
  get gaps(): readonly Gap[] {
    return this.#gaps.all;
  }
  get converters(): readonly ChannelConverter[] {
    return this.#converters;
  }
  get zeros(): ReadonlyMap<string, Exact> {
    return this.#zeros;
  }
  get savedThroughSeq(): number {
    return this.#savedThroughSeq;
  }
  get misfitCount(): Readonly<Record<string, number>> {
    return this.#misfits;
  }
  lastReadingUs(instrument: InstrumentIndex): number | null {
    this.catchUp();
    return this.#lastReadingUs[instrument];
  }
  get lastReading(): Reading | null {
    return this.#lastReading;
  }
  get gapIsOpen(): boolean {
    return this.#gaps.isOpen();
  }
  bytesWithoutLine(instrument: InstrumentIndex): number {
    return this.#lines.bytesWithoutLine(instrument);
  }
  /** How far a second instrument stands behind; null where there is none. */
  get skew(): Skew | null {
    return this.#lines.skew;
  }
  get isEnded(): boolean {
    return this.#state.state === 'ended';
  }
  get effective(): ReturnType<typeof effectiveMarks> {
    return effectiveMarks(this.#marks);
  }

  /**
   * A source has been opened, or the record begins while one is open: bytes from here on have a parser of their
   * own. `mayBeMidLine`: the first bytes may be the rest of a line; kept as an empty chunk, so that parsing the
   * raw bytes again later knows it too.
   */
  sourceOpened(instrument: InstrumentIndex, elapsedUs: number, mayBeMidLine: boolean): void {
    if (this.isEnded) return;
    this.#openings[instrument] = (this.#openings[instrument] ?? 0) + 1;
    if (mayBeMidLine) this.takeChunk(instrument, new Uint8Array(0), elapsedUs);
  }

  sourceEnded(instrument: InstrumentIndex): void {
    this.catchUp();
    for (const line of this.#lines.end(instrument)) this.#takeLine(line, this.#state.lastElapsedUs);
  }

  /**
   * Bytes as they came: to the operating system first, then to the parser, at the latest GATHERED_MS later. Their
   * memory must not be written to any more.
   */
  takeChunk(instrument: InstrumentIndex, bytes: Uint8Array, elapsedUs: number): void {
    if (this.isEnded) return;
    const chunk = {
      chunkSeq: this.#nextChunk,
      opening: this.#openingOf(instrument),
      elapsedUs: Math.max(0, Math.round(elapsedUs)),
      bytes,
    };
    if (this.#committer.heldBytes + this.#gatheredBytes + bytes.length > this.#heldBytesMax) {
      this.#letGo(chunk, instrument);
      return;
    }
    if (this.#isLosing[instrument]) {
      // What comes after a loss must not be joined to what came before it.
      this.#isLosing[instrument] = false;
      if (!this.#isLosing.includes(true)) this.#listener.onLoss(true);
      this.sourceOpened(instrument, chunk.elapsedUs, true);
      this.takeChunk(instrument, bytes, elapsedUs);
      return;
    }
    this.#nextChunk++;
    this.#intoSpool(chunk);
    this.#gathered.push(chunk);
    this.#gatheredBytes += bytes.length;
    if (
      chunk.elapsedUs - this.#caughtUpUs >= GATHERED_MS * 1000 ||
      this.#gatheredBytes >= GATHERED_BYTES_MAX
    ) {
      this.#caughtUpUs = chunk.elapsedUs;
      this.catchUp();
    } else if (this.#gatheredTimer === null)
      this.#gatheredTimer = setTimeout(() => this.#catchUpLate(), GATHERED_MS);
  }

  #catchUpLate(): void {
    this.#gatheredTimer = null;
    this.#caughtUpUs = this.#gathered.at(-1)?.elapsedUs ?? this.#caughtUpUs;
    this.catchUp();
  }

  /** Parses what has gathered; whoever looks at the record calls this first. */
  catchUp(): void {
    if (this.#gathered.length === 0) return;
    const gathered = this.#gathered;
    this.#gathered = [];
    this.#gatheredBytes = 0;
    // What came after the end of the record belongs to none.
    for (const chunk of gathered) if (!this.isEnded) this.#keep(chunk);
  }

  /** Chunks that a spool still held after a crash, as they came then. */
  takeRecovered(chunks: Iterable<RawChunk>): void {
    for (const chunk of chunks) {
      const instrument = this.#lines.instrumentOf(chunk.opening);
      const round = Math.floor(chunk.opening / this.#lines.instruments) + 1;
      this.#openings[instrument] = Math.max(this.#openings[instrument] ?? 0, round);
      this.#nextChunk++;
      this.#keep(chunk);
    }
  }

  /** Numbered round by round, so that an opening tells which instrument it is of. */
  #openingOf(instrument: InstrumentIndex): number {
    return Math.max(0, (this.#openings[instrument] ?? 0) - 1) * this.#lines.instruments + instrument;
  }

  #keep(chunk: RawChunk): void {
    this.#committer.addChunk(chunk);
    for (const line of this.#lines.push(chunk)) this.#takeLine(line, chunk.elapsedUs);
  }

  #letGo(chunk: RawChunk, instrument: InstrumentIndex): void {
    this.#isLosing[instrument] = true;
    this.#listener.onLoss(false);
    this.beginGap(
      'readings-not-kept',
      chunk.elapsedUs,
      'the archive could not be written to and memory was full',
      instrument,
    );
  }

  /** From now on chunks go into this spool. */
  useSpool(spool: Spool | null): void {
    this.#spool = spool;
  }

  /** Replays stored chunks through the parser without keeping anything: after a crash. */
  primeParser(chunks: Iterable<RawChunk>): void {
    for (const chunk of chunks) this.#lines.push(chunk);
  }

  /** Time since the record began, never before its newest reading. */
  nowUs(): number {
    this.catchUp();
    return Math.max(this.#state.lastElapsedUs, Math.round(monotonicUs() - this.start.startedUs));
  }

  /** A person's act; refused where it doesn't fit. */
  act(act: PullAct, words?: string): ActOutcome {
    this.catchUp();
    const outcome = takeAct(this.#state, act, this.nowUs(), words);
    if (outcome.ok) this.#step(outcome.state, outcome.marks);
    return outcome;
  }

  /** Time passes; the record may close by itself. */
  tick(elapsedUs: number): void {
    this.catchUp();
    const outcome = takeTime(this.#state, elapsedUs);
    if (outcome.state !== this.#state) this.#step(outcome.state, outcome.marks);
  }

  /** False where one of this instrument lasts already, or the record has ended. */
  beginGap(cause: NewGap['cause'], fromUs: number, words: string, instrument: InstrumentIndex = 0): boolean {
    this.catchUp();
    if (this.isEnded) return false;
    const gap = { cause, beforeSeq: this.#state.nextSeq, fromUs, words };
    const hasBegun = this.#gaps.begin(gap, instrument);
    if (hasBegun) this.#listener.onStep();
    return hasBegun;
  }

  /** Something that is kept with the record: an act of a person, a remark of the port, a step of the clock. */
  noteNow(kind: string, words: string, by: string | null = null): void {
    if (this.isEnded) return;
    this.#committer.addAct({ kind, elapsedUs: this.nowUs(), wallMs: Date.now(), by, words });
  }

  addMark(mark: NewMark): void {
    this.catchUp();
    this.#step(this.#state, [mark]);
  }

  /** New zeros; values already sent are converted otherwise from now on. */
  setZeros(zeros: ReadonlyMap<string, Exact>, kept: readonly NewZero[]): void {
    this.catchUp();
    const load = this.#channels[this.#channelOf.force]?.field ?? '';
    if (zeros.has(load)) this.#state = withZeroTaken(this.#state);
    this.#zeros = new Map([...this.#zeros, ...zeros]);
    this.#converters = convertersOf(this.#channels, this.#zeros);
    for (const zero of kept) this.#committer.addZero(zero);
  }

  committed(throughSeq: number, lastChunk: number | null): void {
    this.#savedThroughSeq = throughSeq;
    if (lastChunk !== null) this.#spool?.release(lastChunk);
  }

  get committer(): Committer {
    return this.#committer;
  }

  #intoSpool(chunk: RawChunk): void {
    if (this.#spool === null) return;
    try {
      this.#spool.append({ ...chunk, pullId: this.start.pullId });
      if (this.#spoolFailed) this.#listener.onSpoolTrouble(null);
      this.#spoolFailed = false;
    } catch (error) {
      if (!this.#spoolFailed)
        this.#listener.onSpoolTrouble(error instanceof Error ? error : new Error(String(error)));
      this.#spoolFailed = true;
    }
  }

  #takeLine({ instrument, line, reading }: PullLine, elapsedUs: number): void {
    if (line.outcome.kind === 'misfit') {
      this.#misfits[line.outcome.reason] = (this.#misfits[line.outcome.reason] ?? 0) + 1;
    } else if (!this.isEnded) {
      this.#lastReadingUs[instrument] = elapsedUs;
      if (this.#gaps.end(elapsedUs, instrument)) this.#listener.onStep();
      if (reading !== null) this.#takeReading(reading, elapsedUs);
    }
    this.#listener.onLine(line, instrument);
  }

  #takeReading(reading: Reading, elapsedUs: number): void {
    this.#committer.addReading(reading);
    const seq = this.#state.nextSeq;
    this.view.push({ seq, elapsedUs, reading });
    this.#lastReading = reading;
    const forceN = this.#valueOf('force', reading);
    this.forceRate.push(elapsedUs, forceN);
    const extensionMm = this.#valueOf('extension', reading);
    this.extensionRate.push(elapsedUs, extensionMm);
    if (reading.status === 'unit-changed') this.#noteUnitChange(reading, seq, elapsedUs);
    const { state, marks } = takeReading(this.#state, { seq, elapsedUs, forceN });
    if (marks.length > 0 || state.state !== this.#state.state) this.#step(state, marks);
    else this.#state = state;
    for (const limit of this.#ranges.passed(forceN, extensionMm)) {
      const words = rangeSentence(limit);
      this.#committer.addAct({ kind: 'range-passed', elapsedUs, wallMs: Date.now(), by: null, words });
      this.#listener.onRangePassed(limit);
    }
  }

  #valueOf(quantity: 'force' | 'extension', reading: Reading): number {
    const index = this.#channelOf[quantity];
    const value = reading.channels[index];
    const converter = this.#converters[index];
    return value === undefined || converter === undefined ? Number.NaN : converter.value(value);
  }

  #noteUnitChange(reading: Reading, seq: number, elapsedUs: number): void {
    const units = reading.channels.map((c, i) => `${this.#channels[i]?.field ?? ''} in ${c.unit}`);
    this.#step(this.#state, [
      {
        kind: 'unit-changed',
        seq,
        elapsedUs,
        cause: 'program',
        words: `the readout changed its units: ${units.join(', ')}`,
      },
    ]);
  }

  #step(state: PullState, marks: readonly NewMark[]): void {
    this.#state = state;
    for (const mark of marks) {
      this.#committer.addMark(mark);
      this.#marks.push({ ...mark });
    }
    this.#listener.onStep();
  }
}
