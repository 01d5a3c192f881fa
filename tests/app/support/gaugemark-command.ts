/** The command line as it is typed: a process of its own, ended with the test. */
import { type ChildProcess, spawn } from 'node:child_process';
import { onTestFinished } from 'vitest';
import { until } from './until.ts';

const PROGRAM = new URL('../../../electron/command-line/main.ts', import.meta.url).pathname;

export interface Run {
  readonly child: ChildProcess;
  readonly out: () => string;
  readonly err: () => string;
  readonly ended: () => Promise<number | null>;
}

export function gaugemark(...args: string[]): Run {
  const child = spawn(process.execPath, [PROGRAM, ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
  const out: Buffer[] = [];
  const err: Buffer[] = [];
  let closed = false;
  child.stdout.on('data', (bytes: Buffer) => out.push(bytes));
  child.stderr.on('data', (bytes: Buffer) => err.push(bytes));
  child.once('close', () => {
    closed = true;
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  return {
    child,
    out: () => Buffer.concat(out).toString(),
    err: () => Buffer.concat(err).toString(),
    ended: async () => {
      await until(() => closed, 'the command ends');
      return child.exitCode;
    },
  };
}
