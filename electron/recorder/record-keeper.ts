/** The one record that may be open: begun, gone on with after a crash, stepped, ended. */
import { ArchiveFault } from '../../core/archive/archive-fault.ts';
import type { OpenRecord } from '../../core/archive/open-record.ts';
import type { RequestOf } from '../../core/contract/index.ts';
import type { SessionState } from '../../core/contract/session.ts';
import { LATE_TICKS_MAX } from '../../core/limits.ts';
import type { PullInstruments } from '../../core/instruments/pull-instruments.ts';
import { joinedAgeMaxMs } from '../../core/pull/joined-channels.ts';
import { zeroText } from '../../core/pull/channel-value.ts';
import { newPull, toldPeak } from '../../core/pull/pull-state.ts';
import { waitsToBePutAway } from '../../core/pull/record-end.ts';
import type { PullAct } from '../../core/pull/take-act.ts';
import type { Exact } from '../../core/quantity/exact.ts';
import { monotonicUs } from '../../drivers/transport.ts';
import type { ArchiveHolder } from './archive-holder.ts';
import { bootName } from './boot.ts';
import { Committer } from './committer.ts';
import { beforeStart, dayOf, noteConcerns, refuseUnknown, withAnswer } from './instruments-of-pull.ts';
import type { LiveReadout } from './live-readout.ts';
import type { NoticeBoard } from './notice-board.ts';
import { type RangeLimit, rangeLimits, rangeSentence } from './range-watch.ts';
import type { RecorderLog } from './recorder-options.ts';
import { Recording } from './recording.ts';
import type { RecordingStart } from './recording-start.ts';
import { RequestRefused, faultOf } from './request-refused.ts';
import type { SpoolRecord } from './spool-record.ts';
import { utcOffsetMinutes } from './utc-offset.ts';

/** The instruments of a record: the one that gives the load, and perhaps a second. */
export type Lives = readonly [LiveReadout] | readonly [LiveReadout, LiveReadout];

const RECOVERED = 'recorder-recovered';
const RANGE_NOTICES = { force: 'load-beyond-range', extension: 'extension-beyond-range' } as const;

export interface RecordKeeperOptions {
  readonly archive: ArchiveHolder;
  readonly notices: NoticeBoard;
  readonly onChanged: () => void;
  readonly onBug: (error: unknown) => void;
  readonly log: RecorderLog;
  /** Raw bytes held while the archive can't be written to; usually HELD_BYTES_MAX. */
  readonly heldBytesMax?: number | undefined;
}

export class RecordKeeper {
  readonly #its: RecordKeeperOptions;
  #recording: Recording | null = null;
  /** An ended record whose end is not in the archive yet. */
  #unfinished: Recording | null = null;
  /** Ticks in a row at which commits were late. */
  #lateTicks = 0;

  constructor(options: RecordKeeperOptions) {
    this.#its = options;
  }

  /** The record that is shown: open, or ended and not put away. As far as bytes have come. */
  get recording(): Recording | null {
    this.#recording?.catchUp();
    return this.#recording;
  }
  /** The record that takes bytes now; asked for with every chunk that comes, so what has come may not be parsed yet. */
  get open(): Recording | null {
    return this.#recording !== null && !this.#recording.isEnded ? this.#recording : null;
  }
  /** The record of a pull that this recorder still holds: shown, or put away while its end is being written. */
  of(pullId: number): Recording | null {
    this.#recording?.catchUp();
    return [this.#recording, this.#unfinished].find((held) => held?.start.pullId === pullId) ?? null;
  }
  /** A record is open, or its end is still being written. */
  get isBusy(): boolean {
    return this.open !== null || this.#unfinished !== null;
  }

  /** Begins a record from an open readout; its number. A readout opened for it is recorded from its first byte on. */
  async begin(lives: Lives, request: RequestOf<'pull.ready'>): Promise<number> {
    const { archive } = this.#its;
    const { keeper, spool } = archive;
    if (spool === null)
      throw new RequestRefused(
        'archive-disk-full',
        'There is no room beside the archive for the spool, so a recording would not be safe; free some space on its disk and try again.',
      );
    const specimen = await keeper.call('getSpecimen', request.specimenId);
    const [first, other] = lives;
    const { source, profile, readout } = first;
    const zeros = new Map(lives.flatMap((live) => [...live.zeros]));
    const second =
      other === undefined
        ? null
        : {
            source: other.source,
            sourceWords: other.readout.words,
            profile: other.profile,
            ageMaxMs: joinedAgeMaxMs(other.profile),
          };
    const held = (first.held?.since ?? null) === null ? null : first.held;
    const rules = {
      trigger: request.trigger,
      breakRule: request.breakRule,
      tailS: request.tailS,
      heldOpenS: request.heldOpenS ?? null,
    };
    const planned = {
      plannedForceN: request.plannedForceN ?? null,
      plannedExtensionMm: request.plannedExtensionMm ?? null,
    };
    const startedUs = held?.since?.us ?? monotonicUs();
    const startedWallMs = held?.since?.wallMs ?? Date.now();
    const before = await beforeStart(keeper, {
      instruments: request.instruments ?? [],
      source,
      profile,
      wallMs: startedWallMs,
    });
    refuseUnknown(before, request.known);
    const instruments = withAnswer(before, request.known);
    const limits = await this.#rangeLimits(instruments, startedWallMs);
    const pullId = await keeper.call('beginPull', {
      specimenId: request.specimenId,
      profile,
      source,
      sourceWords: readout.words,
      rules,
      operator: request.operator ?? null,
      startedWallMs,
      startedUtcOffsetMinutes: utcOffsetMinutes(startedWallMs),
      startedMonotonicUs: startedUs,
      boot: bootName(),
      instruments,
      ...(second === null ? {} : { second }),
      ...planned,
    });
    const recording = this.#newRecording(lives, {
      pullId,
      specimenId: request.specimenId,
      specimenName: specimen.specimen.id,
      startedWallMs,
      startedUs,
      profile,
      second,
      ...planned,
      state: newPull(rules),
      marks: [{ kind: 'record-begins', seq: 0, elapsedUs: 0, cause: 'program', words: 'recording begins' }],
      gaps: [],
      chunkCount: 0,
      openingCounts: lives.map(() => 0),
      zeros,
      rangeLimits: limits,
      isRecovered: false,
    });
    recording.useSpool(spool);
    recording.setZeros(zeros, zerosToKeep(zeros, 0));
    if (held === null)
      for (const { instrument } of lives) recording.sourceOpened(instrument, monotonicUs() - startedUs, true);
    else held.handTo(recording);
    for (const live of lives) live.endHolding();
    for (const live of lives) live.readout.beginPull();
    noteConcerns(recording, instruments, request.operator ?? null);
    return pullId;
  }

  /** Goes on with a record that was open when its recorder ended. Rejects with an ArchiveFault where it can't be written to. */
  async recover(lives: Lives, open: OpenRecord, spooled: readonly SpoolRecord[]): Promise<void> {
    const { pull } = open;
    const sameBoot = open.boot === bootName();
    const startedUs = sameBoot
      ? pull.startedMonotonicUs
      : monotonicUs() - (Date.now() - pull.startedWallMs) * 1000;
    const recording = this.#newRecording(lives, {
      pullId: pull.pullId,
      specimenId: pull.specimenId,
      specimenName: pull.specimenName,
      startedWallMs: pull.startedWallMs,
      startedUs,
      profile: pull.profile,
      second: pull.second,
      plannedForceN: open.plannedForceN,
      plannedExtensionMm: open.plannedExtensionMm,
      state: open.state,
      marks: pull.marks,
      gaps: pull.gaps,
      chunkCount: pull.chunkCount,
      openingCounts: open.openingCounts,
      zeros: new Map(lives.flatMap((live) => [...live.zeros])),
      rangeLimits: await this.#rangeLimits(pull.instruments, pull.startedWallMs),
      isRecovered: true,
    });
    recording.primeParser(open.tail);
    recording.takeRecovered(spooled);
    for (const live of lives) {
      recording.sourceEnded(live.instrument);
      live.forgetFreshness();
    }
    const lastUs = spooled.at(-1)?.elapsedUs ?? open.lastChunkElapsedUs;
    const clock = sameBoot
      ? ''
      : '; the computer was started anew, so times since then rest on the wall clock';
    recording.addMark({
      kind: 'recovered',
      seq: recording.state.nextSeq,
      elapsedUs: Math.max(lastUs, recording.nowUs()),
      cause: 'program',
      words: `the recorder ended unexpectedly and goes on; ${spooled.length} chunks were taken from the spool${clock}`,
    });
    const words = 'the recorder ended unexpectedly and was started again';
    // Each instrument has a gap of its own: the next reading of one does not end that of the other.
    for (const { instrument } of lives) recording.beginGap('recorder-restarted', lastUs, words, instrument);
    await recording.committer.flush();
    if (recording.committer.isTroubled) {
      this.drop();
      throw new ArchiveFault(
        'archive-disk-full',
        "The archive can't be written to, so the open record can't be taken up again; what was kept is safe. Free some space on its disk and try again.",
      );
    }
    this.#its.notices.raise('warning', RECOVERED, RECOVERED_SENTENCE);
  }

  /** A person's act. What it does is safe in the archive, or held behind a disk that is full, before this settles. */
  async act(act: PullAct, state: SessionState, words?: string): Promise<SessionState> {
    const recording = this.#recording;
    if (recording === null)
      throw new RequestRefused(
        'step-not-now',
        `No pull has been made ready; the session is "${state}" and nothing was changed.`,
      );
    const outcome = recording.act(act, words);
    if (!outcome.ok) throw new RequestRefused(outcome.refusal.code, outcome.refusal.sentence);
    recording.noteNow(act, outcome.marks[0]?.words ?? act);
    if (recording.isEnded) await this.#finish(recording);
    else await recording.committer.flush();
    return recording.state.state;
  }

  /** A record that is held open after its break or stop is closed; any other is left as it is. */
  async closeHeldOpen(words: string): Promise<void> {
    const { open } = this;
    open?.catchUp();
    if (open !== null && waitsToBePutAway(open.state)) await this.act('close', open.state.state, words);
  }

  /** New zeros into the open record, marked. */
  async setZeros(zeros: ReadonlyMap<string, Exact>): Promise<void> {
    const recording = this.open;
    if (recording === null) return;
    recording.catchUp();
    const seq = recording.state.nextSeq;
    recording.setZeros(zeros, zerosToKeep(zeros, seq));
    recording.addMark({
      kind: 'zero',
      seq,
      elapsedUs: recording.nowUs(),
      cause: 'person',
      words: `zero taken of ${[...zeros.keys()].join(', ')}`,
    });
    await recording.committer.flush();
  }

  /** The ended record is no longer shown. */
  putAway(): void {
    if (this.open !== null) return;
    this.#recording = null;
    this.#endNoticesOfRecord();
  }

  /** They stand as long as the record is shown, so that somebody who comes later reads them too. */
  #endNoticesOfRecord(): void {
    for (const code of [...Object.values(RANGE_NOTICES), RECOVERED]) this.#its.notices.over(code);
  }

  /** As the register has them; an instrument that has none is not watched. */
  async #rangeLimits(instruments: PullInstruments | null, startedWallMs: number): Promise<RangeLimit[]> {
    const ids = new Set((instruments?.used ?? []).map(({ instrumentId }) => instrumentId));
    if (ids.size === 0) return [];
    const register = await this.#its.archive.keeper.call('listInstruments', dayOf(startedWallMs));
    return rangeLimits(register.filter(({ instrumentId }) => ids.has(instrumentId)).map(({ form }) => form));
  }

  /** The archive could not be opened after all: what was taken up is let go of, and stays in archive and spool. */
  drop(): void {
    this.#recording?.committer.abandon();
    this.#recording = null;
  }

  /** Commits what is here; an open record stays open and is gone on with at the next start. */
  async letGo(): Promise<void> {
    const recordings = new Set([this.#recording, this.#unfinished]);
    for (const recording of recordings) {
      recording?.catchUp();
      await recording?.committer.flush();
      recording?.committer.abandon();
    }
  }

  #newRecording(lives: Lives, start: RecordingStart): Recording {
    const { archive, notices, log } = this.#its;
    const committer = new Committer(
      archive.keeper,
      { pullId: start.pullId, nextSeq: start.state.nextSeq, isRecovered: start.isRecovered },
      {
        onCommitted: (batch) =>
          recording.committed(batch.firstSeq + batch.readings.length, batch.chunks.at(-1)?.chunkSeq ?? null),
        onTrouble: (trouble) => this.#commitTrouble(trouble),
      },
    );
    const recording: Recording = new Recording(
      start,
      committer,
      {
        onLine: (line, instrument) => lives[instrument]?.takeLine(line),
        onStep: () => this.#stepped(recording),
        onSpoolTrouble: (error) => {
          if (error === null) notices.over('spool-not-written');
          else {
            log(`spool: ${error.message}`, 'by-notice');
            notices.raise('alarm', 'spool-not-written', SPOOL_TROUBLE);
          }
        },
        onLoss: (isOver) => {
          if (isOver) notices.over('readings-not-kept');
          else notices.raise('alarm', 'readings-not-kept', LOSS);
        },
        onRangePassed: (limit) => notices.raise('alarm', RANGE_NOTICES[limit.quantity], rangeSentence(limit)),
      },
      this.#its.heldBytesMax,
    );
    // Told of the record before.
    this.#endNoticesOfRecord();
    this.#recording = recording;
    return recording;
  }

  /**
   * At every tick. Told while the archive's disk does not take in time what a power cut may cost; one that takes nothing at all is told
   * as that.
   */
  lookAtCommits(): void {
    const { notices } = this.#its;
    const committer = (this.open ?? this.#unfinished)?.committer;
    const isLate = committer !== undefined && committer.isLate && !committer.isTroubled;
    this.#lateTicks = isLate ? this.#lateTicks + 1 : 0;
    if (!isLate) notices.over('archive-disk-slow');
    else if (this.#lateTicks >= LATE_TICKS_MAX) notices.raise('alarm', 'archive-disk-slow', SLOW_DISK);
  }

  #stepped(recording: Recording): void {
    if (recording.isEnded && this.#unfinished !== recording && !recording.committer.isFinished)
      this.#finish(recording).catch(this.#its.onBug);
    this.#its.onChanged();
  }

  /** Writes the end of a record; where that fails it is tried again until it is done. */
  async #finish(recording: Recording): Promise<void> {
    if (recording.committer.isFinished) return;
    this.#unfinished = recording;
    const { state } = recording;
    const isDone = await recording.committer.finish({
      endedWallMs: Date.now(),
      durationUs: Math.max(state.lastElapsedUs, recording.marks.at(-1)?.elapsedUs ?? 0),
      peakForceN: toldPeak(state)?.forceN ?? null,
      misfitCount: recording.misfitCount,
      skew: recording.skew,
    });
    if (isDone) this.#finished(recording);
  }

  #finished(recording: Recording): void {
    if (this.#unfinished !== recording) return;
    this.#unfinished = null;
    this.#its.notices.over('readings-not-kept');
    // Its end is safe already; a checkpoint that fails is made by the next one.
    this.#its.archive.settle().catch((error: unknown) => {
      if (faultOf(error) === null) this.#its.onBug(error);
    });
    this.#its.onChanged();
  }

  #commitTrouble(trouble: Error | null): void {
    const { notices, onBug } = this.#its;
    if (trouble === null) {
      notices.over('archive-not-written');
      notices.over('readings-not-kept');
      if (this.#unfinished?.committer.isFinished === true) this.#finished(this.#unfinished);
      return;
    }
    const fault = faultOf(trouble);
    if (fault === null) onBug(trouble);
    const what = fault?.sentence ?? "The archive can't be written to because of a fault in the program.";
    notices.raise(
      'alarm',
      'archive-not-written',
      `${what} Recording goes on in memory and in the spool; nothing is lost so far.`,
    );
  }
}

function zerosToKeep(
  zeros: ReadonlyMap<string, Exact>,
  seq: number,
): { readonly key: string; readonly value: string; readonly seq: number }[] {
  return [...zeros].map(([key, zero]) => ({ key, value: zeroText(zero), seq }));
}

const RECOVERED_SENTENCE =
  'The recorder ended unexpectedly and is back: it goes on with the same record, and what it had kept is safe. What the readout sent meanwhile may be missing; that gap is marked in the record.';
const SPOOL_TROUBLE =
  "The spool beside the archive can't be written to; recording goes on, but a crash now would lose up to a tenth of a second. Free space on the disk.";
const SLOW_DISK =
  "The archive's disk is slow: what has come is on it later than within a tenth of a second, so a power cut now would cost more than that. Nothing is lost so far; see what else uses this disk, or keep the archive on a faster one.";
const LOSS =
  "The archive can't be written to and memory is full: readings are being lost. Free space on its disk now.";
