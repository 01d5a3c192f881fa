/** Starts a process that reads a pty without keeping anything. */
import { type ChildProcess, spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { z } from 'zod';

const PROGRAM = new URL('./reader-program.ts', import.meta.url).pathname;

export interface BareReader {
  readonly pid: number;
  /** Milliseconds from the first byte to the last; of `read` only. */
  readonly took: Promise<number>;
  readonly end: () => void;
}

/** Settles when the port is open. */
export async function startReader(kind: 'split' | 'read', path: string, bytes = 0): Promise<BareReader> {
  const child: ChildProcess = spawn(process.execPath, [PROGRAM, kind, path, String(bytes)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const { stdout, pid } = child;
  if (stdout === null || pid === undefined) throw new Error('the reader could not be started');
  const lines = createInterface({ input: stdout })[Symbol.asyncIterator]();
  await lines.next();
  const took = lines.next().then(({ value, done }) => {
    if (done === true) throw new Error('the reader ended early');
    return z.object({ ms: z.number() }).parse(JSON.parse(value)).ms;
  });
  took.catch(() => undefined);
  return { pid, took, end: () => child.kill('SIGTERM') };
}
