/**
 * A bridge with nothing behind it, for developing the page and for its tests: it keeps specimens and pulls in
 * memory and streams a made-up pull. It checks nothing that the recorder checks and is not part of the program.
 */
import type {
  Bridge,
  PageEventName,
  PageEventOf,
  PageReplyOf,
  PageRequestName,
  PageRequestOf,
} from '../../../core/contract/bridge.ts';
import type { Answer, Fault } from '../../../core/contract/index.ts';
import type { KeptPull } from '../../../core/contract/pull-requests.ts';
import type { ReadingColumns } from '../../../core/contract/reading.ts';
import { readoutProfile } from '../../../core/contract/readout-profile.ts';
import type { Gap, KeptFractureNote, Mark, MarkKind } from '../../../core/contract/record.ts';
import type { Session, SessionState } from '../../../core/contract/session.ts';
import type { KeptSpecimen } from '../../../core/contract/specimen-requests.ts';
import { evaluate } from '../../../core/results/evaluate.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import { specimenFile } from '../../../core/specimen/specimen-file.ts';
import mildSteel from '../../../fixtures/scenarios/mild-steel-yield-point.json' with { type: 'json' };
import simulatedFrameSi from '../../../fixtures/readouts/simulated-frame-si.json' with { type: 'json' };
import { noise, syntheticPoint } from './synthetic-pull.ts';

export interface MadeUpOptions {
  /** Readings a second. */
  readonly rateHz: number;
  /** How many times faster than true pace the made-up frame pulls. */
  readonly pace: number;
  /** Seconds of a pull at which the readout falls silent, and for how long. */
  readonly silence?: { readonly atS: number; readonly forS: number };
}

interface MadeUpPull {
  readonly pullId: number;
  readonly request: PageRequestOf<'pull.ready'>;
  readonly specimen: KeptSpecimen;
  readonly startedWallMs: number;
  readonly beganS: number;
  timeS: number[];
  forceN: number[];
  extensionMm: number[];
  triggerSeq: number | null;
  breakSeq: number | null;
  state: SessionState;
  brokeAtS: number;
  marks: Mark[];
  gaps: Gap[];
  notes: KeptFractureNote[];
}

type Handlers = { [N in PageRequestName]?: (payload: PageRequestOf<N>) => PageReplyOf<N> };

const EVENT_PERIOD_MS = 33;
const SESSION_PERIOD_MS = 100;

export class MadeUpBridge implements Bridge {
  readonly platform = 'linux' as const;
  readonly #options: MadeUpOptions;
  readonly #listeners = new Map<string, Set<(event: never) => void>>();
  readonly #specimens: KeptSpecimen[] = [];
  readonly #pulls: MadeUpPull[] = [];
  #open: { readonly sinceMs: number; readonly source: Session['readout'] } | null = null;
  #state: SessionState = 'closed';
  #current: MadeUpPull | null = null;
  #revision = 0;
  #sample = 0;
  #line = 0;
  #lastReadingMs = 0;
  #sentMs = 0;
  #zero = 0;

  constructor(options: MadeUpOptions) {
    this.#options = options;
  }

  /** Lets made-up time pass; a test calls it. */
  start(): () => void {
    const timer = setInterval(() => this.#tick(performance.now()), EVENT_PERIOD_MS);
    return () => clearInterval(timer);
  }

  readonly request = <N extends PageRequestName>(
    name: N,
    payload: PageRequestOf<N>,
  ): Promise<Answer<PageReplyOf<N>>> => {
    const handler: ((p: PageRequestOf<N>) => PageReplyOf<N>) | undefined = this.#handlers[name];
    if (handler === undefined) return Promise.resolve(refuse(`"${name}" is not part of the made-up bridge.`));
    try {
      return Promise.resolve({ ok: true, value: handler(payload) });
    } catch (error) {
      return Promise.resolve(refuse(error instanceof Error ? error.message : String(error)));
    }
  };

  readonly on = <N extends PageEventName>(
    name: N,
    callback: (event: PageEventOf<N>) => void,
  ): (() => void) => {
    const set = this.#listeners.get(name) ?? new Set();
    this.#listeners.set(name, set);
    set.add(callback);
    return () => set.delete(callback);
  };

  #emit<N extends PageEventName>(name: N, event: PageEventOf<N>): void {
    for (const listener of this.#listeners.get(name) ?? []) (listener as (e: PageEventOf<N>) => void)(event);
  }

  #tick(nowMs: number): void {
    if (this.#open === null) return;
    const openS = ((nowMs - this.#open.sinceMs) / 1000) * this.#options.pace;
    const from = this.#sample;
    this.#sample = Math.floor(openS * this.#options.rateHz);
    const silence = this.#options.silence;
    const silent = (s: number) =>
      silence !== undefined &&
      this.#current !== null &&
      s - this.#pullBegan() > silence.atS &&
      s - this.#pullBegan() < silence.atS + silence.forS;
    const fresh: number[] = [];
    for (let i = from; i < this.#sample; i++) if (!silent(i / this.#options.rateHz)) fresh.push(i);
    if (fresh.length > 0) this.#lastReadingMs = nowMs;
    this.#preview(fresh.slice(-3));
    if (this.#current !== null && this.#state !== 'ended') this.#record(this.#current, fresh);
    if (nowMs - this.#sentMs >= SESSION_PERIOD_MS) this.#sendSession();
  }

  #pullBegan(): number {
    return this.#current?.beganS ?? 0;
  }

  #point(sample: number): { forceN: number; extensionMm: number } {
    const began = this.#current?.beganS ?? Infinity;
    const point = syntheticPoint(sample / this.#options.rateHz - began);
    return {
      forceN: Math.round(point.forceN + 6 * noise(sample, 1) + 4 - this.#zero),
      extensionMm: Math.round((point.extensionMm + 0.0004 * noise(sample, 2)) * 1e4) / 1e4,
    };
  }

  #preview(samples: readonly number[]): void {
    const lines = samples.map((sample) => {
      const point = this.#point(sample);
      const time = (sample / this.#options.rateHz).toFixed(3);
      const ext = point.extensionMm.toFixed(4);
      const bad = this.#line === 7;
      return {
        line: this.#line++,
        text: bad ? `,${time},${String(point.forceN)}` : `G,${time},${String(point.forceN)},${ext},0.000`,
        misfit: bad ? 'before-sync' : null,
        values: bad
          ? []
          : [
              { key: 'time', status: 'ok' as const, shownText: `${time} s` },
              { key: 'load', status: 'ok' as const, shownText: `${String(point.forceN)} N` },
              { key: 'extension', status: 'ok' as const, shownText: `${ext} mm` },
            ],
      };
    });
    if (lines.length > 0) this.#emit('preview', { lines, bytesWithoutLine: 0 });
  }

  #record(pull: MadeUpPull, samples: readonly number[]): void {
    const first = pull.timeS.length;
    for (const sample of samples) {
      const point = this.#point(sample);
      const s = sample / this.#options.rateHz - pull.beganS;
      const before = pull.timeS.at(-1);
      if (before !== undefined && s - before > 0.5)
        pull.gaps.push({
          gapId: pull.gaps.length + 1,
          cause: 'silence',
          beforeSeq: pull.timeS.length,
          fromElapsedUs: Math.round(before * 1e6),
          toElapsedUs: Math.round(s * 1e6),
          words: 'nothing came',
        });
      pull.timeS.push(s);
      pull.forceN.push(point.forceN);
      pull.extensionMm.push(point.extensionMm);
      this.#rules(pull, point.forceN, s);
    }
    if (pull.timeS.length > first)
      this.#emit('readings', {
        pullId: pull.pullId,
        basis: 1,
        missedFromSeq: null,
        columns: columnsOf(pull, first, pull.timeS.length - first),
      });
  }

  #rules(pull: MadeUpPull, forceN: number, s: number): void {
    const { trigger, breakRule, tailS } = pull.request;
    if (this.#state === 'ready' && trigger.kind === 'force' && forceN >= trigger.thresholdN) {
      pull.triggerSeq = pull.timeS.length - 1;
      this.#mark(pull, 'trigger', 'rule', `load at or above ${String(trigger.thresholdN)} N`);
      this.#go(pull, 'pulling');
    }
    const peak = Math.max(...pull.forceN.slice(-4_000));
    if (
      this.#state === 'pulling' &&
      breakRule.kind === 'force-drop' &&
      peak > 5_000 &&
      forceN <= peak * breakRule.fractionOfPeak
    ) {
      pull.breakSeq = pull.timeS.length - 1;
      pull.brokeAtS = s;
      this.#mark(
        pull,
        'break',
        'rule',
        `load fell to ${String(breakRule.fractionOfPeak * 100)} % of the peak`,
      );
      this.#go(pull, 'broken');
    }
    if (this.#state === 'broken' && typeof tailS === 'number' && s - pull.brokeAtS > tailS) this.#end(pull);
  }

  #mark(pull: MadeUpPull, kind: MarkKind, cause: Mark['cause'], words: string): void {
    const seq = Math.max(0, pull.timeS.length - 1);
    pull.marks.push({ kind, seq, elapsedUs: Math.round((pull.timeS[seq] ?? 0) * 1e6), cause, words });
  }

  #go(pull: MadeUpPull, state: SessionState): void {
    this.#state = state;
    pull.state = state;
    this.#sendSession();
  }

  #end(pull: MadeUpPull): void {
    this.#mark(pull, 'record-ends', 'program', 'the record is closed');
    this.#go(pull, 'ended');
  }

  #sendSession(): void {
    this.#sentMs = performance.now();
    this.#emit('session', this.#session());
  }

  #session(): Session {
    const pull = this.#current;
    const now = performance.now();
    const last = this.#point(this.#sample);
    const length = pull?.timeS.length ?? 0;
    const peakSeq = pull === null ? -1 : indexOfLargest(pull.forceN);
    const back = Math.max(0, length - this.#options.rateHz);
    const lastS = pull?.timeS[length - 1] ?? 0;
    const spanS = lastS - (pull?.timeS[back] ?? 0);
    const rate = (column: readonly number[] | undefined) =>
      spanS > 0 ? ((column?.[length - 1] ?? 0) - (column?.[back] ?? 0)) / spanS : null;
    return {
      revision: this.#revision++,
      wallMs: Date.now(),
      state: this.#state,
      readout: this.#open?.source ?? null,
      second: null,
      signal: {
        fresh: this.#open !== null && now - this.#lastReadingMs < 1_000,
        lastReadingWallMs:
          this.#lastReadingMs === 0 ? null : Date.now() - Math.round(now - this.#lastReadingMs),
        silentMs: this.#lastReadingMs === 0 ? 0 : now - this.#lastReadingMs,
      },
      live:
        this.#open === null
          ? []
          : [
              {
                key: 'load',
                quantity: 'force',
                coreUnit: 'N',
                value: last.forceN,
                status: 'ok',
                shownText: `${String(last.forceN)} N`,
                resolution: null,
              },
              {
                key: 'extension',
                quantity: 'extension',
                coreUnit: 'mm',
                value: last.extensionMm,
                status: 'ok',
                shownText: `${last.extensionMm.toFixed(4)} mm`,
                resolution: 0.0001,
              },
            ],
      basis: 1,
      pull:
        pull === null
          ? null
          : {
              pullId: pull.pullId,
              skew: null,
              specimenId: pull.specimen.specimenId,
              specimenName: pull.specimen.specimen.id,
              startedWallMs: pull.startedWallMs,
              trigger: pull.request.trigger,
              breakRule: pull.request.breakRule,
              tailS: pull.request.tailS,
              heldOpenS: pull.request.heldOpenS ?? null,
              tailEndsInS: null,
              loadIsBack: false,
              recordS: lastS,
              pullS: pull.triggerSeq === null ? null : lastS - (pull.timeS[pull.triggerSeq] ?? 0),
              readingCount: length,
              savedThroughSeq: length,
              triggerSeq: pull.triggerSeq,
              breakSeq: pull.breakSeq,
              closesInS:
                this.#state === 'broken' && pull.request.tailS !== null
                  ? Math.max(0, pull.request.tailS - (lastS - pull.brokeAtS))
                  : null,
              peak:
                peakSeq < 0
                  ? null
                  : { forceN: pull.forceN[peakSeq] ?? 0, seq: peakSeq, recordS: pull.timeS[peakSeq] ?? 0 },
              forceRateNPerS: rate(pull.forceN),
              extensionRateMmPerS: rate(pull.extensionMm),
              marks: pull.marks,
              gaps: pull.gaps,
              plannedForceN: pull.request.plannedForceN ?? null,
              plannedExtensionMm: pull.request.plannedExtensionMm ?? null,
            },
      notices: [],
      archive: { path: '/home/shop/.local/share/gaugemark/archive.gaugemark', fault: null, freeBytes: 5e10 },
      recorder: { pid: 4711, startedWallMs: 1, programVersion: '0.1.0' },
    };
  }

  #need(): MadeUpPull {
    if (this.#current === null) throw new Error('There is no pull.');
    return this.#current;
  }

  #kept(pullId: number): MadeUpPull {
    const found = this.#pulls.find((p) => p.pullId === pullId);
    if (found === undefined) throw new Error(`The archive has no pull ${String(pullId)}.`);
    return found;
  }

  #step(kind: MarkKind, state: SessionState) {
    const pull = this.#need();
    this.#mark(pull, kind, 'person', `by hand: ${kind}`);
    if (kind === 'trigger') pull.triggerSeq = pull.timeS.length - 1;
    if (kind === 'break') {
      pull.breakSeq = pull.timeS.length - 1;
      pull.brokeAtS = pull.timeS.at(-1) ?? 0;
    }
    if (kind === 'undo-break') pull.breakSeq = null;
    this.#go(pull, state);
    return { state };
  }

  readonly #handlers: Handlers = {
    'session.get': () => this.#session(),
    'port.list': () => ({
      ports: [
        {
          path: '/dev/ttyUSB0',
          identity: { manufacturer: 'FTDI', vendorId: '0403', productId: '6001', serialNumber: 'A10KZP45' },
        },
        { path: '/dev/ttyACM0', identity: { vendorId: '2341', productId: '0043' } },
      ],
      note: null,
    }),
    'readout.scenarios': () => ({
      scenarios: [
        {
          name: mildSteel.name,
          title: mildSteel.title,
          notes: mildSteel.notes,
          specimen: specimenFile.parse(mildSteel.specimen),
          profileName: mildSteel.profile,
        },
      ],
    }),
    'readout.profiles': () => ({
      profiles: [{ profile: readoutProfile.parse(simulatedFrameSi), builtIn: true, savedWallMs: null }],
    }),
    'readout.open': ({ source, profile }) => {
      if (source.kind === 'serial')
        throw new Error(
          `There is no port ${source.path}. Plug the adapter in, look again, or choose another.`,
        );
      const words = 'simulated frame, mild steel plate with a yield plateau';
      this.#sample = 0;
      this.#open = {
        sinceMs: performance.now(),
        source: {
          source: { kind: 'simulated', scenario: 'mild-steel-yield-point' },
          words,
          profileName: profile.name,
          profileId: profile.name,
          channels: [
            { key: 'load', quantity: 'force', unit: 'N', coreUnit: 'N' },
            { key: 'extension', quantity: 'extension', unit: 'mm', coreUnit: 'mm' },
          ],
          link: 'open',
          lineCount: 0,
          misfitCount: { 'before-sync': 1 },
          readingsPerS: this.#options.rateHz,
        },
      };
      this.#state = 'listening';
      this.#sendSession();
      return { words };
    },
    'readout.close': () => {
      this.#open = null;
      this.#state = 'closed';
      this.#current = null;
      this.#sendSession();
      return {};
    },
    'specimen.save': ({ specimen, supersedes, reason }) => {
      const specimenId = this.#specimens.length + 1;
      this.#specimens.push({
        specimenId,
        specimen,
        savedWallMs: Date.now(),
        by: null,
        supersedes: supersedes ?? null,
        supersededBy: null,
        reason: reason ?? null,
      });
      return { specimenId, evaluations: [] };
    },
    'specimen.pulls': ({ specimenId }) => ({
      pulls: this.#pulls
        .filter(({ specimen }) => specimen.specimenId === specimenId)
        .map(({ pullId }) => ({ pullId, standing: null })),
    }),
    'specimen.list': () => ({
      items: [...this.#specimens].reverse().map((kept) => ({
        ...kept,
        pulls: this.#pulls.filter(({ specimen }) => specimen.specimenId === kept.specimenId).length,
        voidPulls: 0,
      })),
      nextCursor: null,
    }),
    'pull.ready': (request) => {
      const specimen = this.#specimens.find((s) => s.specimenId === request.specimenId);
      if (specimen === undefined) throw new Error('That specimen is not kept.');
      const pull: MadeUpPull = {
        pullId: this.#pulls.length + 1,
        request,
        specimen,
        startedWallMs: Date.now(),
        beganS: this.#sample / this.#options.rateHz,
        timeS: [],
        forceN: [],
        extensionMm: [],
        triggerSeq: null,
        breakSeq: null,
        state: 'ready',
        brokeAtS: 0,
        marks: [],
        gaps: [],
        notes: [],
      };
      this.#pulls.push(pull);
      this.#current = pull;
      this.#mark(pull, 'record-begins', 'program', 'the record begins');
      this.#go(pull, 'ready');
      return { pullId: pull.pullId, state: 'ready' };
    },
    'pull.start': () => this.#step('trigger', 'pulling'),
    'pull.mark-break': () => this.#step('break', 'broken'),
    'pull.undo-break': () => this.#step('undo-break', 'pulling'),
    'pull.stop': () => this.#step('stop', 'stopped'),
    'pull.continue': () => this.#step('continue', 'pulling'),
    'pull.close': () => this.#step('record-ends', 'ended'),
    'pull.put-away': () => {
      this.#current = null;
      this.#state = 'listening';
      this.#sendSession();
      return { state: 'listening' };
    },
    'pull.zero': () => {
      this.#zero = 4;
      return { zeros: { load: 4 }, moved: {}, basis: 1 };
    },
    'pull.readings': ({ pullId, fromSeq, count }) => {
      const pull = this.#kept(pullId);
      const total = pull.timeS.length;
      return {
        pullId,
        basis: 1,
        total,
        columns: columnsOf(pull, fromSeq, Math.min(count, Math.max(0, total - fromSeq))),
      };
    },
    'pull.outline': () => ({ outline: null }),
    'pull.note-fracture': ({ pullId, note, by, supersedes, reason }) => {
      const { notes } = this.#kept(pullId);
      const fractureNoteId = notes.length + 1;
      notes.push({
        fractureNoteId,
        note,
        by: by ?? null,
        wallMs: Date.now(),
        supersedes: supersedes ?? null,
        reason: reason ?? null,
      });
      return { fractureNoteId };
    },
    'pull.evaluate': ({ pullId, specimen }) => {
      const pull = this.#kept(pullId);
      const read = readSpecimen(specimen ?? pull.specimen.specimen);
      if (!read.ok) throw new Error('The specimen can’t be read.');
      return evaluate(
        {
          length: pull.timeS.length,
          timeS: Float64Array.from(pull.timeS),
          forceN: Float64Array.from(pull.forceN),
          extensionMm: Float64Array.from(pull.extensionMm),
        },
        read.specimen,
        pull.breakSeq === null ? {} : { fractureIndex: Math.max(0, pull.breakSeq - 1) },
      );
    },
    'evaluation.keep': () => {
      throw new Error('No evaluation is kept here.');
    },
    'evaluation.history': () => ({ evaluations: [] }),
    'pull.specimen': ({ pullId }) => this.#kept(pullId).specimen,
    'pull.get': ({ pullId }) => keptPull(this.#kept(pullId)),
    'pull.list': ({ search }) => ({
      items: this.#pulls
        .filter(
          (p) => search === undefined || p.specimen.specimen.id.toLowerCase().includes(search.toLowerCase()),
        )
        .reverse()
        .map(pullLine),
      nextCursor: null,
    }),
    'program.self-check': () => ({
      programVersion: '0.0.0',
      method: '1',
      platform: 'made up',
      agreeing: 0,
      failing: 0,
      lines: [],
    }),
    'archive.check': () => ({
      sound: true,
      lines: [
        { name: 'database', ok: true, words: 'its integrity check found nothing' },
        { name: 'raw bytes', ok: true, words: 'all hashes agree' },
      ],
    }),
    'window.set-theme': ({ theme }) => ({ theme, dark: theme === 'dark' }),
    'window.set-language': () => ({}),
    'window.copy-text': () => ({}),
    'window.choose-save-path': ({ suggestedName }) => ({ path: `/home/shop/${suggestedName}` }),
    'archive.export': ({ pullId, to }) => ({
      path: to,
      readingCount: this.#kept(pullId).timeS.length,
      bytes: 1_000,
      parts: [],
      remark: null,
    }),
    'archive.backup': ({ to }) => ({ path: to, bytes: 1_000 }),
    'recorder.try-again': () => ({}),
  };
}

function refuse(sentence: string): { ok: false; fault: Fault } {
  return { ok: false, fault: { code: 'refused', sentence } };
}

function indexOfLargest(column: readonly number[]): number {
  let best = -1;
  for (let i = 0; i < column.length; i++) if (best < 0 || (column[i] ?? 0) > (column[best] ?? 0)) best = i;
  return best;
}

function columnsOf(pull: MadeUpPull, firstSeq: number, count: number): ReadingColumns {
  const cut = (column: readonly number[]) => Float64Array.from(column.slice(firstSeq, firstSeq + count));
  const status = () => new Uint8Array(count);
  return {
    firstSeq,
    count,
    elapsedUs: cut(pull.timeS).map((s) => s * 1e6),
    chunkSeq: new Float64Array(count),
    status: status(),
    channels: [
      { key: 'load', quantity: 'force', coreUnit: 'N', value: cut(pull.forceN), status: status() },
      {
        key: 'extension',
        quantity: 'extension',
        coreUnit: 'mm',
        value: cut(pull.extensionMm),
        status: status(),
      },
    ],
  };
}

function pullLine(pull: MadeUpPull) {
  const peak = indexOfLargest(pull.forceN);
  return {
    pullId: pull.pullId,
    specimenId: pull.specimen.specimenId,
    specimenName: pull.specimen.specimen.id,
    startedWallMs: pull.startedWallMs,
    state: pull.state,
    readingCount: pull.timeS.length,
    peakForceN: peak < 0 ? null : (pull.forceN[peak] ?? null),
    broke: pull.breakSeq !== null,
    gapCount: pull.gaps.length,
    operator: pull.request.operator ?? null,
    voided: null,
    typed: null,
    pulledOn: null,
  };
}

function keptPull(pull: MadeUpPull): KeptPull {
  return {
    ...pullLine(pull),
    specimen: pull.specimen,
    source: { kind: 'simulated', scenario: 'mild-steel-yield-point' },
    profile: readoutProfile.parse(simulatedFrameSi),
    second: null,
    trigger: pull.request.trigger,
    breakRule: pull.request.breakRule,
    tailS: pull.request.tailS,
    heldOpenS: pull.request.heldOpenS ?? null,
    programVersion: '0.1.0',
    startedUtcOffsetMinutes: null,
    startedMonotonicUs: 0,
    channels: [
      { key: 'load', quantity: 'force', unit: 'N', coreUnit: 'N' },
      { key: 'extension', quantity: 'extension', unit: 'mm', coreUnit: 'mm' },
    ],
    zeros: {},
    chunkCount: pull.timeS.length,
    rawByteCount: pull.timeS.length * 32,
    misfitCount: {},
    durationUs: Math.round((pull.timeS.at(-1) ?? 0) * 1e6),
    triggerSeq: pull.triggerSeq,
    breakSeq: pull.breakSeq,
    marks: pull.marks,
    gaps: pull.gaps,
    acts: [],
    instruments: null,
    fractureNotes: pull.notes,
    statedDays: [],
  };
}
