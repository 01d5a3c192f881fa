/**
 * The recorder: one archive, one readout, one open record at most. An ordinary class in an ordinary Node process;
 * a socket server (server.ts) or the command line put requests to it and listen to its events.
 */
import os from 'node:os';
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import type { ExchangeProgress } from '../../core/contract/exchange-requests.ts';
import type { Fault } from '../../core/contract/message.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { SecondReadout } from '../../core/contract/second-readout.ts';
import type { Session, SessionState } from '../../core/contract/session.ts';
import type { Source } from '../../core/contract/source.ts';
import { type ChannelConverter, zeroFromText, zeroNumber } from '../../core/pull/channel-value.ts';
import { joinFault, secondChannels } from '../../core/pull/joined-channels.ts';
import { showsPeakOnly } from '../../core/pull/peak-only.ts';
import type { PullAct } from '../../core/pull/take-act.ts';
import type { Exact } from '../../core/quantity/exact.ts';
import { portsAtOnce, withIdentity } from '../../drivers/serial/with-identity.ts';
import { monotonicUs } from '../../drivers/transport.ts';
import { ArchiveHolder, type Recover } from './archive-holder.ts';
import type { ArchiveKeeper } from './archive-keeper.ts';
import { ClockWatch } from './clock-watch.ts';
import { SleepWatch } from './sleep-watch.ts';
import { HeldOpening } from './held-opening.ts';
import { Learning } from './learning.ts';
import { LiveReadout, type LiveReadoutOptions } from './live-readout.ts';
import type { WorkWatch } from './long-work.ts';
import { NoticeBoard } from './notice-board.ts';
import { makeTransport } from './readout.ts';
import { type Lives, RecordKeeper } from './record-keeper.ts';
import { type RecorderListener, RecorderListeners } from './recorder-listeners.ts';
import type { RecorderOptions } from './recorder-options.ts';
import type { Recording } from './recording.ts';
import { RequestRefused, faultOf } from './request-refused.ts';
import { SearchIndexer } from './search-indexer.ts';
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
  readonly #indexer: SearchIndexer;
  /** What else is to be let go of when it ends. */
  readonly atEnd = new Set<() => Promise<void>>();
  readonly #listeners = new RecorderListeners(() => this.session());
  readonly #clocks = new ClockWatch(Date.now(), monotonicUs());
  readonly #sleep = new SleepWatch({ wallMs: Date.now(), monotonicUs: monotonicUs(), uptimeS: os.uptime });
  /** What is open: the instrument that gives the load, and perhaps a second; null where none is. */
  #lives: Lives | null = null;
  readonly #stoppable = new Set<AbortController>();
  #basis = 0;
  #revision = 0;
  readonly learning: Learning;
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
      onProgress: (progress) => this.#exchangeProgress(progress),
      onGone: (why) => {
        options.log(`the archive's thread has ended: ${why}`);
        options.onArchiveGone?.();
      },
    });
    this.#indexer = new SearchIndexer({
      archive: () => this.#archive.keeperIfOpen,
      mayTidy: options.resume,
      isRecording: () => this.isRecording || this.#isStarting,
      notices,
      onBug,
    });
    this.learning = new Learning({ tell: (state) => this.#listeners.emit('learning', state), onBug });
    this.#records = new RecordKeeper({
      archive: this.#archive,
      notices,
      onChanged,
      onBug,
      log: options.log,
      heldBytesMax: options.heldBytesMax,
    });
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

  /** The first half of a restore, which can be stopped: nothing is changed by it. */
  copyForRestore(backup: string, watch: WorkWatch): Promise<string> {
    return this.#archive.copyBeside(backup, watch);
  }

  /** A backup, of which there is a copy beside the archive, in its place; the readout stays open. */
  async restore(copy: string): Promise<{ setAsideTo: string | null }> {
    await this.#records.closeHeldOpen('record closed as a backup was put back');
    this.#records.putAway();
    try {
      return await this.#archive.restore(copy, this.#recover);
    } finally {
      this.#afterOpening();
    }
  }

  /** Does long work that is not, or not only, the archive's thread's. */
  async watched<T>(work: (watch: WorkWatch) => Promise<T>): Promise<T> {
    const controller = new AbortController();
    this.#stoppable.add(controller);
    try {
      return await work({
        signal: controller.signal,
        tell: (progress) => this.#exchangeProgress(progress),
      });
    } finally {
      this.#stoppable.delete(controller);
    }
  }

  stopLongWork(): void {
    for (const controller of this.#stoppable) controller.abort();
    this.archive.stopLongWork();
  }

  #exchangeProgress(progress: ExchangeProgress): void {
    this.#listeners.emit('exchange-progress', progress);
  }

  readonly #recover: Recover = async (open, spooled) => {
    const { source, profile, second } = open.pull;
    if (source.kind === 'typed' || source.kind === 'imported')
      throw new Error(`a pull that was ${source.kind} is never an open record`);
    const zeros = [...open.zeros].map(([key, text]) => [key, zeroFromText(text)] as const);
    this.#lives = this.#newLives({
      source,
      profile,
      second: second ?? undefined,
      zeros: new Map(zeros.filter((entry) => hasZero(entry))),
      held: null,
    });
    try {
      await this.#records.recover(this.#lives, open, spooled);
    } catch (error) {
      this.#lives = null;
      throw error;
    }
  };

  /** The port of a record that goes on is opened last: from here on everything that is read can be kept. */
  #afterOpening(): void {
    const { open } = this.#records;
    const { spool, fault } = this.#archive;
    if (fault !== null && open !== null) {
      this.#records.drop();
      this.#lives = null;
    } else if (open !== null && spool !== null) {
      open.useSpool(spool);
      for (const live of this.#lives ?? []) live.readout.openPatiently();
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
    return (this.#lives ?? []).map(({ readout }) => readout.words).join(' and ');
  }
  /** What is open: where readings come from and how they are read; null where nothing is. */
  get openReadoutFacts(): { readonly source: Source; readonly profile: ReadoutProfile } | null {
    const live = this.#lives?.[0];
    return live === undefined ? null : { source: live.source, profile: live.profile };
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
    return this.recording?.state.state ?? (this.#lives === null ? 'closed' : 'listening');
  }

  /** Opens a readout in the place of the one before. Rejects with a SourceFaultError; then none is open. */
  async openReadout(opening: RequestOf<'readout.open'>): Promise<void> {
    await this.#open({ ...opening, held: null });
  }

  /** The port is closed first: learning opens it anew at each line setting. */
  async learnFromPort(asked: RequestOf<'readout.learn-port'>): Promise<void> {
    await this.learning.stop();
    await this.closeReadout();
    this.learning.begin(asked);
  }

  async #open(asked: Omit<Opening, 'zeros'>): Promise<Lives> {
    refuseUnjoinable(asked);
    // Before anything is closed: from there on nobody else may come between.
    const opening = await this.#identified(asked);
    await this.learning.stop();
    await this.closeReadout();
    const lives = this.#newLives({ ...opening, zeros: new Map() });
    this.#lives = lives;
    try {
      for (const live of lives) await live.readout.open();
      return lives;
    } catch (error) {
      await this.#letGoOf(lives);
      throw error;
    } finally {
      this.changed();
    }
  }

  /** Ports that go by their path alone are found again under another one too, should they come back there. */
  async #identified(opening: Omit<Opening, 'zeros'>): Promise<Omit<Opening, 'zeros'>> {
    const ports = this.options.ports ?? portsAtOnce;
    const { source, second } = opening;
    return {
      ...opening,
      source: await withIdentity(source, ports),
      second:
        second === undefined ? undefined : { ...second, source: await withIdentity(second.source, ports) },
    };
  }

  async closeReadout(): Promise<void> {
    await this.#records.closeHeldOpen('record closed with its readout');
    if (this.#records.open !== null || this.#isStarting)
      throw new RequestRefused('pull-open', 'A pull is being recorded; close its record first.');
    const lives = this.#lives ?? [];
    this.#lives = null;
    this.#records.putAway();
    await Promise.all(lives.map((live) => live.close()));
    this.changed();
  }

  /** Begins a record. The readout must be open, or the source and profile be given. */
  async makeReady(request: RequestOf<'pull.ready'>): Promise<number> {
    // An unknown specimen is said before anything is closed or opened.
    await this.archive.call('getSpecimen', request.specimenId);
    this.#archive.requireInPlace();
    await this.#records.closeHeldOpen('record closed as the next pull was made ready');
    if (this.isRecording || this.#isStarting)
      throw new RequestRefused(
        'pull-open',
        'A pull is being recorded; close it before the next is made ready.',
      );
    const openBefore = this.#lives;
    const lives = openBefore ?? (await this.#openFor(request));
    this.#isStarting = true;
    try {
      return await this.#records.begin(lives, withRulesFor(lives, request));
    } catch (error) {
      if (openBefore === null) await this.#letGoOf(lives);
      throw error;
    } finally {
      this.#isStarting = false;
      this.changed();
    }
  }

  /** Readouts that could not be opened, or were opened for a record that could not be begun. */
  async #letGoOf(lives: Lives): Promise<void> {
    if (this.#lives === lives) this.#lives = null;
    await Promise.all(lives.map((live) => live.close()));
  }

  async #openFor({ source, profile, second }: RequestOf<'pull.ready'>): Promise<Lives> {
    if (source === undefined || profile === undefined)
      throw new RequestRefused(
        'no-readout',
        'No readout is open; choose a port and a profile first.',
        'source',
      );
    return this.#open({ source, profile, second, held: new HeldOpening() });
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

  /** Takes the present values as zero. */
  async takeZero(keys: readonly string[], sendCommand: boolean): Promise<ReplyOf<'pull.zero'>> {
    const lives = this.#lives;
    if (lives === null || !ZERO_STATES.has(this.state))
      throw new RequestRefused(
        'step-not-now',
        `Zero can be taken only while a readout is open and before a pull has started; the session is "${this.state}".`,
      );
    this.recording?.catchUp();
    const [first] = lives;
    const its = keys.map((key) => ({ key, live: lives.find((live) => hasChannel(live, key)) ?? first }));
    const taken = new Map(
      its.map(({ key, live }) => [key, presentValue(live.channels, live.freshReading(), key)]),
    );
    if (sendCommand) for (const live of new Set(its.map(({ live }) => live))) await live.sendZeroCommand();
    const zeros = new Map([...first.zeros, ...taken]);
    const before = first.zeros;
    for (const live of lives) live.useZeros(zeros);
    this.#basis++;
    await this.#records.setZeros(taken);
    this.changed();
    const moved = [...taken].flatMap(([key, zero]) => {
      const earlier = before.get(key);
      return earlier === undefined ? [] : [[key, zeroNumber(zero.sub(earlier))] as const];
    });
    return {
      zeros: Object.fromEntries([...zeros].map(([key, zero]) => [key, zeroNumber(zero)])),
      moved: Object.fromEntries(moved),
      basis: this.#basis,
    };
  }

  preview(): ReplyOf<'readout.preview'> {
    this.recording?.catchUp();
    const [first, second] = this.#lives ?? [];
    return {
      ...(first?.preview() ?? { lines: [], bytesWithoutLine: 0 }),
      ...(second === undefined ? {} : { second: second.preview() }),
    };
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
    const [live, second] = this.#lives ?? [];
    const { archivePath, programVersion } = this.options;
    return snapshotOf({
      revision: ++this.#revision,
      wallMs: Date.now(),
      state: this.state,
      readout: live?.facts(nowUs) ?? null,
      signal: live?.signal(nowUs) ?? { fresh: false, lastReadingWallMs: null, silentMs: 0 },
      second: second === undefined ? null : { readout: second.facts(nowUs), signal: second.signal(nowUs) },
      basis: this.#basis,
      notices: this.#notices.standing,
      archive: { path: archivePath, fault: this.#archive.fault, freeBytes: this.#archive.freeBytes },
      recorder: { pid: process.pid, startedWallMs: this.startedWallMs, programVersion },
      shown: (this.#lives ?? []).map((its) => ({
        fresh: its.isFresh(nowUs),
        reading: its.reading,
        converters: its.converters,
      })),
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
    void this.learning.stop();
    const letGo = this.#records
      .letGo()
      .then(() => Promise.all((this.#lives ?? []).map((live) => live.close())));
    await Promise.race([letGo, new Promise((done) => setTimeout(done, END_MS_MAX).unref())]);
    await this.#archive.close({ spoolIsNeeded });
    // What is recorded comes first.
    await Promise.all([...this.atEnd].map((work) => work()));
  }

  #newLives({ source, profile, second, zeros, held }: Opening): Lives {
    this.#basis++;
    const first = this.#newLive({ source, profile, channels: profile.channels, zeros, held, instrument: 0 });
    if (second === undefined) return [first];
    const channels = secondChannels(profile, second.profile);
    return [
      first,
      this.#newLive({ source: second.source, profile: second.profile, channels, zeros, held, instrument: 1 }),
    ];
  }

  #newLive(
    opening: Pick<LiveReadoutOptions, 'source' | 'profile' | 'channels' | 'zeros' | 'held' | 'instrument'>,
  ): LiveReadout {
    return new LiveReadout({
      ...opening,
      make: this.options.makeTransport ?? makeTransport,
      notices: this.#notices,
      openRecord: () => this.#records.open,
      // A sleep lies before what comes first after it.
      onChunkComes: (arrivedUs) => this.#markSleep(arrivedUs),
      onChanged: () => this.changed(),
      onReadings: () => this.#listeners.readingsCame(),
    });
  }

  #tick(): void {
    const nowUs = monotonicUs();
    this.#indexer.look();
    const { open } = this.#records;
    this.#markSleep(nowUs);
    open?.tick(nowUs - open.start.startedUs);
    this.#records.lookAtCommits();
    if (++this.#ticks % SLOW_TICK === 0) this.#lookAround(nowUs, open);
    const [first, second] = this.#lives ?? [];
    if (first === undefined) return;
    for (const live of this.#lives ?? []) live.watchSilence(nowUs);
    if (!this.#listeners.areHeard) return;
    const [preview, beside] = [first.freshPreview(), second?.freshPreview() ?? null];
    if (preview !== null || beside !== null)
      this.#listeners.emit('preview', {
        ...(preview ?? { lines: [], bytesWithoutLine: first.bytesWithoutLine }),
        ...(beside === null ? {} : { second: beside }),
      });
    this.changed();
  }

  /** What came while the computer slept is lost, whether or not the port says anything; the silence watch goes on from here. */
  #markSleep(nowUs: number): void {
    const sleptS = this.#sleep.look({ wallMs: Date.now(), monotonicUs: nowUs, uptimeS: os.uptime });
    if (sleptS === 0) return;
    // Said below, and not once more as a clock that was set: by as much the wall clock is ahead from now on.
    this.#clocks.slept(sleptS);
    const { open } = this.#records;
    if (open === null) return;
    const words = `the computer slept for ${sleptS.toFixed(1)} s; nothing could be received`;
    const begun = [...(this.#lives ?? []).keys()].map((instrument) =>
      open.beginGap('computer-slept', open.nowUs(), words, instrument === 1 ? 1 : 0),
    );
    // A gap that lasts already goes on; that it was slept through in part is noted.
    if (begun.includes(false)) open.noteNow('computer-slept', words);
  }

  #lookAround(nowUs: number, open: Recording | null): void {
    const step = this.#clocks.look(Date.now(), nowUs);
    if (step !== null) open?.noteNow('clock-stepped', step);
    this.#archive.lookAtPlace();
    if (open === null) return;
    this.#archive.lookAtFreeSpace().catch((error: unknown) => {
      if (faultOf(error) === null) this.bug(error);
    });
  }
}

/** What is to be opened; `held` keeps what comes for the record that is begun next. */
interface Opening extends Pick<LiveReadoutOptions, 'source' | 'profile' | 'zeros' | 'held'> {
  readonly second?: SecondReadout | undefined;
}

/** Two instruments that can't be one pull, or are the same port, are refused before anything is opened. */
function refuseUnjoinable({ source, profile, second }: Omit<Opening, 'zeros'>): void {
  if (second === undefined) return;
  const same = JSON.stringify(source) === JSON.stringify(second.source);
  const fault = same
    ? 'Both instruments are on the same port; choose the port of the second one.'
    : joinFault(profile, second.profile);
  if (fault !== null) throw new RequestRefused('instruments-not-joined', fault, 'second');
}

/** Where no load of the moment is shown, rules that watch it would take the second print of a peak for a break. */
function withRulesFor(lives: Lives, request: RequestOf<'pull.ready'>): RequestOf<'pull.ready'> {
  if (!showsPeakOnly(lives.flatMap(({ channels }) => channels))) return request;
  const byHand = { kind: 'by-hand' } as const;
  return { ...request, trigger: byHand, breakRule: byHand, tailS: null };
}

const hasChannel = (live: LiveReadout, key: string): boolean =>
  live.channels.some(({ field }) => field === key);

const ZERO_STATES: ReadonlySet<SessionState> = new Set(['listening', 'ready', 'ended']);

function hasZero(entry: readonly [string, Exact | null]): entry is readonly [string, Exact] {
  return entry[1] !== null;
}
