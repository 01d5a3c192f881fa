/** Learning a readout for a person who looks on: told step by step, stopped when asked, never while a pull is recorded. */
import { basename } from 'node:path';
import type { LearningState } from '../../core/contract/learn-requests.ts';
import type { RequestOf } from '../../core/contract/index.ts';
import { addressOf } from '../../core/contract/source-address.ts';
import { LEARN_FILE_MS_MAX } from '../../core/limits.ts';
import { learnFromPort } from '../../drivers/learn/learn-from-port.ts';
import { SourceFaultError } from '../../drivers/transport.ts';
import { answerOfThread } from './answer-of-thread.ts';
import { NOTHING, outcome } from './learnt-state.ts';

/** Listened to at the settings that are right; enough for a slow display. */
const SECONDS = 4;

export interface LearningOptions {
  readonly tell: (state: LearningState) => void;
  readonly onBug: (error: unknown) => void;
}

export class Learning {
  readonly #its: LearningOptions;
  #state: LearningState | null = null;
  #stop: AbortController | null = null;
  #running: Promise<void> = Promise.resolve();

  constructor(options: LearningOptions) {
    this.#its = options;
  }

  get state(): LearningState | null {
    return this.#state;
  }
  get isUnderWay(): boolean {
    return this.#stop !== null;
  }

  /** Begins to listen; what comes of it is told. */
  begin({ source, controlLines, baudRate }: RequestOf<'readout.learn-port'>): void {
    const stop = new AbortController();
    this.#stop = stop;
    const begun: LearningState = { ...NOTHING, from: addressOf(source) ?? '', source };
    this.#tell(begun);
    this.#running = learnFromPort({
      source,
      seconds: SECONDS,
      signal: stop.signal,
      onProgress: ({ settings, tried, bytes }) => {
        if (this.#state !== null && this.#stop === stop)
          this.#tell({ ...this.#state, settings, tried, bytes });
      },
      ...(controlLines === undefined ? {} : { controlLines }),
      ...(baudRate === undefined ? {} : { settings: { ...EIGHT_BITS, baudRate } }),
    }).then(
      ({ learnt, settings, bytes, heard, tried }) => {
        const state = { ...begun, settings, tried: tried.length, bytes };
        this.#finish(
          stop,
          stop.signal.aborted ? { ...state, state: 'stopped' } : outcome(state, learnt, heard),
        );
      },
      (error: unknown) => {
        const fault = error instanceof SourceFaultError ? error.fault : null;
        if (fault === null) this.#its.onBug(error);
        const { code, sentence } = fault ?? PROGRAM_FAULT;
        this.#finish(stop, { ...begun, state: 'failed', fault: { code, sentence } });
      },
    );
  }

  /** The port is let go of when this settles. */
  async stop(): Promise<void> {
    this.#stop?.abort();
    await this.#running;
  }

  /** Never rejects: a file that can't be read, or learned from in time, is a fault of the outcome. */
  async fromFile(path: string): Promise<LearningState> {
    let state: LearningState;
    try {
      // Both sides are this program's own files of one version.
      state = (await answerOfThread({
        name: 'learn-thread',
        workerData: { path },
        msMax: LEARN_FILE_MS_MAX,
      })) as LearningState;
    } catch (error) {
      this.#its.onBug(error);
      state = { ...NOTHING, from: basename(path), state: 'failed', fault: PROGRAM_FAULT };
    }
    this.#tell(state);
    return state;
  }

  #finish(stop: AbortController, state: LearningState): void {
    if (this.#stop !== stop) return;
    this.#stop = null;
    this.#tell(state);
  }

  #tell(state: LearningState): void {
    this.#state = state;
    this.#its.tell(state);
  }
}

const EIGHT_BITS = { dataBits: 8, parity: 'none', stopBits: 1, flowControl: 'none' } as const;
const PROGRAM_FAULT = {
  code: 'program-fault',
  sentence: 'The lines could not be learned because of a fault in the program; nothing was changed.',
};
