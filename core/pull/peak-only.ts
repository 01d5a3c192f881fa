/** Readouts that tell the peak and nothing else: a print key, a display that is read out after the break. */
import type { ReadoutChannel } from '../contract/readout-profile.ts';

/** No load of the moment, so nothing to start or to end a pull by; each line holds the largest load so far. */
export function showsPeakOnly(channels: readonly Pick<ReadoutChannel, 'quantity' | 'peak'>[]): boolean {
  const forces = channels.filter(({ quantity }) => quantity === 'force');
  return forces.length > 0 && forces.every(({ peak }) => peak);
}

/** The channel of the load: that of the moment, and the peak where there is no other. −1 where there is none. */
export function loadChannel(channels: readonly Pick<ReadoutChannel, 'quantity' | 'peak'>[]): number {
  const peakCounts = showsPeakOnly(channels);
  return channels.findIndex(({ quantity, peak }) => quantity === 'force' && peak === peakCounts);
}
