/**
 * Two instruments, one stream of readings. Every line of the instrument that gives the load makes one reading, at the
 * time of that line; the channels of the second stand behind, with the newest value that it had sent by then, exactly
 * as it showed it. A value older than `joinedAgeMaxMs` is joined to nothing: the channel is blank in that reading.
 * Nothing is interpolated, so every digit kept is one that an instrument showed.
 */
import type { ReadoutChannel, ReadoutProfile } from '../contract/readout-profile.ts';
import type { Skew } from '../contract/second-readout.ts';
import { JOINED_AGE_MS_MAX, JOINED_AGE_MS_MIN, JOINED_INTERVALS_MAX } from '../limits.ts';

/**
 * All channels of a pull, those of the second instrument behind. A field that both have is told apart by " (2)". The
 * clock of the second is no clock of the readings, so it is a number like any other.
 */
export function joinedChannels(profile: ReadoutProfile, second: ReadoutProfile | null): ReadoutChannel[] {
  return second === null ? profile.channels : [...profile.channels, ...secondChannels(profile, second)];
}

/** Those of the second instrument alone, by the names that they have in the pull. */
export function secondChannels(profile: ReadoutProfile, second: ReadoutProfile): ReadoutChannel[] {
  const taken = new Set(profile.channels.map(({ field }) => field));
  return second.channels.map((channel) => {
    let field = channel.field;
    while (taken.has(field)) field = `${field} (2)`;
    taken.add(field);
    return { ...channel, field, quantity: channel.quantity === 'time' ? 'other' : channel.quantity };
  });
}

/** Why these two can't be one pull, in one sentence; null where they can. */
export function joinFault(profile: ReadoutProfile, second: ReadoutProfile): string | null {
  const gives = (its: ReadoutProfile): Set<string> =>
    new Set(its.channels.filter(({ peak }) => !peak).map(({ quantity }) => quantity));
  const [first, other] = [gives(profile), gives(second)];
  if (!first.has('force') && other.has('force'))
    return `The load comes from "${second.name}": name that readout first and "${profile.name}" second.`;
  if (!first.has('force'))
    return `Neither "${profile.name}" nor "${second.name}" has a channel for the force; one of them must.`;
  const both = [...first].find((quantity) => !['time', 'other'].includes(quantity) && other.has(quantity));
  return both === undefined
    ? null
    : `Both "${profile.name}" and "${second.name}" give ${both}; leave the channel out of one of the profiles.`;
}

/** Oldest value of the second instrument that is joined to a load, ms: some of its intervals, within fixed bounds. */
export function joinedAgeMaxMs({ mode, rateHz }: ReadoutProfile): number {
  const intervalMs = mode.kind === 'polled' ? mode.intervalMs : rateHz === undefined ? null : 1000 / rateHz;
  if (intervalMs === null) return JOINED_AGE_MS_MIN;
  return Math.min(
    JOINED_AGE_MS_MAX,
    Math.max(JOINED_AGE_MS_MIN, Math.ceil(JOINED_INTERVALS_MAX * intervalMs)),
  );
}

/** "1 200 of 1 204 readings carry a value of the second instrument; …" */
export function skewSentence({ joined, alone, meanMs, longestMs }: Skew, ageMaxMs: number): string {
  const total = joined + alone;
  return `${String(joined)} of ${String(total)} readings carry a value of the second instrument, the newest that it had sent by then and no older than ${String(ageMaxMs)} ms; by the recorder’s clock it stood behind the load by ${meanMs.toFixed(1)} ms on average, ${longestMs.toFixed(1)} ms at most.`;
}
