/** Tells one run of the computer from the next: within one, the monotonic clock goes on when a program ends. */
import { readFileSync } from 'node:fs';
import { monotonicUs } from '../../drivers/transport.ts';

/** Wall clock minus monotonic clock, to this step, stands in where the system names no boot; a stepped clock counts as a new run. */
const STEP_MS = 60_000;

export function bootName(): string {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'latin1').trim();
  } catch {
    return `boot near ${Math.round((Date.now() - monotonicUs() / 1000) / STEP_MS)}`;
  }
}
