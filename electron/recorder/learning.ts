/** Learning a readout for a person who looks on: told step by step, stopped when asked, never while a pull is recorded. */
import { open } from 'node:fs/promises';
import { basename } from 'node:path';
import { LEARNT_LINES_SHOWN_MAX, type LearningState } from '../../core/contract/learn-requests.ts';
import type { RequestOf } from '../../core/contract/index.ts';
import { addressOf } from '../../core/contract/source-address.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import { createParser } from '../../drivers/create-parser.ts';
import { learnFromPort } from '../../drivers/learn/learn-from-port.ts';
import { LEARN_BYTES_MAX, type Learnt, learnLines } from '../../drivers/learn/learn-lines.ts';
import { SourceFaultError } from '../../drivers/transport.ts';
import { PreviewBuffer } from './preview-buffer.ts';

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

  /** Never rejects: a file that can't be read is a fault of the outcome. */
  async fromFile(path: string): Promise<LearningState> {
    const from = basename(path);
    let state: LearningState;
    try {
      const bytes = await beginningOf(path);
      state = outcome({ ...NOTHING, from, bytes: bytes.length }, learnLines(bytes), bytes);
    } catch (error) {
      const code = error instanceof Error && 'code' in error ? String(error.code) : String(error);
      const sentence = `${from} can't be read (${code}); check its permissions, or choose another file.`;
      state = { ...NOTHING, from, state: 'failed', fault: { code: 'file-unreadable', sentence } };
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

const NOTHING: LearningState = {
  state: 'listening',
  from: '',
  source: null,
  settings: null,
  tried: 0,
  bytes: 0,
  proposal: null,
  lines: [],
  fault: null,
};
const EIGHT_BITS = { dataBits: 8, parity: 'none', stopBits: 1, flowControl: 'none' } as const;
const PROGRAM_FAULT = {
  code: 'program-fault',
  sentence: 'The lines could not be learned because of a fault in the program; nothing was changed.',
};

function outcome(state: LearningState, learnt: Learnt | null, bytes: Buffer): LearningState {
  if (learnt !== null)
    return {
      ...state,
      state: 'done',
      proposal: { ...learnt, channels: [...learnt.channels], remarks: [...learnt.remarks] },
      lines: linesOf(learnt.profile, bytes),
    };
  const sentence =
    state.bytes === 0
      ? `Nothing comes from ${state.from}; check the cable, and whether the readout sends by itself or must be asked.`
      : `${String(state.bytes)} bytes came from ${state.from}, but they make no lines with numbers; look up its baud rate in the manual of the readout.`;
  return {
    ...state,
    state: 'failed',
    fault: { code: state.bytes === 0 ? 'port-silent' : 'nothing-learned', sentence },
  };
}

/** The first lines as the profile reads them, raw and parsed beside each other. */
function linesOf(profile: ReadoutProfile, bytes: Buffer): LearningState['lines'] {
  const preview = new PreviewBuffer(profile.channels);
  const parser = createParser(profile);
  const sevenBits = profile.serial?.dataBits === 7 ? Buffer.from(bytes.map((byte) => byte & 0x7f)) : bytes;
  for (const line of parser.push(0, sevenBits, 0).slice(0, LEARNT_LINES_SHOWN_MAX)) preview.push(line);
  return preview.all(0).lines;
}

async function beginningOf(path: string): Promise<Buffer> {
  const file = await open(path, 'r');
  try {
    const buffer = Buffer.alloc(LEARN_BYTES_MAX);
    const { bytesRead } = await file.read(buffer, 0, buffer.length, 0);
    return buffer.subarray(0, bytesRead);
  } finally {
    await file.close();
  }
}
