/** A real recorder process with a client, and a readout whose every byte the test knows. */
import { type ChildProcess, spawn } from 'node:child_process';
import { closeSync, constants, mkdtempSync, openSync, readSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { ReplyOf, RequestInputOf, RequestName } from '../../core/contract/index.ts';
import type { Notice } from '../../core/contract/notice.ts';
import { type ReadoutProfile, readoutProfile } from '../../core/contract/readout-profile.ts';
import type { Session } from '../../core/contract/session.ts';
import type { RecorderClient } from '../../electron/recorder/client.ts';
import { type Pty, makePty } from './drivers-pty.ts';
import { recorderClient } from './support/recorder-client.ts';
import { RECORDER_PROGRAM } from './support/recorder-program.ts';
import { until } from './support/until.ts';

export function scratch(): string {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-recorder-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** The line format of the tests: a counter, load in N, extension in mm. */
export const PROFILE: ReadoutProfile = readoutProfile.parse({
  schema: 'gaugemark.readout-profile/1',
  name: 'counted lines',
  serial: { baudRate: 115200 },
  format: { kind: 'delimited', delimiter: ',', fields: ['count', 'load', 'extension'] },
  channels: [
    { field: 'count', quantity: 'other', unit: { kind: 'fixed', unit: '1' } },
    { field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'N' } },
    { field: 'extension', quantity: 'extension', unit: { kind: 'fixed', unit: 'mm' } },
  ],
});

export const SPECIMEN = {
  id: 'P-1',
  geometry: { kind: 'flat', width: '20.1 mm', thickness: '6.2 mm' },
  gaugeLength: '50 mm',
} as const;

export const RULES = {
  trigger: { kind: 'force', thresholdN: 200, readings: 3 },
  breakRule: { kind: 'force-drop', fractionOfPeak: 0.2, readings: 2, peakTimesThreshold: 3, peakMinN: 100 },
  tailS: 1,
} as const;

export const BY_HAND = { trigger: { kind: 'by-hand' }, breakRule: { kind: 'by-hand' }, tailS: null } as const;

/** Line number `count`; every line is another one, so that none can stand in for another. */
export const lineOf = (count: number, load = 1000 + (count % 97)): string =>
  `${count},${load.toFixed(1)},${(count / 1e4).toFixed(4)}\r\n`;

export class RecorderProcess {
  readonly archivePath: string;
  readonly child: ChildProcess;
  readonly client: RecorderClient;
  readonly notices: Notice[] = [];
  readonly complaints: string[];
  session: Session | null = null;

  private constructor(
    archivePath: string,
    child: ChildProcess,
    client: RecorderClient,
    complaints: string[],
  ) {
    this.archivePath = archivePath;
    this.child = child;
    this.client = client;
    this.complaints = complaints;
    client.onEvent((name, event) => {
      if (name === 'notice') this.notices.push(event as Notice);
      if (name === 'session') this.session = event as Session;
    });
  }

  /** `env`: what it finds in its environment besides what is there. */
  static async start(
    archivePath: string,
    program = RECORDER_PROGRAM,
    env: Readonly<Record<string, string>> = {},
  ): Promise<RecorderProcess> {
    const child = spawn(process.execPath, [program, '--archive', archivePath], {
      stdio: ['ignore', 'ignore', 'pipe'],
      env: { ...process.env, ...env },
    });
    const complaints: string[] = [];
    child.stderr.on('data', (bytes: Buffer) => complaints.push(bytes.toString()));
    onTestFinished(async () => {
      child.kill('SIGKILL');
      await until(() => child.exitCode !== null || child.signalCode !== null, 'the recorder ends');
    });
    const client = await recorderClient(archivePath, () => {
      if (child.exitCode !== null) throw new Error(`the recorder ended: ${complaints.join('')}`);
    });
    return new RecorderProcess(archivePath, child, client, complaints);
  }

  async ask<N extends RequestName>(name: N, payload: RequestInputOf<N>): Promise<ReplyOf<N>> {
    const answer = await this.client.request(name, payload);
    if (!answer.ok) throw new Error(`${name}: ${answer.fault.code}: ${answer.fault.sentence}`);
    return answer.value;
  }

  async faultOf<N extends RequestName>(name: N, payload: RequestInputOf<N>): Promise<string> {
    const answer = await this.client.request(name, payload);
    return answer.ok ? 'no fault' : answer.fault.code;
  }

  /** Opens the port and begins a record; the pull's number. */
  async ready(
    port: string,
    rules: Pick<RequestInputOf<'pull.ready'>, 'trigger' | 'breakRule' | 'tailS' | 'heldOpenS'> = RULES,
  ): Promise<number> {
    const { specimenId } = await this.ask('specimen.save', { specimen: SPECIMEN });
    await this.ask('readout.open', { source: { kind: 'serial', path: port }, profile: PROFILE });
    return (await this.ask('pull.ready', { specimenId, ...rules })).pullId;
  }

  async untilReadings(count: number): Promise<void> {
    await until(
      async () => ((await this.ask('session.get', {})).pull?.readingCount ?? 0) >= count,
      `${count} readings`,
    );
  }

  async untilState(state: Session['state']): Promise<void> {
    await until(async () => (await this.ask('session.get', {})).state === state, `the session is ${state}`);
  }

  /** The counters of all readings of a pull, in order, as they were shown. */
  async countsOf(pullId: number): Promise<number[]> {
    const { columns } = await this.ask('pull.readings', { pullId, fromSeq: 0, count: 200_000 });
    return [...(columns.channels[0]?.value ?? [])];
  }

  /** All raw bytes of a pull. */
  async rawOf(pullId: number): Promise<string> {
    const { bytes } = await this.ask('pull.raw', { pullId, fromChunk: 0, count: 100_000 });
    return Buffer.from(bytes).toString('latin1');
  }

  async kill(): Promise<void> {
    this.child.kill('SIGKILL');
    await until(() => this.child.signalCode !== null, 'the recorder is killed');
  }

  async stop(): Promise<number | null> {
    this.child.kill('SIGTERM');
    await until(() => this.child.exitCode !== null || this.child.signalCode !== null, 'the recorder ends');
    return this.child.exitCode;
  }
}

export interface Readout {
  readonly pty: Pty;
  readonly port: string;
  /** Lines sent so far. */
  readonly sent: () => number;
  /** Sends lines one by one, or so many in one write, `intervalMs` apart, until told to stop. */
  readonly run: (intervalMs: number, loadOf?: (count: number) => number, atOnce?: number) => void;
  /** Sends so many lines in one write. */
  readonly burst: (lines: number) => void;
  readonly pause: () => Promise<void>;
  /** Lines that had been sent at each pause. */
  readonly pausedAt: readonly number[];
  /** What stands in the port's queue and nobody has read. */
  readonly unread: () => Promise<string>;
  /** As much of it as is there at this moment. */
  readonly unreadNow: () => string;
}

/** So long nothing more may come before the queue counts as seen to its end; only where everything had been read. */
const UNREAD_IDLE_MS = 1_000;
const UNREAD_LOOK_MS = 20;

/**
 * A readout on a pty. The test holds the port open too, without reading: what a killed recorder had not read yet
 * stays in the queue, so that afterwards the test knows to the byte what had been read.
 */
export async function makeReadout(folder: string): Promise<Readout> {
  const pty = await makePty(folder);
  const watch = openSync(pty.path, constants.O_RDONLY | constants.O_NONBLOCK | constants.O_NOCTTY);
  let count = 0;
  const pausedAt: number[] = [];
  let timer: NodeJS.Timeout | null = null;
  let writing: Promise<void> = Promise.resolve();
  const send = (lines: number, loadOf?: (count: number) => number): void => {
    const text = Array.from({ length: lines }, (_, i) => lineOf(count + i, loadOf?.(count + i))).join('');
    count += lines;
    writing = writing.then(() => pty.write(text));
  };
  onTestFinished(async () => {
    if (timer !== null) clearInterval(timer);
    closeSync(watch);
    const written = writing.catch(() => undefined);
    // First the port: a line that waits for room in a queue that nobody reads any more is let go only with it.
    await pty.kill();
    await written;
  });
  return {
    pty,
    port: pty.path,
    sent: () => count,
    run: (intervalMs, loadOf, atOnce = 1) => {
      timer = setInterval(() => send(atOnce, loadOf), intervalMs);
    },
    burst: (lines) => send(lines),
    pause: async () => {
      if (timer !== null) clearInterval(timer);
      timer = null;
      pausedAt.push(count);
      await writing;
      // What socat still carries arrives within this.
      await new Promise((done) => setTimeout(done, 100));
    },
    pausedAt,
    unreadNow: () => readWhatIsThere(watch),
    unread: async () => {
      let text = '';
      const last = count === 0 ? '' : lineOf(count - 1).split(',')[0];
      // A terminal hands out a few kilobytes at a time, and what socat carries may be late on a busy machine.
      for (let idleMs = 0; idleMs < UNREAD_IDLE_MS;) {
        const part = readWhatIsThere(watch);
        text += part;
        if (
          part === '' &&
          text.endsWith('\r\n') &&
          text.trimEnd().split('\r\n').at(-1)?.split(',')[0] === last
        )
          break;
        if (part !== '') continue;
        await new Promise((done) => setTimeout(done, UNREAD_LOOK_MS));
        idleMs += UNREAD_LOOK_MS;
      }
      return text;
    },
  };
}

function readWhatIsThere(descriptor: number): string {
  const buffer = Buffer.alloc(65_536);
  try {
    return buffer.toString('latin1', 0, readSync(descriptor, buffer, 0, buffer.length, null));
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'EAGAIN') return '';
    throw error;
  }
}
