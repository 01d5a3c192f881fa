/**
 * One opened readout as it is watched: its lines side by side with what became of them, its newest reading, whether
 * it is silent. While a record is open the bytes go through the record, which hands the lines back here.
 */
import type { Notice } from '../../core/contract/notice.ts';
import type { Reading } from '../../core/contract/reading.ts';
import type { ReadoutChannel, ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { Preview } from '../../core/contract/readout-requests.ts';
import type { InstrumentIndex } from '../../core/contract/second-readout.ts';
import type { Session } from '../../core/contract/session.ts';
import type { Source } from '../../core/contract/source.ts';
import { LINES_BEFORE_SYNC_MAX, LINE_BYTES_MAX } from '../../core/limits.ts';
import type { ChannelConverter } from '../../core/pull/channel-value.ts';
import { convertersOf } from '../../core/pull/reading-columns.ts';
import type { Exact } from '../../core/quantity/exact.ts';
import type { ParsedLine } from '../../drivers/reading.ts';
import { type CloseReason, monotonicUs } from '../../drivers/transport.ts';
import type { HeldOpening } from './held-opening.ts';
import { LoadWatch } from './load-watch.ts';
import type { NoticeBoard } from './notice-board.ts';
import { profileIdentity } from './profile-identity.ts';
import { PreviewBuffer } from './preview-buffer.ts';
import { type MakeTransport, Readout } from './readout.ts';
import { ReadingRate } from './reading-rate.ts';
import type { Recording } from './recording.ts';
import { OpeningParser } from './opening-parser.ts';
import { RequestRefused } from './request-refused.ts';
import { SilenceWatch } from './silence-watch.ts';

export interface LiveReadoutOptions {
  readonly source: Source;
  readonly profile: ReadoutProfile;
  /** Of two: 0 gives the load. */
  readonly instrument: InstrumentIndex;
  /** Channels of the profile by the names that they have in a pull. */
  readonly channels: readonly ReadoutChannel[];
  readonly zeros: ReadonlyMap<string, Exact>;
  readonly make: MakeTransport;
  readonly notices: NoticeBoard;
  /** The record that is open now and takes the bytes, or null. */
  readonly openRecord: () => Recording | null;
  /** Bytes have come and are not in the record yet. */
  readonly onChunkComes: (arrivedUs: number) => void;
  /** Opened for a record that is begun next: what comes until then is kept here for it. */
  readonly held: HeldOpening | null;
  readonly onChanged: () => void;
  /** Readings have come into the open record. */
  readonly onReadings: () => void;
}

/** Notices that speak of the readout and go with it. */
const ITS_NOTICES = ['signal-lost', 'no-fresh-reading', 'bytes-without-lines', 'load-not-usable'] as const;
/** Beside those of the first, so that the trouble of one instrument does not hide that of the other. */
const OF_SECOND = 'second-';

/** Reasons for which a line is none whose end may never have come. */
const WITHOUT_END: ReadonlySet<string> = new Set(['before-sync', 'incomplete', 'too-long']);
/** Behind lines that ended, one that is garbled into a long one is no sign of wrong settings; this much without end is. */
const ENDLESS_LINE_BYTES = 8 * LINE_BYTES_MAX;

export class LiveReadout {
  readonly readout: Readout;
  readonly #its: LiveReadoutOptions;
  readonly #preview: PreviewBuffer;
  readonly #rate = new ReadingRate();
  readonly #loadWatch: LoadWatch;
  readonly #silence: SilenceWatch;
  #parser: OpeningParser;
  readonly #profileId: string;
  #zeros: ReadonlyMap<string, Exact>;
  #converters: ChannelConverter[];
  #reading: Reading | null = null;
  #lastReadingUs: number | null = null;
  #lastReadingWallMs: number | null = null;
  #openedUs = monotonicUs();
  #misfits: Record<string, number> = {};
  /** Lines since the newest reading that the profile neither reads nor passes over, and when the last of them came. */
  #unfitLines = 0;
  #lastUnfitUs = 0;
  /** Why the newest request brought nothing; it says more than that no reading is fresh. */
  #requestFault: string | null = null;
  /** In this opening: the port's speed and the line end of the profile are then right. */
  #lineHasEnded = false;
  #isLetGo = false;
  #held: HeldOpening | null;

  constructor(options: LiveReadoutOptions) {
    const { source, profile, channels, zeros, make } = options;
    this.#its = options;
    this.#held = options.held;
    this.#zeros = zeros;
    this.#profileId = profileIdentity(profile);
    this.#converters = convertersOf(channels, zeros);
    this.#preview = new PreviewBuffer(channels);
    this.#loadWatch = new LoadWatch(profile, options.notices);
    this.#silence = new SilenceWatch(profile);
    this.#parser = new OpeningParser(profile);
    this.readout = new Readout(
      { source, profile },
      {
        onOpened: (atUs) => this.#opened(atUs),
        onChunk: (bytes, arrivedUs) => this.#takeChunk(bytes, arrivedUs),
        onEnded: (reason, willReopen) => this.#ended(reason, willReopen),
        onRemark: (code, sentence) => this.#remark(code, sentence),
        onFault: (code, sentence) => this.#fault(code, sentence),
      },
      make,
    );
  }

  get source(): Source {
    return this.#its.source;
  }
  get profile(): ReadoutProfile {
    return this.#its.profile;
  }
  get instrument(): InstrumentIndex {
    return this.#its.instrument;
  }
  get channels(): readonly ReadoutChannel[] {
    return this.#its.channels;
  }
  get zeros(): ReadonlyMap<string, Exact> {
    return this.#zeros;
  }
  get converters(): readonly ChannelConverter[] {
    return this.#converters;
  }
  get reading(): Reading | null {
    return this.#reading;
  }

  /** What is kept for the record that begins; null where it begins in the middle of what is being read. */
  get held(): HeldOpening | null {
    return this.#held;
  }

  /** The record has begun and takes the bytes from here on. */
  endHolding(): void {
    this.#held = null;
  }

  useZeros(zeros: ReadonlyMap<string, Exact>): void {
    this.#zeros = zeros;
    this.#converters = convertersOf(this.channels, zeros);
  }

  /** A line that the readout gave, through the record or without one. */
  takeLine(line: ParsedLine): void {
    this.#preview.push(line);
    this.#lineHasEnded ||= line.outcome.kind === 'reading' || !WITHOUT_END.has(line.outcome.reason);
    if (line.outcome.kind === 'misfit') {
      const { reason } = line.outcome;
      this.#misfits[reason] = (this.#misfits[reason] ?? 0) + 1;
      if (reason !== 'ignored') {
        this.#unfitLines++;
        this.#lastUnfitUs = monotonicUs();
      }
      return;
    }
    const nowUs = monotonicUs();
    this.#unfitLines = 0;
    this.#requestFault = null;
    this.#reading = line.outcome.reading;
    this.#lastReadingUs = nowUs;
    this.#lastReadingWallMs = Date.now();
    this.#rate.note(nowUs);
    this.#silence.note(nowUs);
    this.#loadWatch.note(line.outcome.reading);
    this.#over('no-fresh-reading');
    this.#over('bytes-without-lines');
  }

  /** It sends, and the profile reads nothing of it: to look whether it is switched on would be the wrong advice. */
  #linesDoNotFit(nowUs: number): boolean {
    const sinceMs = (nowUs - this.#lastUnfitUs) / 1000;
    return this.#unfitLines >= LINES_BEFORE_SYNC_MAX && sinceMs < this.#silence.limitMs;
  }

  /** What was taken from a spool is no fresh reading. */
  forgetFreshness(): void {
    this.#reading = null;
    this.#lastReadingUs = null;
    this.#lastReadingWallMs = null;
  }

  isFresh(nowUs: number): boolean {
    if (this.#lastReadingUs === null) return false;
    return (nowUs - this.#lastReadingUs) / 1000 < this.#silence.limitMs;
  }

  silentMs(nowUs: number): number {
    return Math.max(0, (nowUs - (this.#lastReadingUs ?? this.#openedUs)) / 1000);
  }

  #code(code: (typeof ITS_NOTICES)[number]): string {
    return this.instrument === 0 ? code : `${OF_SECOND}${code}`;
  }

  #over(code: (typeof ITS_NOTICES)[number]): void {
    this.#its.notices.over(this.#code(code));
  }

  /** "The readout", or which of two. */
  get #subject(): string {
    return this.instrument === 0 ? 'the readout' : `the second instrument (${this.readout.words})`;
  }

  /** The newest reading; throws a RequestRefused where there is none to rely on. */
  freshReading(): Reading {
    if (this.#reading === null || !this.isFresh(monotonicUs()))
      throw new RequestRefused(
        'no-fresh-reading',
        'There is no fresh reading to take as zero; see that the readout sends.',
      );
    return this.#reading;
  }

  async sendZeroCommand(): Promise<void> {
    const { zeroCommand } = this.profile;
    if (zeroCommand === undefined)
      throw new RequestRefused(
        'no-zero-command',
        'The profile names no zero command, so nothing was sent; press zero on the readout itself.',
        'sendCommand',
      );
    await this.readout.write(Buffer.from(zeroCommand, 'latin1'));
  }

  preview(): Preview {
    return this.#preview.all(this.bytesWithoutLine);
  }

  freshPreview(): Preview | null {
    return this.#preview.fresh(this.bytesWithoutLine);
  }

  facts(nowUs: number): NonNullable<Session['readout']> {
    return {
      source: this.source,
      words: this.readout.words,
      profileName: this.profile.name,
      profileId: this.#profileId,
      channels: this.#converters.map((converter) => converter.info),
      link: this.readout.link,
      lineCount: this.#preview.lineCount,
      misfitCount: { ...this.#misfits },
      readingsPerS: this.#rate.perS(nowUs),
    };
  }

  signal(nowUs: number): Session['signal'] {
    return {
      fresh: this.isFresh(nowUs),
      lastReadingWallMs: this.#lastReadingWallMs,
      silentMs: this.silentMs(nowUs),
    };
  }

  /** Tells when nothing has come for too long, independently of what the port's events say. */
  watchSilence(nowUs: number): void {
    const { notices, openRecord } = this.#its;
    const silentMs = this.silentMs(nowUs);
    if (this.readout.link !== 'open' || silentMs < this.#silence.limitMs) return;
    if (this.bytesWithoutLine > (this.#lineHasEnded ? ENDLESS_LINE_BYTES : 0))
      notices.raise(
        'warning',
        this.#code('bytes-without-lines'),
        `Bytes arrive from ${this.#subject} but no lines; check the speed of the port and the line end in the profile.${this.#ofRecord('The bytes are kept.')}`,
        this.#learning,
      );
    notices.raise(
      'alarm',
      this.#code('no-fresh-reading'),
      this.#whyNothingFresh(nowUs),
      this.#linesDoNotFit(nowUs) ? this.#learning : undefined,
    );
    const record = openRecord();
    const lastReadingUs = record?.lastReadingUs(this.instrument) ?? null;
    if (record !== null && lastReadingUs !== null)
      record.beginGap(
        'silence',
        lastReadingUs,
        `no reading${this.#ofSecond} for ${Math.round(silentMs / 1000)} s`,
        this.instrument,
      );
  }

  get #learning(): Notice['remedy'] {
    return this.instrument === 0 ? 'learn-lines' : 'learn-second-lines';
  }

  #whyNothingFresh(nowUs: number): string {
    if (this.#linesDoNotFit(nowUs))
      return `Lines arrive from ${this.#subject}, but none of them fits the profile “${this.profile.name}”, so nothing is read; have the lines learned, or choose another profile or speed of the port.${this.#ofRecord('Every line is kept.')}`;
    return this.#requestFault === null
      ? `There is no fresh reading from ${this.#subject}; see that it is switched on and sends.${this.#ofRecord('Recording stays open.')}`
      : `There is no fresh reading from ${this.#subject}: ${this.#requestFault}${this.#ofRecord('Recording stays open.')}`;
  }

  /** What is said of a record only while there is one: before, nothing is kept. */
  #ofRecord(sentence: string): string {
    return this.#its.openRecord() === null ? '' : ` ${sentence}`;
  }

  /** Lets go of the port; nothing is heard of it afterwards. Always settles. */
  async close(): Promise<void> {
    this.#isLetGo = true;
    for (const code of ITS_NOTICES) this.#over(code);
    await this.readout.close();
  }

  get #ofSecond(): string {
    return this.instrument === 0 ? '' : ' of the second instrument';
  }

  get bytesWithoutLine(): number {
    return this.#its.openRecord()?.bytesWithoutLine(this.instrument) ?? this.#parser.bytesWithoutLine;
  }

  #opened(atUs: number): void {
    if (this.#isLetGo) return;
    this.#openedUs = atUs;
    this.#lineHasEnded = false;
    this.#unfitLines = 0;
    this.#parser = new OpeningParser(this.profile);
    // A simulation and a replay begin with the beginning of a line; a port is opened at any moment.
    const mayBeMidLine = this.source.kind !== 'simulated' && this.source.kind !== 'replay';
    const record = this.#its.openRecord();
    if (record !== null) record.sourceOpened(this.instrument, atUs - record.start.startedUs, mayBeMidLine);
    else if (this.#held !== null) this.#held.opened(this.instrument, atUs, mayBeMidLine);
    else if (mayBeMidLine) this.#parser.push({ chunkSeq: 0, elapsedUs: atUs, bytes: new Uint8Array(0) });
    this.#over('signal-lost');
    this.#its.onChanged();
  }

  #takeChunk(bytes: Uint8Array, arrivedUs: number): void {
    if (this.#isLetGo) return;
    this.#its.onChunkComes(arrivedUs);
    const record = this.#its.openRecord();
    if (record !== null) {
      record.takeChunk(this.instrument, bytes, arrivedUs - record.start.startedUs);
      this.#its.onReadings();
      return;
    }
    if (this.#held !== null) {
      this.#held.take(this.instrument, bytes, arrivedUs);
      return;
    }
    for (const line of this.#parser.push({ chunkSeq: 0, elapsedUs: arrivedUs, bytes })) this.takeLine(line);
  }

  #ended({ kind, sentence }: CloseReason, willReopen: boolean): void {
    if (this.#isLetGo) return;
    const record = this.#its.openRecord();
    if (record === null) this.#held?.ended(this.instrument);
    else record.sourceEnded(this.instrument);
    if (kind === 'lost') {
      const hope = willReopen
        ? ' It is being looked for; everything before is safe, and the gap is marked.'
        : '';
      const subject = `${this.#subject.slice(0, 1).toUpperCase()}${this.#subject.slice(1)}`;
      this.#its.notices.raise('alarm', this.#code('signal-lost'), `${subject} has gone: ${sentence}${hope}`);
      if (record === null) this.#held?.gap(this.instrument, sentence);
      else
        record.beginGap('signal-lost', record.lastReadingUs(this.instrument) ?? 0, sentence, this.instrument);
    }
    this.#its.onChanged();
  }

  #fault(code: string, sentence: string): void {
    this.#requestFault = sentence;
    this.#remark(code, sentence);
  }

  #remark(code: string, sentence: string): void {
    if (this.#isLetGo) return;
    this.#its.notices.mention('note', code, sentence);
    const record = this.#its.openRecord();
    if (record === null) this.#held?.note(code, sentence);
    else record.noteNow(code, sentence);
  }
}
