/** Starts the process that plays the readout. */
import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { z } from 'zod';

const PROGRAM = new URL('./sender-program.ts', import.meta.url).pathname;

const report = z.object({ writtenUs: z.array(z.number()), behindLine: z.array(z.number()) });
export type SendReport = z.infer<typeof report>;

export interface SendOrder {
  /** The side of the pty that the readout writes to. */
  readonly path: string;
  /** 0: as fast as they are taken. */
  readonly linesPerS: number;
  readonly batchMs: number;
  readonly count: number;
  readonly from?: number;
}

export interface LineSender {
  readonly begin: () => void;
  /** All lines are written; rejects when the process ends without having written them. */
  readonly done: Promise<SendReport>;
  readonly end: () => void;
}

/** Settles when the lines are made and the port is open; nothing is sent before `begin`. */
export async function prepareLines({
  path,
  linesPerS,
  batchMs,
  count,
  from = 0,
}: SendOrder): Promise<LineSender> {
  const child = spawn(process.execPath, [PROGRAM, path, ...[linesPerS, batchMs, count, from].map(String)], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  await lines.next();
  const done = lines.next().then(({ value, done: ended }) => {
    if (ended === true) throw new Error('the sender ended before its lines were sent');
    return report.parse(JSON.parse(value));
  });
  // Told to whoever waits for it; a sender that is ended early is waited for by nobody.
  done.catch(() => undefined);
  return {
    begin: () => child.stdin.write('go\n'),
    done,
    end: () => child.kill('SIGKILL'),
  };
}
