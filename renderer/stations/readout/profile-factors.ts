/** Scale and offset of a profile's numbers as they are typed, and the profile that comes of them. */
import { type ReadoutProfile, expectedUnitOf } from '../../../core/contract/readout-profile.ts';
import { exactFromDecimal } from '../../../core/quantity/exact.ts';
import { exactFromTypedNumber } from '../../../core/quantity/parse-quantity.ts';
import type { UnitSymbol } from '../../../core/quantity/units.ts';

export interface TypedFactors {
  readonly scale: string;
  readonly offset: string;
}
/** By the field of its number. */
export type FactorsDraft = Readonly<Record<string, TypedFactors>>;

export interface FactorsChannel extends TypedFactors {
  readonly field: string;
  readonly quantity: ReadoutProfile['channels'][number]['quantity'];
  /** Of the value, and so of the offset; the scale has none. */
  readonly unit: UnitSymbol;
}

/** Numbers that mean something to the record, with what the profile says of them now. */
export const factorsOf = ({ channels }: ReadoutProfile): FactorsChannel[] =>
  channels
    .filter(({ quantity }) => quantity !== 'other')
    .map((channel) => ({
      field: channel.field,
      quantity: channel.quantity,
      unit: expectedUnitOf(channel),
      scale: channel.scale,
      offset: channel.offset,
    }));

export const factorsDraft = (profile: ReadoutProfile): FactorsDraft =>
  Object.fromEntries(factorsOf(profile).map(({ field, scale, offset }) => [field, { scale, offset }]));

/** As the profile takes it: "0,25" is written "0.25"; null where the text is no plain number. */
function decimalOf(typed: string): string | null {
  const text = typed.trim().replace('−', '-');
  if (exactFromDecimal(text) !== null) return text;
  return /^[+-]?\d+,\d+$/.test(text) && exactFromTypedNumber(text) !== null ? text.replace(',', '.') : null;
}

export type FactorFault = 'no-number' | 'zero';
export interface FactorsFaults {
  /** By `FIELD scale` and `FIELD offset`. */
  readonly entries: ReadonlyMap<string, FactorFault>;
  readonly name: 'missing' | 'built-in' | null;
}

export type FactorsOutcome =
  | { readonly ok: true; readonly profile: ReadoutProfile }
  | { readonly ok: false; readonly faults: FactorsFaults };

/** `builtIn`: names that are taken by what comes with the program, which nobody changes. */
export function profileWithFactors(
  profile: ReadoutProfile,
  draft: FactorsDraft,
  { name, builtIn }: { readonly name: string; readonly builtIn: readonly string[] },
): FactorsOutcome {
  const entries = new Map<string, FactorFault>();
  const read = (field: string, which: keyof TypedFactors, before: string): string => {
    const text = decimalOf(draft[field]?.[which] ?? before);
    if (text === null) entries.set(`${field} ${which}`, 'no-number');
    else if (which === 'scale' && exactFromDecimal(text)?.equals(0) === true)
      entries.set(`${field} ${which}`, 'zero');
    return text ?? before;
  };
  const channels = profile.channels.map((channel) =>
    channel.quantity === 'other'
      ? channel
      : {
          ...channel,
          scale: read(channel.field, 'scale', channel.scale),
          offset: read(channel.field, 'offset', channel.offset),
        },
  );
  const called = name.trim();
  const nameFault = called === '' ? 'missing' : builtIn.includes(called) ? 'built-in' : null;
  if (entries.size > 0 || nameFault !== null) return { ok: false, faults: { entries, name: nameFault } };
  return { ok: true, profile: { ...profile, name: called, channels } };
}
