/** The real recorder as a process of its own, with a client, for measuring. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { ReplyOf, RequestInputOf, RequestName } from '../../../core/contract/index.ts';
import type { RecorderClient } from '../../../electron/recorder/client.ts';
import { recorderClient } from '../../app/support/recorder-client.ts';
import { until } from '../../app/support/until.ts';
import { BY_HAND, PROFILE, SPECIMEN } from './pull-lines.ts';

const PROGRAM = new URL('../../../electron/recorder/main.ts', import.meta.url).pathname;

/** A folder that is gone when the measurement is. On the disk that `TMPDIR` names: commits are measured there. */
export function benchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-bench-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true, maxRetries: 3 }));
  return folder;
}

export class BenchRecorder {
  readonly child: ChildProcess;
  readonly archivePath: string;
  #client: RecorderClient;

  private constructor(child: ChildProcess, archivePath: string, client: RecorderClient) {
    this.child = child;
    this.archivePath = archivePath;
    this.#client = client;
  }

  /** `before` goes in front of the command: a tool that watches it; `first` is a module that it loads first. */
  static async start(
    folder: string,
    before: readonly string[] = [],
    first: URL | null = null,
  ): Promise<BenchRecorder> {
    const archivePath = join(folder, 'bench.gaugemark');
    const loads = first === null ? [] : ['--import', first.href];
    const program = [PROGRAM, '--archive', archivePath, '--foreground'];
    const command = [...before, process.execPath, ...loads, ...program];
    const child = spawn(command[0] ?? process.execPath, command.slice(1), {
      stdio: ['ignore', 'ignore', 'inherit'],
    });
    process.once('exit', () => child.kill('SIGKILL'));
    return new BenchRecorder(child, archivePath, await recorderClient(archivePath));
  }

  /** Of the recorder itself, also where a tool runs it. */
  async pid(): Promise<number> {
    return (await this.ask('program.info', {})).pid;
  }

  async ask<N extends RequestName>(name: N, payload: RequestInputOf<N>): Promise<ReplyOf<N>> {
    const answer = await this.#client.request(name, payload);
    if (!answer.ok) throw new Error(`${name}: ${answer.fault.sentence}`);
    return answer.value;
  }

  /** Nobody watches: the recorder makes no pictures of the session and sends nothing. */
  letGo(): void {
    this.#client.close();
  }

  async watchAgain(): Promise<void> {
    this.#client = await recorderClient(this.archivePath);
  }

  /** Opens the port and begins a record that never ends by itself; its number. */
  async beginPull(port: string): Promise<number> {
    const { specimenId } = await this.ask('specimen.save', { specimen: SPECIMEN });
    await this.ask('readout.open', { source: { kind: 'serial', path: port }, profile: PROFILE });
    return (await this.ask('pull.ready', { specimenId, ...BY_HAND })).pullId;
  }

  async untilReadings(count: number): Promise<void> {
    await until(
      async () => ((await this.ask('session.get', {})).pull?.readingCount ?? 0) >= count,
      `${count} readings`,
      600_000,
    );
  }

  /** Ends the record and gives the port back. */
  async endPull(): Promise<void> {
    await this.ask('pull.close', {});
    await this.ask('readout.close', {});
  }

  async end(): Promise<void> {
    this.#client.close();
    this.child.kill('SIGTERM');
    await until(
      () => this.child.exitCode !== null || this.child.signalCode !== null,
      'the recorder ends',
    ).catch(() => this.child.kill('SIGKILL'));
  }
}
