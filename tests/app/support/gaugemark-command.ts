/** The command line as it is typed: a process of its own, ended with the test; in one file, but where a test says otherwise. */
import { type ChildProcess, spawn } from 'node:child_process';
import { onTestFinished } from 'vitest';
import { COMMAND_LINE_PROGRAM, COMMAND_LINE_SOURCE } from './command-line-program.ts';
import { until } from './until.ts';

export interface Run {
  readonly child: ChildProcess;
  readonly out: () => string;
  readonly err: () => string;
  readonly ended: () => Promise<number | null>;
}

export const gaugemark = (...args: string[]): Run => run(COMMAND_LINE_PROGRAM, args);

export const gaugemarkFromSource = (...args: string[]): Run => run(COMMAND_LINE_SOURCE, args);

function run(program: string, args: readonly string[]): Run {
  const child = spawn(process.execPath, [program, ...args], { stdio: ['ignore', 'pipe', 'pipe'] });
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
