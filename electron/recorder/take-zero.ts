/** The present value of a channel as its zero. */
import type { Reading } from '../../core/contract/reading.ts';
import type { ReadoutChannel } from '../../core/contract/readout-profile.ts';
import type { Session } from '../../core/contract/session.ts';
import { ZERO_AGE_MS_MAX } from '../../core/limits.ts';
import { ChannelConverter } from '../../core/pull/channel-value.ts';
import type { Exact } from '../../core/quantity/exact.ts';
import { RequestRefused } from './request-refused.ts';

/** Exact, in the core's unit, without any zero that holds now. Throws a RequestRefused where there is no value. */
export function presentValue(channels: readonly ReadoutChannel[], reading: Reading, key: string): Exact {
  const index = channels.findIndex((channel) => channel.field === key);
  const channel = channels[index];
  const shown = reading.channels[index];
  if (channel === undefined || shown === undefined)
    throw new RequestRefused('no-such-channel', `The readout has no channel "${key}".`, 'keys');
  if (shown.status !== 'ok' || shown.mantissa === null)
    throw new RequestRefused(
      'no-fresh-reading',
      `The channel "${key}" shows no value now (${shown.status}), so it can't be taken as zero.`,
      'keys',
    );
  return new ChannelConverter(channel).exact(shown.mantissa, shown.exponent, shown.unit);
}

/** What a slow readout, or one with a print key, showed long ago says nothing of the load now. Throws a RequestRefused. */
export function refuseAgedZero({ readout, signal, second }: Session, keys: readonly string[]): void {
  for (const its of [{ readout, signal }, ...(second === null ? [] : [second])]) {
    const isAsked = its.readout?.channels.some(({ key }) => keys.includes(key)) === true;
    if (!isAsked || its.signal.lastReadingWallMs === null || its.signal.silentMs <= ZERO_AGE_MS_MAX) continue;
    throw new RequestRefused(
      'reading-too-old',
      `The newest reading is ${String(Math.round(its.signal.silentMs / 1000))} s old, too old to be taken as zero; take the zero within ${String(ZERO_AGE_MS_MAX / 1000)} s after the next one.`,
      'keys',
    );
  }
}
