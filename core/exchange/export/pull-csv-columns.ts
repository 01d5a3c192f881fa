/** Columns of a pull's CSV: what each is called, and which channel it comes from. */
import type { KeptPull } from '../../contract/pull-requests.ts';
import type { ChannelInfo } from '../../contract/reading.ts';

export interface ChannelColumnNames {
  readonly key: string;
  /** "force_N": converted, in the core's unit. */
  readonly converted: string;
  /** "shown_force_kN": the digits of the readout. */
  readonly shown: string;
  /** "shown_unit_force"; only where the unit changed during the pull. */
  readonly shownUnit: string | null;
  readonly status: string;
}

/**
 * The names are those of our own curve files, so that an export can be read back as a curve: the first channel of
 * a quantity is "force_N", further ones "force2_N", the readout's own clock "readout_time_s".
 */
export function channelColumnNames(pull: Pick<KeptPull, 'channels' | 'marks'>): ChannelColumnNames[] {
  const unitChanges = pull.marks.some((mark) => mark.kind === 'unit-changed');
  const taken = new Map<string, number>();
  return pull.channels.map((channel) => {
    const word = wordOf(channel);
    const count = (taken.get(word) ?? 0) + 1;
    taken.set(word, count);
    const name = count === 1 ? word : `${word}${String(count)}`;
    return {
      key: channel.key,
      converted: `${name}_${unitWord(channel.coreUnit)}`,
      shown: unitChanges ? `shown_${name}` : `shown_${name}_${unitWord(channel.unit)}`,
      shownUnit: unitChanges ? `shown_unit_${name}` : null,
      status: `status_${name}`,
    };
  });
}

function wordOf({ quantity, key }: ChannelInfo): string {
  if (quantity === 'time') return 'readout_time';
  return quantity === 'other' ? `other_${key.replace(/[^\p{L}\p{N}]+/gu, '_')}` : quantity;
}

/** "%" and "1" as our curve files write them. */
function unitWord(unit: string): string {
  return unit === '%' ? 'percent' : unit;
}
