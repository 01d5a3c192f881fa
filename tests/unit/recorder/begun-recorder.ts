/** A recorder with an archive of its own, asked as a client asks it, whose port's far end is played by the test. */
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Answer, ReplyOf, RequestInputOf, RequestName } from '../../../core/contract/index.ts';
import type { ListedPort, Source } from '../../../core/contract/source.ts';
import { type Transport, type TransportListener, monotonicUs } from '../../../drivers/transport.ts';
import type { RecorderOptions } from '../../../electron/recorder/recorder-options.ts';
import { Recorder } from '../../../electron/recorder/recorder.ts';
import { answerRequest } from '../../../electron/recorder/requests.ts';
import { SPECIMEN, scratchFolder } from '../archive/made-archive.ts';

/** Throws where the recorder refuses: code and sentence. */
export type Ask = <N extends RequestName>(name: N, request: RequestInputOf<N>) => Promise<ReplyOf<N>>;

export interface BegunRecorder {
  readonly recorder: Recorder;
  readonly ask: Ask;
  /** The same with the refusal as an answer. */
  readonly answered: <N extends RequestName>(
    name: N,
    request: RequestInputOf<N>,
  ) => Promise<Answer<ReplyOf<N>>>;
  /** Of a specimen that is saved. */
  readonly specimenId: number;
  /** The sources that were opened, in order. */
  readonly opened: readonly Source[];
  /** Lines from the far end of the port that was opened first, each with its end. */
  readonly send: (...lines: string[]) => void;
  /** Bytes as they are. */
  readonly sendBytes: (bytes: string) => void;
}

export interface BegunRecorderOptions {
  readonly ports?: readonly ListedPort[];
  /** One that is there already. */
  readonly archivePath?: string;
  /** Instead of a port that says only what `send` is told. */
  readonly make?: () => Transport;
  /** Limits and readings of this computer that the recorder is told instead of the usual ones. */
  readonly told?: Pick<RecorderOptions, 'heldBytesMax' | 'readFreeBytes' | 'evaluationHeapMib'>;
}

/** A pull of which everything is done by hand. */
export const BY_HAND = {
  trigger: { kind: 'by-hand' },
  breakRule: { kind: 'by-hand' },
  tailS: null,
} as const;

export const TEST_PORT = { kind: 'serial', path: '/dev/ttyTEST' } as const;

/** Ends with the test. */
export async function begunRecorder({
  ports,
  make,
  archivePath = join(scratchFolder(), 'a.gaugemark'),
  told = {},
}: BegunRecorderOptions = {}): Promise<BegunRecorder> {
  const opened: Source[] = [];
  const far: TransportListener[] = [];
  const recorder = new Recorder({
    ...told,
    archivePath,
    programVersion: '9.9.9',
    makeFolder: false,
    resume: true,
    ...(ports === undefined ? {} : { ports: () => Promise.resolve(ports) }),
    makeTransport: (source) => {
      opened.push(source);
      return make === undefined ? playedTransport(far) : make();
    },
    log: () => undefined,
  });
  onTestFinished(() => recorder.end());
  await recorder.begin();
  const answered: BegunRecorder['answered'] = (name, request) => answerRequest(recorder, name, request);
  const ask: Ask = async (name, request) => {
    const answer = await answered(name, request);
    if (!answer.ok) throw new Error(`${answer.fault.code}: ${answer.fault.sentence}`);
    return answer.value;
  };
  const { specimenId } = await ask('specimen.save', { specimen: SPECIMEN });
  const sendBytes = (bytes: string): void => far[0]?.onChunk(Buffer.from(bytes), monotonicUs());
  return {
    recorder,
    ask,
    answered,
    specimenId,
    opened,
    send: (...lines) => sendBytes(lines.map((line) => `${line}\r\n`).join('')),
    sendBytes,
  };
}

function playedTransport(far: TransportListener[]): Transport {
  return {
    kind: 'serial',
    place: 'a frame',
    open: (to) => {
      far.push(to);
      return Promise.resolve();
    },
    write: () => Promise.resolve(),
    close: () => Promise.resolve(),
  };
}
