/** Learning a readout for a person who looks on: told step by step, stopped when asked, never while a pull is recorded. */
import { basename } from 'node:path';
import type { LearningState } from '../../core/contract/learn-requests.ts';
import type { RequestOf } from '../../core/contract/index.ts';
import { addressOf } from '../../core/contract/source-address.ts';
import { LEARN_FILE_MS_MAX } from '../../core/limits.ts';
import { learnFromPort } from '../../drivers/learn/learn-from-port.ts';
import { SourceFaultError } from '../../drivers/transport.ts';
import { ThreadTimeUp, answerOfThread } from './answer-of-thread.ts';
import { NOTHING, outcome } from './learnt-state.ts';
import { RequestRefused } from './request-refused.ts';

/** Listened to at the settings that are right; enough for a slow display. */
const SECONDS = 4;

export interface LearningOptions {
  readonly tell: (state: LearningState) => void;
  readonly onBug: (error: unknown) => void;
  /** Reads a file in a thread of its own; tests hand in their own. */
  readonly answer?: typeof answerOfThread;
}

export class Learning {
  readonly #its: LearningOptions;
  #state: LearningState | null = null;
  #stop: AbortController | null = null;
  #stopFile: AbortController | null = null;
  #running: Promise<void> = Promise.resolve();

  constructor(options: LearningOptions) {
    this.#its = options;
  }

  get state(): LearningState | null {
    return this.#state;
  }

  /** One is learned from at a time: the state that is told is that of one. Throws a RequestRefused with the way out. */
  refuseWhileFromFile(): void {
    if (this.#stopFile !== null)
      throw new RequestRefused(
        'learning-from-file',
        `${this.#state?.from ?? ''} is being learned from; wait for what comes of it or stop that, then try again.`,
      );
  }

  /** Begins to listen; what comes of it is told. Throws a RequestRefused while another is learned from. */
  begin({ source, controlLines, baudRate }: RequestOf<'readout.learn-port'>): void {
    this.#refuseWhileUnderWay();
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

  /** Ends the listening. The port is let go of when this settles. */
  async stop(): Promise<void> {
    this.#stop?.abort();
    await this.#running;
  }

  /** Ends the learning from a file. */
  stopFile(): void {
    this.#stopFile?.abort();
  }

  /**
   * A file that can't be read, or learned from in time, is a fault of the outcome. Rejects with a RequestRefused while
   * another is learned from, and for nothing else.
   */
  async fromFile(path: string): Promise<LearningState> {
    this.#refuseWhileUnderWay();
    const stop = new AbortController();
    this.#stopFile = stop;
    const begun: LearningState = { ...NOTHING, from: basename(path) };
    this.#tell(begun);
    const state = await this.#outcomeOfFile(path, begun, stop.signal);
    this.#stopFile = null;
    this.#tell(state);
    return state;
  }

  async #outcomeOfFile(path: string, begun: LearningState, signal: AbortSignal): Promise<LearningState> {
    const { answer = answerOfThread, onBug } = this.#its;
    try {
      // Both sides are this program's own files of one version.
      return (await answer({
        name: 'learn-thread',
        workerData: { path },
        msMax: LEARN_FILE_MS_MAX,
        signal,
      })) as LearningState;
    } catch (error) {
      if (signal.aborted) return { ...begun, state: 'stopped' };
      if (error instanceof ThreadTimeUp) return { ...begun, state: 'failed', fault: tooLong(begun.from) };
      onBug(error);
      return { ...begun, state: 'failed', fault: PROGRAM_FAULT };
    }
  }

  #refuseWhileUnderWay(): void {
    this.refuseWhileFromFile();
    if (this.#stop !== null)
      throw new RequestRefused(
        'learning-from-port',
        `${this.#state?.from ?? ''} is being listened to; wait for what comes of it or stop that, then try again.`,
      );
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
const tooLong = (file: string) => ({
  code: 'file-too-long-to-learn',
  sentence: `${file} could not be learned from within ${String(LEARN_FILE_MS_MAX / 1000)} seconds on this computer; nothing was changed. Record a shorter file (some seconds of lines are enough) and learn from that.`,
});
const PROGRAM_FAULT = {
  code: 'program-fault',
  sentence: 'The lines could not be learned because of a fault in the program; nothing was changed.',
};
