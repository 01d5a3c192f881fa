/** A person names channels of a learned profile that the lines themselves don't name. */
import { type ReadoutChannel, expectedUnitOf, readoutProfile } from '../../core/contract/readout-profile.ts';
import type { UnitSymbol } from '../../core/quantity/units.ts';
import { channelRemarks } from './channel-remarks.ts';
import type { LearntQuantity } from './label-words.ts';
import type { Learnt } from './learn-lines.ts';

export interface ChannelName {
  readonly quantity: LearntQuantity;
  /** Null where the unit stands in the line already. */
  readonly unit: UnitSymbol | null;
}

export type NamedOutcome =
  | { readonly ok: true; readonly learnt: Learnt }
  | { readonly ok: false; readonly field: string; readonly code: 'field-unknown' | 'unit-missing' };

/**
 * The proposal with channels named by their field. What was only guessed to be a quantity that a person now gives
 * to another field is guessed no longer. Units must fit their quantities.
 */
export function nameChannels(learnt: Learnt, names: ReadonlyMap<string, ChannelName>): NamedOutcome {
  const channels: ReadoutChannel[] = [];
  const facts = [];
  for (const field of names.keys())
    if (!learnt.channels.some((channel) => channel.field === field))
      return { ok: false, field, code: 'field-unknown' };
  const given = new Set([...names.values()].map((name) => name.quantity));
  for (const [index, fact] of learnt.channels.entries()) {
    const channel = learnt.profile.channels[index];
    if (channel === undefined) throw new RangeError('each learned channel is a channel of the profile');
    const name = names.get(fact.field);
    if (name === undefined) {
      const isOutdone = fact.quantity !== null && !fact.isSaid && given.has(fact.quantity);
      channels.push(isOutdone ? { ...channel, quantity: 'other' } : channel);
      facts.push(isOutdone ? { ...fact, quantity: null } : fact);
      continue;
    }
    const unit = name.unit ?? (fact.unit === null ? null : expectedUnitOf(channel));
    if (unit === null) return { ok: false, field: fact.field, code: 'unit-missing' };
    const isShown = channel.unit.kind === 'in-line' && channel.unit.expected === unit;
    channels.push({
      ...channel,
      quantity: name.quantity,
      unit: isShown ? channel.unit : { kind: 'fixed', unit },
    });
    facts.push({ ...fact, quantity: name.quantity, unit, isSaid: true });
  }
  const before = new Set(channelRemarks(learnt.channels));
  return {
    ok: true,
    learnt: {
      ...learnt,
      profile: readoutProfile.parse({ ...learnt.profile, channels }),
      channels: facts,
      remarks: [...learnt.remarks.filter((remark) => !before.has(remark)), ...channelRemarks(facts)],
    },
  };
}
