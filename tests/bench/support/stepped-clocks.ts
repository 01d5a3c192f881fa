/**
 * Loaded before the recorder (`--import`): its clocks are stepped on a signal, without a line in the program for it. The
 * monotonic clock stays as it is, which stands still while a computer sleeps.
 * SIGUSR2: the computer has slept for SLEPT_S. SIGWINCH: somebody has set the wall clock back by SET_BACK_S.
 */
import os from 'node:os';
import { isMainThread } from 'node:worker_threads';

export const SLEPT_S = 600;
export const SET_BACK_S = 3_600;

if (isMainThread) {
  let [wallAheadS, uptimeAheadS] = [0, 0];
  const { now } = Date;
  const { uptime } = os;
  Date.now = () => now() + wallAheadS * 1000;
  os.uptime = () => uptime() + uptimeAheadS;
  process.on('SIGUSR2', () => {
    wallAheadS += SLEPT_S;
    uptimeAheadS += SLEPT_S;
  });
  process.on('SIGWINCH', () => (wallAheadS -= SET_BACK_S));
}
