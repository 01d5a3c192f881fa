/**
 * The recorder: one archive, one readout, one open record at most. An ordinary class in an ordinary Node process;
 * a socket server (server.ts) or the command line put requests to it and listen to its events.
 */
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import type { Fault } from '../../core/contract/message.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { Session, SessionState } from '../../core/contract/session.ts';
import type { Source } from '../../core/contract/source.ts';
import { type ChannelConverter, zeroFromText, zeroNumber } from '../../core/pull/channel-value.ts';
import type { PullAct } from '../../core/pull/take-act.ts';
import type { Exact } from '../../core/quantity/exact.ts';
import { monotonicUs } from '../../drivers/transport.ts';
import { ArchiveHolder, type Recover } from './archive-holder.ts';
import type { ArchiveKeeper } from './archive-keeper.ts';
import { ClockWatch } from './clock-watch.ts';
import { LiveReadout, type LiveReadoutOptions } from './live-readout.ts';
import { NoticeBoard } from './notice-board.ts';
import { makeTransport } from './readout.ts';
import { RecordKeeper } from './record-keeper.ts';
import { type RecorderListener, RecorderListeners } from './recorder-listeners.ts';
import type { RecorderOptions } from './recorder-options.ts';
import type { Recording } from './recording.ts';
import { RequestRefused, faultOf } from './request-refused.ts';
import { snapshotOf } from './snapshot.ts';
import { presentValue } from './take-zero.ts';
import type { ViewBuffer } from './view-buffer.ts';

/** The silence watch and the tail's end are looked at this often; snapshots and previews go out with it. */
const TICK_MS = 100;
/** Free space and the two clocks are looked at every so many ticks. */
const SLOW_TICK = 50;
/** A stop waits no longer than this for disk and port; what is committed is safe anyway. */
const END_MS_MAX = 1_500;

export class Recorder {
  readonly options: RecorderOptions;
  readonly startedWallMs = Date.now();
  readonly #notices: NoticeBoard;
  readonly #archive: ArchiveHolder;
  readonly #records: RecordKeeper;
  readonly #listeners = new RecorderListeners(() => this.session());
  readonly #clocks = new ClockWatch(Date.now(), monotonicUs());
  #live: LiveReadout | null = null;
  #basis = 0;
  #revision = 0;
  #isStarting = false;
  #ticker: NodeJS.Timeout | null = null;
  #ticks = 0;

  constructor(options: RecorderOptions) {
    this.options = options;
    const onChanged = (): void => this.changed();
    const onBug = (error: unknown): void => this.bug(error);
    this.#notices = new NoticeBoard((notice) => {
      this.#listeners.emit('notice', notice);
      this.changed();
    }, Date.now);
    const notices = this.#notices;
    this.#archive = new ArchiveHolder({
      ...options,
      notices,
      onBug,
      onGone: (why) => {
        options.log(`the archive's thread has ended: ${why}`);
        options.onArchiveGone?.();
      },
    });
    this.#records = new RecordKeeper({ archive: this.#archive, notices, onChanged, onBug, log: options.log });
  }

  /** Opens the archive and goes on with an open record. A fault of the archive is kept and shown, not thrown. */
  async begin(): Promise<void> {
    this.#ticker = setInterval(() => this.#tick(), TICK_MS);
    await this.openArchive();
  }

  /** Tries to open the archive; `archiveFault` says why it could not be. */
  async openArchive(): Promise<void> {
    await this.#archive.open(this.#recover);
    this.#afterOpening();
  }

  async setAside(): Promise<{ setAsideTo: string; path: string }> {
    const done = await this.#archive.setAside(this.#recover);
    this.#afterOpening();
    return done;
  }

  readonly #recover: Recover = async (open, spooled) => {
    const { source, profile } = open.pull;
    if (source.kind === 'typed') throw new Error('a typed pull is never an open record');
    const zeros = [...open.zeros].map(([key, text]) => [key, zeroFromText(text)] as const);
    this.#live = this.#newLive({
      source,
      profile,
      zeros: new Map(zeros.filter((entry) => hasZero(entry))),
      forRecord: false,
    });
    try {
      await this.#records.recover(this.#live, open, spooled);
    } catch (error) {
      this.#live = null;
      throw error;
    }
    this.#notices.mention(
      'warning',
      'recorder-recovered',
      'The recorder ended unexpectedly and goes on with the same record; the gap is marked in it.',
    );
  };

  /** The port of a record that goes on is opened last: from here on everything that is read can be kept. */
  #afterOpening(): void {
    const { open } = this.#records;
    const { spool, fault } = this.#archive;
    if (fault !== null && open !== null) {
      this.#records.drop();
      this.#live = null;
    } else if (open !== null && spool !== null) {
      open.useSpool(spool);
      this.#live?.readout.openPatiently();
    }
    this.changed();
  }

  get archive(): ArchiveKeeper {
    return this.#archive.keeper;
  }
  get archiveFault(): Fault | null {
    return this.#archive.fault;
  }
  /** The record that is shown: open, or ended and not put away. */
  get recording(): Recording | null {
    return this.#records.recording;
  }
  /** The record of a pull that is not, or not wholly, in the archive yet. */
  recordOf(pullId: number): Recording | null {
    return this.#records.of(pullId);
  }
  get readoutWords(): string {
    return this.#live?.readout.words ?? '';
  }
  get basis(): number {
    return this.#basis;
  }
  get view(): {
    readonly pullId: number;
    readonly buffer: ViewBuffer;
    readonly converters: readonly ChannelConverter[];
  } | null {
    const { recording } = this;
    return recording === null
      ? null
      : { pullId: recording.start.pullId, buffer: recording.view, converters: recording.converters };
  }
  /** A record is open, or its end is still being written. */
  get isRecording(): boolean {
    return this.#records.isBusy;
  }
  get state(): SessionState {
    return this.recording?.state.state ?? (this.#live === null ? 'closed' : 'listening');
  }

  /** Opens a readout in the place of the one before. Rejects with a SourceFaultError; then none is open. */
  async openReadout(source: Source, profile: ReadoutProfile): Promise<void> {
    await this.#open({ source, profile, forRecord: false });
  }

  async #open(opening: Pick<LiveReadoutOptions, 'source' | 'profile' | 'forRecord'>): Promise<LiveReadout> {
    await this.closeReadout();
    const live = this.#newLive({ ...opening, zeros: new Map() });
    this.#live = live;
    try {
      await live.readout.open();
      return live;
    } catch (error) {
      if (this.#live === live) this.#live = null;
      throw error;
    } finally {
      this.changed();
    }
  }

  async closeReadout(): Promise<void> {
    await this.#records.closeHeldOpen('record closed with its readout');
    if (this.#records.open !== null || this.#isStarting)
      throw new RequestRefused('pull-open', 'A pull is being recorded; close its record first.');
    const live = this.#live;
    this.#live = null;
    this.#records.putAway();
    await live?.close();
    this.changed();
  }

  /** Begins a record. The readout must be open, or the source and profile be given. */
  async makeReady(request: RequestOf<'pull.ready'>): Promise<number> {
    // An unknown specimen is said before anything is closed or opened.
    await this.archive.call('getSpecimen', request.specimenId);
    await this.#records.closeHeldOpen('record closed as the next pull was made ready');
    if (this.isRecording || this.#isStarting)
      throw new RequestRefused(
        'pull-open',
        'A pull is being recorded; close it before the next is made ready.',
      );
    const openBefore = this.#live;
    const live = openBefore ?? (await this.#openFor(request));
    this.#isStarting = true;
    try {
      return await this.#records.begin(live, request);
    } catch (error) {
      if (openBefore === null) await this.#letGoOf(live);
      throw error;
    } finally {
      this.#isStarting = false;
      this.changed();
    }
  }

  /** A readout that was opened for a record that could not be begun. */
  async #letGoOf(live: LiveReadout): Promise<void> {
    if (this.#live === live) this.#live = null;
    await live.close();
  }

  async #openFor({ source, profile }: RequestOf<'pull.ready'>): Promise<LiveReadout> {
    if (source === undefined || profile === undefined)
      throw new RequestRefused(
        'no-readout',
        'No readout is open; choose a port and a profile first.',
        'source',
      );
    return this.#open({ source, profile, forRecord: true });
  }

  act(act: PullAct): Promise<SessionState> {
    return this.#records.act(act, this.state);
  }

  /** The pull has a note of its fracture: the operator has seen where it broke, and nothing is to be taken back. */
  async fractureNoted(pullId: number): Promise<void> {
    if (this.#records.open?.start.pullId === pullId)
      await this.#records.closeHeldOpen('record closed as its fracture was noted');
  }

  async putAway(): Promise<SessionState> {
    await this.#records.closeHeldOpen('record put away by hand');
    if (this.recording?.isEnded !== true)
      throw new RequestRefused(
        'step-not-now',
        `There is no ended pull to put away; the session is "${this.state}".`,
      );
    this.#records.putAway();
    this.changed();
    return this.state;
  }

  /** Takes the present values as zero; all zeros that now hold, in the core's units. */
  async takeZero(keys: readonly string[], sendCommand: boolean): Promise<Record<string, number>> {
    const live = this.#live;
    if (live === null || !ZERO_STATES.has(this.state))
      throw new RequestRefused(
        'step-not-now',
        `Zero can be taken only while a readout is open and before a pull has started; the session is "${this.state}".`,
      );
    const reading = live.freshReading();
    const taken = new Map(keys.map((key) => [key, presentValue(live.profile, reading, key)]));
    if (sendCommand) await live.sendZeroCommand();
    live.useZeros(new Map([...live.zeros, ...taken]));
    this.#basis++;
    await this.#records.setZeros(taken);
    this.changed();
    return Object.fromEntries([...live.zeros].map(([key, zero]) => [key, zeroNumber(zero)]));
  }

  preview(): ReplyOf<'readout.preview'> {
    return this.#live?.preview() ?? { lines: [], bytesWithoutLine: 0 };
  }

  listen(listener: RecorderListener): () => void {
    return this.#listeners.add(listener);
  }

  /** Something that the session shows has changed; told at the next turn. */
  changed(): void {
    this.#listeners.changed();
  }

  session(): Session {
    const nowUs = monotonicUs();
    const live = this.#live;
    const { archivePath, programVersion } = this.options;
    return snapshotOf({
      revision: ++this.#revision,
      wallMs: Date.now(),
      state: this.state,
      readout: live?.facts(nowUs) ?? null,
      signal: live?.signal(nowUs) ?? { fresh: false, lastReadingWallMs: null, silentMs: 0 },
      basis: this.#basis,
      notices: this.#notices.standing,
      archive: { path: archivePath, fault: this.#archive.fault, freeBytes: this.#archive.freeBytes },
      recorder: { pid: process.pid, startedWallMs: this.startedWallMs, programVersion },
      reading: live?.reading ?? null,
      converters: live?.converters ?? [],
      recording: this.recording,
      nowUs,
    });
  }

  bug(error: unknown): void {
    const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
    this.options.log(`fault in the program: ${words}`);
  }

  /** Commits what is here and lets go of everything; an open record stays open and is gone on with at the next start. */
  async end(): Promise<void> {
    if (this.#ticker !== null) clearInterval(this.#ticker);
    const spoolIsNeeded = this.isRecording;
    const letGo = this.#records.letGo().then(() => this.#live?.close());
    await Promise.race([letGo, new Promise((done) => setTimeout(done, END_MS_MAX).unref())]);
    await this.#archive.close({ spoolIsNeeded });
  }

  #newLive(opening: Pick<LiveReadoutOptions, 'source' | 'profile' | 'zeros' | 'forRecord'>): LiveReadout {
    this.#basis++;
    return new LiveReadout({
      ...opening,
      make: this.options.makeTransport ?? makeTransport,
      notices: this.#notices,
      openRecord: () => this.#records.open,
      onChanged: () => this.changed(),
      onReadings: () => this.#listeners.readingsCame(),
    });
  }

  #tick(): void {
    const nowUs = monotonicUs();
    const { open } = this.#records;
    open?.tick(nowUs - open.start.startedUs);
    if (++this.#ticks % SLOW_TICK === 0) this.#lookAround(nowUs, open);
    const live = this.#live;
    if (live === null) return;
    live.watchSilence(nowUs);
    const preview = live.freshPreview();
    if (preview !== null) this.#listeners.emit('preview', preview);
    this.changed();
  }

  #lookAround(nowUs: number, open: Recording | null): void {
    const step = this.#clocks.look(Date.now(), nowUs);
    if (step !== null) open?.noteNow('clock-stepped', step);
    if (open === null) return;
    this.#archive.lookAtFreeSpace().catch((error: unknown) => {
      if (faultOf(error) === null) this.bug(error);
    });
  }
}

const ZERO_STATES: ReadonlySet<SessionState> = new Set(['listening', 'ready', 'ended']);

function hasZero(entry: readonly [string, Exact | null]): entry is readonly [string, Exact] {
  return entry[1] !== null;
}
