/**
 * How long the machine itself stood still: a process of its own that does nothing but look at the clock every few
 * milliseconds, ahead of all others where it may. What holds this one up (a virtual machine that is not run for a while) holds
 * up every program, so a longest frame is read beside it.
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { setPriority } from 'node:os';
import { z } from 'zod';
import { short } from './statistics.ts';

const LOOK_EVERY_MS = 2;
const FIRST_PRIORITY = -20;
const TOLD_FROM_MS = 20;

const stall = z.object({ ms: z.number() });

const LOOKER = `
let last = performance.now();
setInterval(() => {
  const now = performance.now();
  const ms = now - last - ${String(LOOK_EVERY_MS)};
  last = now;
  if (ms >= ${String(TOLD_FROM_MS)}) console.log(JSON.stringify({ ms }));
}, ${String(LOOK_EVERY_MS)});
`;

export class MachineStalls {
  readonly #child: ChildProcess;
  #told = '';

  constructor() {
    this.#child = spawn(process.execPath, ['-e', LOOKER], { stdio: ['ignore', 'pipe', 'inherit'] });
    this.#child.stdout?.on('data', (text: Buffer) => (this.#told += text.toString('utf8')));
    try {
      setPriority(this.#child.pid ?? 0, FIRST_PRIORITY);
    } catch {
      // Not allowed: then it waits its turn like the rest, and tells of more than the machine's own stalls.
    }
  }

  /** Ends the look, in one line. */
  told(): string {
    this.#child.kill('SIGKILL');
    const stalls = this.#told
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => stall.parse(JSON.parse(line)).ms);
    return `The machine stood still ${String(stalls.length)} times for ${String(TOLD_FROM_MS)} ms and more, for ${short(Math.max(0, ...stalls))} ms at most.`;
  }
}
