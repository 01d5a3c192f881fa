/** How long a readout may be silent before people are told: some readouts are slow, some speak only when a key is pressed. */
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import { SILENCE_MS_MIN } from '../../core/limits.ts';

const INTERVALS_MISSED = 10;

/** Milliseconds; Infinity for readouts that speak only when asked by hand. */
export function silenceLimitMs(profile: ReadoutProfile): number {
  const { mode, rateHz } = profile;
  if (mode.kind === 'print-key') return Infinity;
  const intervalMs = mode.kind === 'polled' ? mode.intervalMs : rateHz === undefined ? 0 : 1000 / rateHz;
  return Math.max(SILENCE_MS_MIN, INTERVALS_MISSED * intervalMs);
}
