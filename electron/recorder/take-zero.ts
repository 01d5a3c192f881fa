/** The present value of a channel as its zero. */
import type { Reading } from '../../core/contract/reading.ts';
import type { ReadoutChannel } from '../../core/contract/readout-profile.ts';
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
