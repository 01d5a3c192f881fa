/**
 * One opened readout as it is watched: its lines side by side with what became of them, its newest reading, whether
 * it is silent. While a record is open the bytes go through the record, which hands the lines back here.
 */
import type { Reading } from '../../core/contract/reading.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { Preview } from '../../core/contract/readout-requests.ts';
import type { Session } from '../../core/contract/session.ts';
import type { Source } from '../../core/contract/source.ts';
import type { ChannelConverter } from '../../core/pull/channel-value.ts';
import { convertersOf } from '../../core/pull/reading-columns.ts';
import type { Exact } from '../../core/quantity/exact.ts';
import type { ParsedLine } from '../../drivers/reading.ts';
import { type CloseReason, monotonicUs } from '../../drivers/transport.ts';
import { HeldOpening } from './held-opening.ts';
import { LoadWatch } from './load-watch.ts';
import type { NoticeBoard } from './notice-board.ts';
import { PreviewBuffer } from './preview-buffer.ts';
import { type MakeTransport, Readout } from './readout.ts';
import { ReadingRate } from './reading-rate.ts';
import type { Recording } from './recording.ts';
import { OpeningParser } from './reparse.ts';
import { RequestRefused } from './request-refused.ts';
import { silenceLimitMs } from './silence-watch.ts';

export interface LiveReadoutOptions {
  readonly source: Source;
  readonly profile: ReadoutProfile;
  readonly zeros: ReadonlyMap<string, Exact>;
  readonly make: MakeTransport;
  readonly notices: NoticeBoard;
  /** The record that is open now and takes the bytes, or null. */
  readonly openRecord: () => Recording | null;
  /** Opened for a record that is begun next: what comes until then is kept for it. */
  readonly forRecord: boolean;
  readonly onChanged: () => void;
  /** Readings have come into the open record. */
  readonly onReadings: () => void;
}

/** Notices that speak of the readout and go with it. */
const ITS_NOTICES = ['signal-lost', 'no-fresh-reading', 'bytes-without-lines', 'load-not-usable'];

export class LiveReadout {
  readonly readout: Readout;
  readonly #its: LiveReadoutOptions;
  readonly #preview: PreviewBuffer;
  readonly #rate = new ReadingRate();
  readonly #loadWatch: LoadWatch;
  #parser: OpeningParser;
  #zeros: ReadonlyMap<string, Exact>;
  #converters: ChannelConverter[];
  #reading: Reading | null = null;
  #lastReadingUs: number | null = null;
  #lastReadingWallMs: number | null = null;
  #openedUs = monotonicUs();
  #misfits: Record<string, number> = {};
  #isLetGo = false;
  #held: HeldOpening | null;

  constructor(options: LiveReadoutOptions) {
    const { source, profile, zeros, make } = options;
    this.#its = options;
    this.#held = options.forRecord ? new HeldOpening() : null;
    this.#zeros = zeros;
    this.#converters = convertersOf(profile, zeros);
    this.#preview = new PreviewBuffer(profile);
    this.#loadWatch = new LoadWatch(profile, options.notices);
    this.#parser = new OpeningParser(profile);
    this.readout = new Readout(
      { source, profile },
      {
        onOpened: (atUs) => this.#opened(atUs),
        onChunk: (bytes, arrivedUs) => this.#takeChunk(bytes, arrivedUs),
        onEnded: (reason, willReopen) => this.#ended(reason, willReopen),
        onRemark: (code, sentence) => this.#remark(code, sentence),
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
  get zeros(): ReadonlyMap<string, Exact> {
    return this.#zeros;
  }
  get converters(): readonly ChannelConverter[] {
    return this.#converters;
  }
  get reading(): Reading | null {
    return this.#reading;
  }

  /** The moment of the opening, where the record that begins holds everything since then. */
  get heldSince(): HeldOpening['since'] {
    return this.#held?.since ?? null;
  }

  /** The record has begun: what was kept for it goes into it, or it begins in the middle of what is being read. */
  handOver(recording: Recording): void {
    const held = this.#held;
    this.#held = null;
    if (held !== null && held.since !== null) held.handTo(recording);
    else recording.sourceOpened(monotonicUs() - recording.start.startedUs, true);
  }

  useZeros(zeros: ReadonlyMap<string, Exact>): void {
    this.#zeros = zeros;
    this.#converters = convertersOf(this.profile, zeros);
  }

  /** A line that the readout gave, through the record or without one. */
  takeLine(line: ParsedLine): void {
    this.#preview.push(line);
    if (line.outcome.kind === 'misfit') {
      const { reason } = line.outcome;
      this.#misfits[reason] = (this.#misfits[reason] ?? 0) + 1;
      return;
    }
    const nowUs = monotonicUs();
    this.#reading = line.outcome.reading;
    this.#lastReadingUs = nowUs;
    this.#lastReadingWallMs = Date.now();
    this.#rate.note(nowUs);
    this.#loadWatch.note(line.outcome.reading);
    this.#its.notices.over('no-fresh-reading');
    this.#its.notices.over('bytes-without-lines');
  }

  /** What was taken from a spool is no fresh reading. */
  forgetFreshness(): void {
    this.#reading = null;
    this.#lastReadingUs = null;
    this.#lastReadingWallMs = null;
  }

  isFresh(nowUs: number): boolean {
    if (this.#lastReadingUs === null) return false;
    return (nowUs - this.#lastReadingUs) / 1000 < silenceLimitMs(this.profile);
  }

  silentMs(nowUs: number): number {
    return Math.max(0, (nowUs - (this.#lastReadingUs ?? this.#openedUs)) / 1000);
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
    return this.#preview.all(this.#bytesWithoutLine);
  }

  freshPreview(): Preview | null {
    return this.#preview.fresh(this.#bytesWithoutLine);
  }

  facts(nowUs: number): NonNullable<Session['readout']> {
    return {
      source: this.source,
      words: this.readout.words,
      profileName: this.profile.name,
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
    if (this.readout.link !== 'open' || silentMs < silenceLimitMs(this.profile)) return;
    if (this.#bytesWithoutLine > 0)
      notices.raise(
        'warning',
        'bytes-without-lines',
        'Bytes arrive from the readout but no lines; check the speed of the port and the line end in the profile. The bytes are kept.',
      );
    notices.raise(
      'alarm',
      'no-fresh-reading',
      'There is no fresh reading from the readout; see that it is switched on and sends. Recording stays open.',
    );
    const record = openRecord();
    const lastReadingUs = record?.lastReadingUs ?? null;
    if (record !== null && lastReadingUs !== null)
      record.beginGap('silence', lastReadingUs, `no reading for ${Math.round(silentMs / 1000)} s`);
  }

  /** Lets go of the port; nothing is heard of it afterwards. Always settles. */
  async close(): Promise<void> {
    this.#isLetGo = true;
    for (const code of ITS_NOTICES) this.#its.notices.over(code);
    await this.readout.close();
  }

  get #bytesWithoutLine(): number {
    return this.#its.openRecord()?.bytesWithoutLine ?? this.#parser.bytesWithoutLine;
  }

  #opened(atUs: number): void {
    if (this.#isLetGo) return;
    this.#openedUs = atUs;
    this.#parser = new OpeningParser(this.profile);
    // A simulation and a replay begin with the beginning of a line; a port is opened at any moment.
    const mayBeMidLine = this.source.kind !== 'simulated' && this.source.kind !== 'replay';
    const record = this.#its.openRecord();
    if (record !== null) record.sourceOpened(atUs - record.start.startedUs, mayBeMidLine);
    else if (this.#held !== null) this.#held.opened(atUs, mayBeMidLine);
    else if (mayBeMidLine) this.#parser.push({ chunkSeq: 0, elapsedUs: atUs, bytes: new Uint8Array(0) });
    this.#its.notices.over('signal-lost');
    this.#its.onChanged();
  }

  #takeChunk(bytes: Uint8Array, arrivedUs: number): void {
    if (this.#isLetGo) return;
    const record = this.#its.openRecord();
    if (record !== null) {
      record.takeChunk(bytes, arrivedUs - record.start.startedUs);
      this.#its.onReadings();
      return;
    }
    if (this.#held !== null) {
      this.#held.take(bytes, arrivedUs);
      return;
    }
    for (const line of this.#parser.push({ chunkSeq: 0, elapsedUs: arrivedUs, bytes })) this.takeLine(line);
  }

  #ended({ kind, sentence }: CloseReason, willReopen: boolean): void {
    if (this.#isLetGo) return;
    const record = this.#its.openRecord();
    if (record === null) this.#held?.ended();
    else record.sourceEnded();
    if (kind === 'lost') {
      const hope = willReopen
        ? ' It is being looked for; everything before is safe, and the gap is marked.'
        : '';
      this.#its.notices.raise('alarm', 'signal-lost', `The readout has gone: ${sentence}${hope}`);
      if (record === null) this.#held?.gap(sentence);
      else record.beginGap('signal-lost', record.lastReadingUs ?? 0, sentence);
    }
    this.#its.onChanged();
  }

  #remark(code: string, sentence: string): void {
    if (this.#isLetGo) return;
    this.#its.notices.mention('note', code, sentence);
    const record = this.#its.openRecord();
    if (record === null) this.#held?.note(code, sentence);
    else record.noteNow(code, sentence);
  }
}
