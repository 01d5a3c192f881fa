/** From the text of a field to a channel's reading: number, unit, status. */
import {
  type ReadoutChannel,
  type ReadoutProfile,
  expectedUnitOf,
} from '../../core/contract/readout-profile.ts';
import { exactFromDecimal, toNumber } from '../../core/quantity/exact.ts';
import { UNITS, type UnitSymbol, unitFromText } from '../../core/quantity/units.ts';
import type { ShownValue, ChannelStatus } from '../reading.ts';
import { ClockScanner } from './clock-grammar.ts';
import { NumberScanner } from './number-grammar.ts';
import { keyOf, numericWords, statusOfWord } from './status-words.ts';

/** `unitText` is the text of the field that holds the unit, where the profile names one. */
export type ChannelMeaning = (field: string, unitText: string | undefined) => ShownValue;

/** Other units that one readout may show; more spellings than these are noise. */
const UNIT_SPELLINGS_MAX = 64;

/** What the fields of one channel mean. */
export function channelMeaning(channel: ReadoutChannel, profile: ReadoutProfile): ChannelMeaning {
  const scanner = new NumberScanner(profile);
  const statusOf = statusOfWord(profile.words);
  const wordsLikeNumbers = numericWords(profile.words);
  const expected = expectedUnitOf(channel);
  const unitOf = unitReader(channel, expected);
  const outside = rangeCheck(channel);
  const clock = channel.written === 'clock' ? new ClockScanner(profile) : null;
  const none = (status: ChannelStatus): ShownValue => ({
    mantissa: null,
    exponent: 0,
    unit: expected,
    status,
  });

  return (field, unitText) => {
    let start = 0;
    let end = field.length;
    while (start < end && field.charCodeAt(start) <= 32) start++;
    while (end > start && field.charCodeAt(end - 1) <= 32) end--;
    if (wordsLikeNumbers.size > 0 && wordsLikeNumbers.has(keyOf(field))) return none(statusOf(field));
    const behind = (clock ?? scanner).scan(field, start, end);
    if (behind === -1) {
      // "OL kN": the word stands before the unit.
      const text = field.slice(start, end);
      const whole = statusOf(text);
      return none(whole === 'malformed' ? statusOf(/^\S*/.exec(text)?.[0] ?? '') : whole);
    }
    let unit = expected;
    if (unitOf === null) {
      if (behind !== end) return none('malformed');
    } else {
      if (unitText !== undefined && behind !== end) return none('malformed');
      const found = unitOf(unitText ?? field.slice(behind, end));
      if (found === null) return none('malformed');
      unit = found;
    }
    const { mantissa, exponent } = clock ?? scanner;
    const status = outside(mantissa, exponent, unit) ? 'out-of-range' : 'ok';
    // A clock's number is worked out of its parts; what it showed is in the raw line only.
    if (clock !== null || scanner.exact === null) return { mantissa, exponent, unit, status };
    return { mantissa, exponent, unit, status, exact: scanner.exact };
  };
}

/** The unit in the line: one known, of the channel's dimension; null otherwise. Fixed units have no reader. */
function unitReader(
  channel: ReadoutChannel,
  expected: UnitSymbol,
): ((text: string) => UnitSymbol | null) | null {
  const { unit } = channel;
  if (unit.kind === 'fixed') return null;
  const spelled = new Map(
    Object.entries(unit.spellings ?? {}).map(([text, symbol]) => [keyOf(text), symbol]),
  );
  const known = new Map<string, UnitSymbol | null>();
  return (text) => {
    const before = known.get(text);
    if (before !== undefined) return before;
    const key = keyOf(text);
    const symbol = spelled.get(key) ?? symbolOfDimension(key === '' ? '' : text, expected);
    if (known.size < UNIT_SPELLINGS_MAX) known.set(text, symbol);
    return symbol;
  };
}

/** On a force readout "lb" and "kg" are pound-force and kilogram-force (common practice, no source). */
const FORCE_OF_MASS: Readonly<Partial<Record<UnitSymbol, UnitSymbol>>> = { lb: 'lbf', kg: 'kgf' };

function symbolOfDimension(text: string, expected: UnitSymbol): UnitSymbol | null {
  const found = unitFromText(text)?.symbol as UnitSymbol | undefined;
  if (found === undefined) return null;
  const { dimension } = UNITS[expected];
  if (UNITS[found].dimension === dimension) return found;
  const meant = dimension === 'force' ? FORCE_OF_MASS[found] : undefined;
  return meant ?? null;
}

function rangeCheck(
  channel: ReadoutChannel,
): (mantissa: number, exponent: number, unit: UnitSymbol) => boolean {
  if (channel.range === undefined) return () => false;
  const number = (text: string): number => {
    const exact = exactFromDecimal(text);
    return exact === null ? Number.NaN : toNumber(exact);
  };
  const min = number(channel.range.min);
  const max = number(channel.range.max);
  const scale = number(channel.scale);
  const offset = number(channel.offset);
  const sign = channel.sign === 'inverted' ? -1 : 1;
  const expected = expectedUnitOf(channel);
  return (mantissa, exponent, unit) => {
    const shown = (mantissa * 10 ** exponent * scale + offset) * sign;
    const value =
      unit === expected ? shown : shown * toNumber(UNITS[unit].toCore.div(UNITS[expected].toCore));
    return value < min || value > max;
  };
}
