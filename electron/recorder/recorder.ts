/**
 * The recorder: one archive, one readout, one open record at most. An ordinary class in an ordinary Node process;
 * a socket server (server.ts) or the command line put requests to it and listen to its events.
 */
import { ArchiveFault } from '../../core/archive/archive-fault.ts';
import type { OpenRecord } from '../../core/archive/open-record.ts';
import { setArchiveAside } from '../../core/archive/set-aside.ts';
import {
  type Answer,
  type EventName,
  type EventOf,
  type ReplyOf,
  type RequestName,
  type RequestOf,
  contract,
} from '../../core/contract/index.ts';
import type { Fault } from '../../core/contract/message.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { Session, SessionState } from '../../core/contract/session.ts';
import type { Source } from '../../core/contract/source.ts';
import { FREE_BYTES_WARNING } from '../../core/limits.ts';
import { type ChannelConverter, zeroFromText, zeroNumber, zeroText } from '../../core/pull/channel-value.ts';
import { newPull } from '../../core/pull/pull-state.ts';
import { convertersOf } from '../../core/pull/reading-columns.ts';
import type { PullAct } from '../../core/pull/take-act.ts';
import type { Exact } from '../../core/quantity/exact.ts';
import type { Reading } from '../../core/contract/reading.ts';
import type { ParsedLine } from '../../drivers/reading.ts';
import { monotonicUs } from '../../drivers/transport.ts';
import { ArchiveKeeper } from './archive-keeper.ts';
import { bootName } from './boot.ts';
import { Committer } from './committer.ts';
import { NoticeBoard } from './notice-board.ts';
import { PreviewBuffer } from './preview-buffer.ts';
import { type MakeTransport, Readout, makeTransport } from './readout.ts';
import { Recording, type RecordingStart } from './recording.ts';
import { OpeningParser } from './reparse.ts';
import { RequestRefused, faultOf } from './request-refused.ts';
import { answerRequest } from './requests.ts';
import { silenceLimitMs } from './silence-watch.ts';
import { snapshotOf } from './snapshot.ts';
import { Spool, readSpool } from './spool.ts';
import type { SpoolRecord } from './spool-record.ts';
import type { ViewBuffer } from './view-buffer.ts';

export interface RecorderOptions {
  readonly archivePath: string;
  readonly programVersion: string;
  /** Make the archive's folder where it is missing: the default place only. */
  readonly makeFolder: boolean;
  /** Go on with a record that was left open; false for work that only reads. */
  readonly resume: boolean;
  readonly makeTransport?: MakeTransport;
  /** Says what must not be lost when nobody is connected: bugs, and troubles of the disk. */
  readonly log: (line: string) => void;
}

export interface RecorderListener {
  readonly onEvent: <N extends EventName>(name: N, event: EventOf<N>) => void;
  /** There are new readings in the view buffer. */
  readonly onReadings: () => void;
}

/** The silence watch and the tail's end are looked at this often. */
const TICK_MS = 50;
const RATE_WINDOW_US = 1_000_000;

export class Recorder {
  readonly options: RecorderOptions;
  readonly startedWallMs = Date.now();
  readonly notices: NoticeBoard;
  #keeper: ArchiveKeeper | null = null;
  #archiveFault: Fault | null = NOT_OPENED;
  #identity = '';
  #spool: Spool | null = null;
  #readout: Readout | null = null;
  #parser: OpeningParser | null = null;
  #preview: PreviewBuffer | null = null;
  #recording: Recording | null = null;
  /** An ended record whose end is not in the archive yet. */
  #unfinished: Recording | null = null;
  #zeros = new Map<string, Exact>();
  #converters: ChannelConverter[] = [];
  #reading: Reading | null = null;
  #lastReadingUs: number | null = null;
  #lastReadingWallMs: number | null = null;
  #openedUs = 0;
  #recentReadings: number[] = [];
  #misfits: Record<string, number> = {};
  #basis = 0;
  #revision = 0;
  #freeBytes: number | null = null;
  #isBusy = false;
  #listeners = new Set<RecorderListener>();
  #ticker: NodeJS.Timeout | null = null;
  #changed = false;

  constructor(options: RecorderOptions) {
    this.options = options;
    this.notices = new NoticeBoard((notice) => {
      this.#emit('notice', notice);
      this.changed();
    }, Date.now);
  }

  /** Opens the archive and goes on with an open record. A fault of the archive is kept and shown, not thrown. */
  async begin(): Promise<void> {
    this.#ticker = setInterval(() => this.#tick(), TICK_MS);
    await this.openArchive();
  }

  /** Tries to open the archive; says in `archiveFault` why it could not be. */
  async openArchive(): Promise<void> {
    if (this.#keeper !== null) return;
    const { archivePath, programVersion, makeFolder } = this.options;
    let keeper: ArchiveKeeper;
    try {
      keeper = await ArchiveKeeper.open({ path: archivePath, programVersion, makeFolder });
    } catch (error) {
      this.#archiveFailed(error);
      return;
    }
    try {
      this.#identity = await keeper.call('identity');
      if (!this.options.resume) {
        this.#keeper = keeper;
        this.#archiveFault = null;
        return;
      }
      const open = await keeper.call('openRecord');
      const { records, nextGeneration } = readSpool(archivePath, {
        identity: this.#identity,
        pullId: open?.pull.pullId ?? -1,
        fromChunk: open?.pull.chunkCount ?? 0,
      });
      this.#keeper = keeper;
      this.#archiveFault = null;
      if (open !== null) await this.#recover(open, records);
      // Only now: beginning the spool anew writes over what it held.
      this.#spool = new Spool(archivePath, { identity: this.#identity, generation: nextGeneration });
      this.#recording?.useSpool(this.#spool);
      this.notices.over('archive-not-open');
      await this.#lookAtFreeSpace();
    } catch (error) {
      this.#keeper = null;
      this.#recording?.committer.abandon();
      this.#recording = null;
      await keeper.close();
      this.#archiveFailed(error);
    }
    this.changed();
  }

  #archiveFailed(error: unknown): void {
    const fault = faultOf(error) ?? {
      code: 'archive-unreadable',
      sentence: `The archive could not be opened because of a fault in the program (${error instanceof Error ? error.message.slice(0, 300) : ''}). Nothing was changed.`,
    };
    if (faultOf(error) === null) this.bug(error);
    this.#archiveFault = fault;
    this.options.log(fault.sentence);
    this.changed();
  }

  /** Goes on with a record that was open when its recorder ended. */
  async #recover(open: OpenRecord, spooled: readonly SpoolRecord[]): Promise<void> {
    const { pull } = open;
    const sameBoot = open.boot === bootName();
    const startedUs = sameBoot
      ? pull.startedMonotonicUs
      : monotonicUs() - (Date.now() - pull.startedWallMs) * 1000;
    this.#zeros = new Map(
      [...open.zeros].flatMap(([key, text]) => {
        const zero = zeroFromText(text);
        return zero === null ? [] : [[key, zero] as const];
      }),
    );
    this.#useReadout(pull.source, pull.profile);
    const recording = this.#newRecording({
      pullId: pull.pullId,
      specimenId: pull.specimenId,
      specimenName: pull.specimenName,
      startedWallMs: pull.startedWallMs,
      startedUs,
      profile: pull.profile,
      plannedForceN: null,
      plannedExtensionMm: null,
      state: open.state,
      marks: pull.marks,
      gaps: pull.gaps,
      gapIsOpen: open.gapIsOpen,
      chunkCount: pull.chunkCount,
      openingCount: open.openingCount,
      zeros: this.#zeros,
      misfitCount: {},
    });
    recording.primeParser(open.tail);
    recording.takeRecovered(spooled);
    recording.sourceEnded();
    const lastUs = spooled.at(-1)?.elapsedUs ?? open.lastChunkElapsedUs;
    const nowUs = Math.max(lastUs, monotonicUs() - startedUs);
    recording.addMark({
      kind: 'recovered',
      seq: recording.state.nextSeq,
      elapsedUs: nowUs,
      cause: 'program',
      words: `the recorder ended unexpectedly and goes on; ${spooled.length} chunks were taken from the spool${sameBoot ? '' : '; the computer was started anew, so times since then rest on the wall clock'}`,
    });
    recording.beginGap('recorder-restarted', lastUs, 'the recorder ended unexpectedly and was started again');
    await recording.committer.flush();
    if (recording.committer.isTroubled)
      throw new ArchiveFault(
        'archive-disk-full',
        "The archive can't be written to, so the open record can't be taken up again; what was kept is safe. Free some space on its disk and try again.",
      );
    this.notices.mention(
      'warning',
      'recorder-recovered',
      'The recorder ended unexpectedly and goes on with the same record; the gap is marked in it.',
    );
    this.#readout?.openPatiently();
  }

  // --- what requests use (requests.ts) ---------------------------------------------------------------------------

  get archive(): ArchiveKeeper {
    if (this.#keeper === null) {
      const fault = this.#archiveFault ?? NOT_OPENED;
      throw new RequestRefused(fault.code, fault.sentence);
    }
    return this.#keeper;
  }
  get archiveFault(): Fault | null {
    return this.#archiveFault;
  }
  get recording(): Recording | null {
    return this.#recording;
  }
  get readout(): Readout | null {
    return this.#readout;
  }
  get basis(): number {
    return this.#basis;
  }
  get view(): {
    readonly pullId: number;
    readonly buffer: ViewBuffer;
    readonly converters: readonly ChannelConverter[];
  } | null {
    const recording = this.#recording;
    return recording === null
      ? null
      : { pullId: recording.start.pullId, buffer: recording.view, converters: recording.converters };
  }
  get isRecording(): boolean {
    return (this.#recording !== null && !this.#recording.isEnded) || this.#unfinished !== null;
  }
  get state(): SessionState {
    if (this.#recording !== null) return this.#recording.state.state;
    return this.#readout === null ? 'closed' : 'listening';
  }

  /** Answers always; a bug is told as a fault too, and logged with its stack. */
  async request<N extends RequestName>(name: N, payload: unknown): Promise<Answer<ReplyOf<N>>> {
    const checked = contract[name].request.safeParse(payload);
    if (!checked.success) {
      const issue = checked.error.issues[0];
      const field = issue?.path.map(String).join('.') ?? '';
      return {
        ok: false,
        fault: {
          code: 'request-malformed',
          sentence:
            `"${name}" was asked in a wrong form: ${field === '' ? '' : `${field}: `}${issue?.message ?? ''}. Nothing was done.`.slice(
              0,
              1000,
            ),
          ...(field === '' ? {} : { field }),
        },
      };
    }
    try {
      return { ok: true, value: await answerRequest(this, name, checked.data as RequestOf<N>) };
    } catch (error) {
      const fault = faultOf(error);
      if (fault !== null) return { ok: false, fault };
      this.bug(error);
      return {
        ok: false,
        fault: {
          code: 'program-fault',
          sentence: `"${name}" failed because of a fault in the program (${error instanceof Error ? error.message.split('\n')[0]?.slice(0, 300) : ''}). What is recorded is safe.`,
        },
      };
    }
  }

  async openReadout(source: Source, profile: ReadoutProfile): Promise<void> {
    if (this.#openRecording !== null)
      throw new RequestRefused(
        'pull-open',
        'A pull is being recorded; close it before another readout is opened.',
      );
    await this.closeReadout();
    this.#zeros = new Map();
    this.#useReadout(source, profile);
    try {
      await this.#readout?.open();
    } catch (error) {
      this.#forgetReadout();
      throw error;
    } finally {
      this.changed();
    }
  }

  async closeReadout(): Promise<void> {
    if (this.#openRecording !== null)
      throw new RequestRefused('pull-open', 'A pull is being recorded; close the record before the readout.');
    const readout = this.#readout;
    this.#forgetReadout();
    this.#recording = null;
    await readout?.close();
    this.changed();
  }

  /** Begins a record. The readout must be open, or the source and profile be given. */
  async makeReady(request: RequestOf<'pull.ready'>): Promise<number> {
    if (this.isRecording || this.#isBusy)
      throw new RequestRefused(
        'pull-open',
        'A pull is being recorded; close it before the next is made ready.',
      );
    const keeper = this.archive;
    this.#isBusy = true;
    try {
      return await this.#beginRecord(keeper, request);
    } finally {
      this.#isBusy = false;
      this.changed();
    }
  }

  async #beginRecord(keeper: ArchiveKeeper, request: RequestOf<'pull.ready'>): Promise<number> {
    if (this.#readout === null) {
      const { source, profile } = sourceOf(request);
      await this.openReadout(source, profile);
    }
    const readout = this.#readout;
    if (readout === null) throw new RequestRefused('no-readout', 'The readout was closed meanwhile.');
    const { source, profile } = readout;
    const specimen = await keeper.call('getSpecimen', request.specimenId);
    if (this.#spool === null)
      throw new RequestRefused(
        'archive-disk-full',
        'There is no room beside the archive for the spool, so a recording would not be safe; free some space on its disk and try again.',
      );
    const rules = { trigger: request.trigger, breakRule: request.breakRule, tailS: request.tailS };
    const startedUs = monotonicUs();
    const startedWallMs = Date.now();
    const pullId = await keeper.call('beginPull', {
      specimenId: request.specimenId,
      profile,
      source,
      sourceWords: readout.words,
      rules,
      operator: request.operator ?? null,
      startedWallMs,
      startedMonotonicUs: startedUs,
      boot: bootName(),
      plannedForceN: request.plannedForceN ?? null,
      plannedExtensionMm: request.plannedExtensionMm ?? null,
    });
    const recording = this.#newRecording({
      pullId,
      specimenId: request.specimenId,
      specimenName: specimen.specimen.id,
      startedWallMs,
      startedUs,
      profile,
      plannedForceN: request.plannedForceN ?? null,
      plannedExtensionMm: request.plannedExtensionMm ?? null,
      state: newPull(rules),
      marks: [{ kind: 'record-begins', seq: 0, elapsedUs: 0, cause: 'program', words: 'recording begins' }],
      gaps: [],
      gapIsOpen: false,
      chunkCount: 0,
      openingCount: 0,
      zeros: this.#zeros,
      misfitCount: {},
    });
    recording.useSpool(this.#spool);
    recording.setZeros(
      this.#zeros,
      [...this.#zeros].map(([key, zero]) => ({ key, value: zeroText(zero), seq: 0 })),
    );
    recording.sourceOpened(monotonicUs() - startedUs, true);
    readout.beginPull();
    return pullId;
  }

  async act(act: PullAct): Promise<SessionState> {
    const recording = this.#recording;
    if (recording === null)
      throw new RequestRefused(
        'step-not-now',
        `No pull has been made ready; the session is "${this.state}" and nothing was changed.`,
      );
    const outcome = recording.act(act, monotonicUs() - recording.start.startedUs);
    if (!outcome.ok) throw new RequestRefused(outcome.refusal.code, outcome.refusal.sentence);
    recording.note({
      kind: act,
      elapsedUs: Math.max(0, monotonicUs() - recording.start.startedUs),
      wallMs: Date.now(),
      by: null,
      words: outcome.marks[0]?.words ?? act,
    });
    // What a person did is safe before it is confirmed.
    if (recording.isEnded) await this.#finish(recording);
    else await recording.committer.flush();
    return recording.state.state;
  }

  putAway(): SessionState {
    if (this.#recording === null || !this.#recording.isEnded)
      throw new RequestRefused(
        'step-not-now',
        `There is no ended pull to put away; the session is "${this.state}".`,
      );
    this.#recording = null;
    this.changed();
    return this.state;
  }

  async takeZero(keys: readonly string[], sendCommand: boolean): Promise<Record<string, number>> {
    const { state } = this;
    const readout = this.#readout;
    const reading = this.#reading;
    if (readout === null || (state !== 'listening' && state !== 'ready' && state !== 'ended'))
      throw new RequestRefused(
        'step-not-now',
        `Zero can be taken only while a readout is open and before a pull has started; the session is "${state}".`,
      );
    if (reading === null || !this.#isFresh(monotonicUs()))
      throw new RequestRefused(
        'no-fresh-reading',
        'There is no fresh reading to take as zero; see that the readout sends.',
      );
    const taken = new Map<string, Exact>();
    for (const key of keys) taken.set(key, this.#zeroOf(readout.profile, reading, key));
    if (sendCommand) await this.#sendZeroCommand(readout);
    this.#zeros = new Map([...this.#zeros, ...taken]);
    this.#converters = convertersOf(readout.profile, this.#zeros);
    const recording = this.#recording;
    if (recording !== null && !recording.isEnded) {
      const seq = recording.state.nextSeq;
      recording.setZeros(
        taken,
        [...taken].map(([key, zero]) => ({ key, value: zeroText(zero), seq })),
      );
      recording.addMark({
        kind: 'zero',
        seq,
        elapsedUs: Math.max(0, monotonicUs() - recording.start.startedUs),
        cause: 'person',
        words: `zero taken of ${keys.join(', ')}`,
      });
      await recording.committer.flush();
    }
    this.#basis++;
    this.changed();
    return Object.fromEntries([...this.#zeros].map(([key, zero]) => [key, zeroNumber(zero)]));
  }

  #zeroOf(profile: ReadoutProfile, reading: Reading, key: string): Exact {
    const index = profile.channels.findIndex((channel) => channel.field === key);
    const shown = reading.channels[index];
    const [converter] = convertersOf(
      { ...profile, channels: profile.channels.slice(index, index + 1) },
      new Map(),
    );
    if (index < 0 || shown === undefined || converter === undefined)
      throw new RequestRefused('no-such-channel', `The readout has no channel "${key}".`, 'keys');
    if (shown.status !== 'ok' || shown.mantissa === null)
      throw new RequestRefused(
        'no-fresh-reading',
        `The channel "${key}" shows no value now (${shown.status}), so it can't be taken as zero.`,
        'keys',
      );
    return converter.exact(shown.mantissa, shown.exponent, shown.unit);
  }

  async #sendZeroCommand(readout: Readout): Promise<void> {
    const { zeroCommand } = readout.profile;
    if (zeroCommand === undefined)
      throw new RequestRefused(
        'no-zero-command',
        'The profile names no zero command, so nothing was sent; press zero on the readout itself.',
        'sendCommand',
      );
    await readout.write(Buffer.from(zeroCommand, 'latin1'));
  }

  preview(): ReplyOf<'readout.preview'> {
    return this.#preview?.all(this.#bytesWithoutLine) ?? { lines: [], bytesWithoutLine: 0 };
  }

  /** Damaged archives only, and only because a person asked. */
  async setAside(): Promise<{ setAsideTo: string; path: string }> {
    if (this.#archiveFault?.code !== 'archive-damaged')
      throw new RequestRefused(
        'archive-sound',
        'The archive is not known to be damaged, so it is not set aside. Nothing was changed.',
      );
    if (this.#keeper !== null)
      throw new RequestRefused('archive-sound', 'The archive is open. Nothing was changed.');
    const setAsideTo = setArchiveAside(this.options.archivePath, Date.now());
    await this.openArchive();
    return { setAsideTo, path: this.options.archivePath };
  }

  // --- events ----------------------------------------------------------------------------------------------------

  listen(listener: RecorderListener): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  /** Something that the session shows has changed; told at the next turn. */
  changed(): void {
    if (this.#changed) return;
    this.#changed = true;
    setImmediate(() => {
      this.#changed = false;
      this.#emit('session', this.session());
    });
  }

  session(): Session {
    const nowUs = monotonicUs();
    const readout = this.#readout;
    return snapshotOf({
      revision: ++this.#revision,
      wallMs: Date.now(),
      state: this.state,
      readout:
        readout === null
          ? null
          : {
              source: readout.source,
              words: readout.words,
              profileName: readout.profile.name,
              channels: this.#converters.map((c) => c.info),
              link: readout.link,
              lineCount: this.#preview?.lineCount ?? 0,
              misfitCount: this.#misfits,
              readingsPerS: this.#readingsPerS(nowUs),
            },
      signal: {
        fresh: this.#isFresh(nowUs),
        lastReadingWallMs: this.#lastReadingWallMs,
        silentMs:
          readout === null ? 0 : Math.max(0, (nowUs - (this.#lastReadingUs ?? this.#openedUs)) / 1000),
      },
      basis: this.#basis,
      notices: this.notices.standing.slice(-100),
      archive: { path: this.options.archivePath, fault: this.#archiveFault, freeBytes: this.#freeBytes },
      recorder: {
        pid: process.pid,
        startedWallMs: this.startedWallMs,
        programVersion: this.options.programVersion,
      },
      reading: this.#reading,
      converters: this.#converters,
      recording: this.#recording,
      nowUs,
    });
  }

  bug(error: unknown): void {
    this.options.log(
      `fault in the program: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
    );
  }

  /** Commits what is here and lets go of everything; an open record stays open and is gone on with at the next start. */
  async end(): Promise<void> {
    if (this.#ticker !== null) clearInterval(this.#ticker);
    const recording = this.#recording;
    await Promise.race([
      (async () => {
        await recording?.committer.flush();
        recording?.committer.abandon();
        await this.#readout?.close();
      })(),
      new Promise((done) => setTimeout(done, END_MS_MAX).unref()),
    ]);
    this.#spool?.close();
    await this.#keeper?.close();
    this.#keeper = null;
  }

  // --- the readout -----------------------------------------------------------------------------------------------

  #useReadout(source: Source, profile: ReadoutProfile): void {
    this.#converters = convertersOf(profile, this.#zeros);
    this.#preview = new PreviewBuffer(profile);
    this.#parser = new OpeningParser(profile);
    this.#reading = null;
    this.#lastReadingUs = null;
    this.#lastReadingWallMs = null;
    this.#misfits = {};
    this.#recentReadings = [];
    this.#openedUs = monotonicUs();
    this.#basis++;
    const readout: Readout = new Readout(
      { source, profile },
      {
        onOpened: (atUs) => {
          if (this.#readout !== readout) return;
          this.#openedUs = atUs;
          this.#parser = new OpeningParser(profile);
          const mayBeMidLine = source.kind !== 'simulated' && source.kind !== 'replay';
          const recording = this.#openRecording;
          if (recording !== null) recording.sourceOpened(atUs - recording.start.startedUs, mayBeMidLine);
          else if (mayBeMidLine)
            this.#parser.push({ chunkSeq: 0, elapsedUs: atUs, bytes: new Uint8Array(0) });
          this.notices.over('signal-lost');
          this.changed();
        },
        onChunk: (bytes, arrivedUs) => {
          if (this.#readout === readout) this.#takeChunk(bytes, arrivedUs);
        },
        onEnded: ({ kind, sentence }, willReopen) => {
          if (this.#readout !== readout) return;
          this.#openRecording?.sourceEnded();
          if (kind === 'lost') this.#signalLost(sentence, willReopen);
          this.changed();
        },
        onRemark: (code, sentence) => {
          if (this.#readout === readout) this.#remark(code, sentence);
        },
      },
      this.options.makeTransport ?? makeTransport,
    );
    this.#readout = readout;
  }

  #forgetReadout(): void {
    this.#readout = null;
    this.#parser = null;
    this.#preview = null;
    this.#reading = null;
    this.#converters = [];
    for (const code of ['signal-lost', 'no-fresh-reading', 'bytes-without-lines', 'reopening'])
      this.notices.over(code);
  }

  get #openRecording(): Recording | null {
    return this.#recording !== null && !this.#recording.isEnded ? this.#recording : null;
  }

  #takeChunk(bytes: Uint8Array, arrivedUs: number): void {
    const recording = this.#openRecording;
    if (recording !== null) {
      recording.takeChunk(bytes, arrivedUs - recording.start.startedUs);
      for (const listener of this.#listeners) listener.onReadings();
      return;
    }
    for (const line of this.#parser?.push({ chunkSeq: 0, elapsedUs: arrivedUs, bytes }) ?? [])
      this.#takeLine(line);
  }

  #takeLine(line: ParsedLine): void {
    this.#preview?.push(line);
    if (line.outcome.kind === 'misfit') {
      const { reason } = line.outcome;
      this.#misfits = { ...this.#misfits, [reason]: (this.#misfits[reason] ?? 0) + 1 };
      return;
    }
    const nowUs = monotonicUs();
    this.#reading = line.outcome.reading;
    this.#lastReadingUs = nowUs;
    this.#lastReadingWallMs = Date.now();
    this.#recentReadings.push(nowUs);
    if (this.#recentReadings.length > 100_000) this.#recentReadings = this.#recentReadings.slice(-50_000);
    this.notices.over('no-fresh-reading');
    this.notices.over('bytes-without-lines');
  }

  #remark(code: string, sentence: string): void {
    const recording = this.#openRecording;
    this.notices.mention('note', code, sentence);
    recording?.note({
      kind: code,
      elapsedUs: Math.max(0, monotonicUs() - recording.start.startedUs),
      wallMs: Date.now(),
      by: null,
      words: sentence,
    });
  }

  #signalLost(sentence: string, willReopen: boolean): void {
    this.notices.raise(
      'alarm',
      'signal-lost',
      `The readout has gone: ${sentence} ${willReopen ? 'It is being looked for; everything before is safe, and the gap is marked.' : ''}`.trim(),
    );
    const recording = this.#openRecording;
    if (recording === null) return;
    recording.beginGap('signal-lost', recording.lastReadingUs ?? 0, sentence);
  }

  get #bytesWithoutLine(): number {
    return this.#openRecording?.bytesWithoutLine ?? this.#parser?.bytesWithoutLine ?? 0;
  }

  #isFresh(nowUs: number): boolean {
    const readout = this.#readout;
    if (readout === null || this.#lastReadingUs === null) return false;
    return (nowUs - this.#lastReadingUs) / 1000 < silenceLimitMs(readout.profile);
  }

  #readingsPerS(nowUs: number): number {
    return this.#recentReadings.filter((at) => nowUs - at < RATE_WINDOW_US).length;
  }

  // --- time ------------------------------------------------------------------------------------------------------

  #tick(): void {
    const nowUs = monotonicUs();
    const recording = this.#openRecording;
    recording?.tick(nowUs - recording.start.startedUs);
    this.#watchSilence(nowUs);
    if (this.#readout !== null) {
      const preview = this.#preview?.fresh(this.#bytesWithoutLine) ?? null;
      if (preview !== null) this.#emit('preview', preview);
      this.changed();
    }
  }

  #watchSilence(nowUs: number): void {
    const readout = this.#readout;
    if (readout === null || readout.link !== 'open') return;
    const silentMs = (nowUs - (this.#lastReadingUs ?? this.#openedUs)) / 1000;
    if (silentMs < silenceLimitMs(readout.profile)) return;
    if (this.#bytesWithoutLine > 0)
      this.notices.raise(
        'warning',
        'bytes-without-lines',
        'Bytes arrive from the readout but no lines; check the speed of the port and the line end in the profile. The bytes are kept.',
      );
    this.notices.raise(
      'alarm',
      'no-fresh-reading',
      'There is no fresh reading from the readout; see that it is switched on and sends. Recording stays open.',
    );
    const recording = this.#openRecording;
    if (recording !== null && recording.lastReadingUs !== null)
      recording.beginGap(
        'silence',
        recording.lastReadingUs,
        `no reading for ${Math.round(silentMs / 1000)} s`,
      );
  }

  async #lookAtFreeSpace(): Promise<void> {
    this.#freeBytes = (await this.#keeper?.call('freeBytes')) ?? null;
    if (this.#freeBytes !== null && this.#freeBytes < FREE_BYTES_WARNING)
      this.notices.raise(
        'warning',
        'disk-nearly-full',
        `Only ${Math.floor(this.#freeBytes / 1_048_576)} MiB are free on the archive's disk; free some space before the next pull.`,
      );
    else this.notices.over('disk-nearly-full');
  }

  // --- the record ------------------------------------------------------------------------------------------------

  #newRecording(start: RecordingStart): Recording {
    const keeper = this.archive;
    const committer = new Committer(
      keeper,
      { pullId: start.pullId, nextSeq: start.state.nextSeq },
      {
        onCommitted: (batch) =>
          recording.committed(batch.firstSeq + batch.readings.length, batch.chunks.at(-1)?.chunkSeq ?? null),
        onTrouble: (trouble) => this.#commitTrouble(trouble),
      },
    );
    const recording: Recording = new Recording(start, committer, {
      onLine: (line) => this.#takeLine(line),
      onStep: () => this.#stepped(recording),
      onSpoolTrouble: (error) => this.#spoolTrouble(error),
      onLoss: () =>
        this.notices.raise(
          'alarm',
          'readings-not-kept',
          "The archive can't be written to and memory is full: readings are being lost. Free space on its disk now.",
        ),
    });
    this.#recording = recording;
    return recording;
  }

  #stepped(recording: Recording): void {
    if (recording.isEnded && this.#unfinished !== recording && !recording.committer.isFinished)
      void this.#finish(recording);
    this.changed();
  }

  /** Writes the end of a record; where that fails it is tried again until it is done. */
  async #finish(recording: Recording): Promise<void> {
    this.#unfinished = recording;
    const { state } = recording;
    await recording.committer.finish({
      endedWallMs: Date.now(),
      durationUs: Math.max(state.lastElapsedUs, recording.marks.at(-1)?.elapsedUs ?? 0),
      peakForceN: state.peak?.forceN ?? null,
      misfitCount: recording.misfitCount,
    });
    if (recording.committer.isFinished) this.#finished(recording);
  }

  #finished(recording: Recording): void {
    if (this.#unfinished === recording) this.#unfinished = null;
    this.#spool?.releaseAll();
    void this.#keeper?.call('checkpoint').catch(() => undefined);
    void this.#lookAtFreeSpace().catch(() => undefined);
    this.changed();
  }

  #commitTrouble(trouble: Error | null): void {
    if (trouble === null) {
      this.notices.over('archive-not-written');
      this.notices.over('readings-not-kept');
      const unfinished = this.#unfinished;
      if (unfinished?.committer.isFinished === true) this.#finished(unfinished);
      return;
    }
    const fault = faultOf(trouble);
    if (fault === null) this.bug(trouble);
    this.notices.raise(
      'alarm',
      'archive-not-written',
      `${fault?.sentence ?? "The archive can't be written to because of a fault in the program."} Recording goes on in memory and in the spool; nothing is lost so far.`,
    );
  }

  #spoolTrouble(error: Error | null): void {
    if (error === null) {
      this.notices.over('spool-not-written');
      return;
    }
    this.options.log(`spool: ${error.message}`);
    this.notices.raise(
      'alarm',
      'spool-not-written',
      "The spool beside the archive can't be written to; recording goes on, but a crash now would lose up to a tenth of a second. Free space on the disk.",
    );
  }

  #emit<N extends EventName>(name: N, event: EventOf<N>): void {
    for (const listener of this.#listeners) listener.onEvent(name, event);
  }
}

function sourceOf(request: RequestOf<'pull.ready'>): { source: Source; profile: ReadoutProfile } {
  if (request.source === undefined || request.profile === undefined)
    throw new RequestRefused(
      'no-readout',
      'No readout is open; choose a port and a profile first.',
      'source',
    );
  return { source: request.source, profile: request.profile };
}

/** A stop waits no longer than this for disk and port; what is committed is safe anyway. */
const END_MS_MAX = 1_500;

const NOT_OPENED: Fault = {
  code: 'archive-not-open',
  sentence: 'The archive is not open yet; what was kept before is safe.',
};
