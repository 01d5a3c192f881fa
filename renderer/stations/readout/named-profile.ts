/** A person names the channels of a proposal; the profile that comes of it, or the field whose unit is missing. */
import type { LearntProposal } from '../../../core/contract/learn-requests.ts';
import {
  type ProfileQuantity,
  type ReadoutProfile,
  expectedUnitOf,
  readoutProfile,
} from '../../../core/contract/readout-profile.ts';
import { type Dimension, UNITS, type UnitSymbol } from '../../../core/quantity/units.ts';

export interface ChannelName {
  readonly quantity: ProfileQuantity;
  /** Empty where nobody has said it. */
  readonly unit: UnitSymbol | '';
}

const DIMENSION_OF: Readonly<Record<ProfileQuantity, Dimension | null>> = {
  force: 'force',
  extension: 'length',
  travel: 'length',
  stress: 'stress',
  strain: 'strain',
  time: 'time',
  other: null,
};

/** Units in which a quantity may come. */
export const unitsOf = (quantity: ProfileQuantity): UnitSymbol[] =>
  (Object.keys(UNITS) as UnitSymbol[]).filter((symbol) => UNITS[symbol].dimension === DIMENSION_OF[quantity]);

/** What the proposal says by itself. */
export function proposedNames({ channels, profile }: LearntProposal): ChannelName[] {
  return profile.channels.map((channel, index) => {
    const said = channels[index];
    const quantity = said?.quantity ?? 'other';
    const unit = said?.unit === null || said === undefined ? '' : expectedUnitOf(channel);
    return { quantity, unit: unit !== '' && unitsOf(quantity).includes(unit) ? unit : '' };
  });
}

export type NamedProfile =
  | { readonly ok: true; readonly profile: ReadoutProfile }
  | { readonly ok: false; readonly field: string };

export function namedProfile(
  { profile }: LearntProposal,
  names: readonly ChannelName[],
  { name, controlLines }: { readonly name: string; readonly controlLines: ReadoutProfile['controlLines'] },
): NamedProfile {
  const missing = profile.channels.find((_, index) => {
    const named = names[index];
    return named !== undefined && named.quantity !== 'other' && named.unit === '';
  });
  if (missing !== undefined) return { ok: false, field: missing.field };
  const channels = profile.channels.map((channel, index) => {
    const { quantity, unit } = names[index] ?? { quantity: 'other', unit: '' };
    if (quantity === 'other' || unit === '') return { ...channel, quantity: 'other' as const };
    // A unit that stands in the line itself stays what the line says.
    const isShown = channel.unit.kind === 'in-line' && channel.unit.expected === unit;
    return { ...channel, quantity, unit: isShown ? channel.unit : { kind: 'fixed' as const, unit } };
  });
  return {
    ok: true,
    profile: readoutProfile.parse({
      ...profile,
      name,
      channels,
      ...(controlLines === undefined ? {} : { controlLines }),
    }),
  };
}
