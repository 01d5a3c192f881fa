/** Finding and ending the processes of one test, by number, never by name. */
import { readdirSync, readFileSync } from 'node:fs';
import { until } from './until.ts';

export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    // A zombie answers too. Nothing of it runs, and its files and sockets are closed, once none of its threads is left.
    return (
      !/^State:\s+Z/m.test(readFileSync(`/proc/${pid}/status`, 'utf8')) ||
      readdirSync(`/proc/${pid}/task`).length > 1
    );
  } catch {
    return false;
  }
}

export async function killAndWait(pid: number, signal: NodeJS.Signals = 'SIGKILL'): Promise<void> {
  try {
    process.kill(pid, signal);
  } catch {
    return;
  }
  await until(() => !isAlive(pid), `process ${pid} ends`);
}

/** Recorders of one archive: this test's own, since its archive lies in a folder that nobody else has. */
export function recordersOf(archivePath: string): number[] {
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .map(Number)
    .filter((pid) => {
      try {
        const args = readFileSync(`/proc/${pid}/cmdline`, 'utf8').split('\0');
        const isRecorder = /recorder\/main\.(?:ts|cjs)$/.test(args[1] ?? '');
        return isRecorder && args.includes(archivePath) && isAlive(pid);
      } catch {
        return false;
      }
    });
}
