/**
 * From the decimal that a readout showed to the core's unit: (shown × scale + offset) × sign × unit factor − zero,
 * in exact arithmetic, rounded once to the nearest double. The same readings give the same doubles, live or from
 * the archive, today or in ten years.
 */
import type { ReadoutChannel } from '../contract/readout-profile.ts';
import { expectedUnitOf } from '../contract/readout-profile.ts';
import type { ChannelInfo, ShownValue } from '../contract/reading.ts';
import { type Exact, exactFromDecimal, exactRatio, toNumber } from '../quantity/exact.ts';
import { CORE_UNIT, UNITS, type UnitSymbol } from '../quantity/units.ts';
import { ratioToDouble } from './ratio-to-double.ts';

/** Values remembered a channel: a readout shows the same numbers again and again. */
const REMEMBERED_MAX = 65_536;

/** value × Q = mantissa × A + B, for one exponent and one unit. */
interface Line {
  readonly a: bigint;
  readonly b: bigint;
  readonly q: bigint;
  /** The same as doubles, for mantissas up to `exactMax`: both products and the sum are then whole and exact. */
  readonly aDouble: number;
  readonly bDouble: number;
  readonly qDouble: number;
  readonly exactMax: number;
  readonly remembered: Map<number, number>;
}

/** Unit of a channel's values on the way out. */
export function coreUnitOf(channel: ReadoutChannel): UnitSymbol {
  const expected = expectedUnitOf(channel);
  return channel.quantity === 'other' ? expected : CORE_UNIT[UNITS[expected].dimension];
}

export function channelInfoOf(channel: ReadoutChannel): ChannelInfo {
  return {
    key: channel.field,
    quantity: channel.quantity,
    unit: expectedUnitOf(channel),
    coreUnit: coreUnitOf(channel),
  };
}

/** Converts the values of one channel; made once, since working out the exact line costs more than using it. */
export class ChannelConverter {
  readonly info: ChannelInfo;
  readonly #channel: ReadoutChannel;
  readonly #zero: Exact;
  readonly #lines = new Map<string, Line>();
  /** A readout seldom changes its unit or its decimals. */
  #last: { readonly exponent: number; readonly unit: UnitSymbol; readonly line: Line } | null = null;

  /** `zero` is taken off in the core's unit. */
  constructor(channel: ReadoutChannel, zero: Exact = exactRatio(0n, 1n)) {
    this.#channel = channel;
    this.#zero = zero;
    this.info = channelInfoOf(channel);
  }

  /** In the core's unit; NaN where there is no value to be used. */
  value({ status, mantissa, exponent, unit }: ShownValue): number {
    if (status !== 'ok' || mantissa === null) return Number.NaN;
    return this.convert(mantissa, exponent, unit);
  }

  /** What one last digit of a value shown is worth, in the core's unit; null where no number was shown. */
  lastDigit({ mantissa, exponent, unit }: ShownValue): number | null {
    if (mantissa === null) return null;
    const { a, q } = this.#line(exponent, unit);
    return a === 0n ? null : Math.abs(ratioToDouble(a, q));
  }

  /** A number as shown, whatever its status says. */
  convert(mantissa: number, exponent: number, unit: UnitSymbol): number {
    const line = this.#line(exponent, unit);
    // One division of two exact doubles, rounded once by the processor: what `ratioToDouble` would do.
    if (mantissa <= line.exactMax && mantissa >= -line.exactMax)
      return (mantissa * line.aDouble + line.bDouble) / line.qDouble;
    const known = line.remembered.get(mantissa);
    if (known !== undefined) return known;
    const value = ratioToDouble(BigInt(mantissa) * line.a + line.b, line.q);
    if (line.remembered.size >= REMEMBERED_MAX) line.remembered.clear();
    line.remembered.set(mantissa, value);
    return value;
  }

  /** Numbers as shown, in one unit and with the same decimals, into `into`; NaN stays NaN. */
  convertColumn(mantissas: Float64Array, exponent: number, unit: UnitSymbol, into: Float64Array): void {
    const { aDouble, bDouble, qDouble, exactMax } = this.#line(exponent, unit);
    for (let i = 0; i < mantissas.length; i++) {
      const mantissa = mantissas[i] ?? Number.NaN;
      if (mantissa <= exactMax && mantissa >= -exactMax) into[i] = (mantissa * aDouble + bDouble) / qDouble;
      else into[i] = Number.isNaN(mantissa) ? Number.NaN : this.convert(mantissa, exponent, unit);
    }
  }

  /** The exact value, for zeros that are kept. */
  exact(mantissa: number, exponent: number, unit: UnitSymbol): Exact {
    const { a, b, q } = this.#line(exponent, unit);
    return exactRatio(BigInt(mantissa) * a + b, q);
  }

  #line(exponent: number, unit: UnitSymbol): Line {
    const last = this.#last;
    if (last !== null && last.exponent === exponent && last.unit === unit) return last.line;
    const line = this.#lineOf(exponent, unit);
    this.#last = { exponent, unit, line };
    return line;
  }

  #lineOf(exponent: number, unit: UnitSymbol): Line {
    const key = `${exponent} ${unit}`;
    const known = this.#lines.get(key);
    if (known !== undefined) return known;
    const power =
      exponent < 0 ? exactRatio(1n, 10n ** BigInt(-exponent)) : exactRatio(10n ** BigInt(exponent), 1n);
    const sign = this.#channel.sign === 'inverted' ? -1 : 1;
    const factor = UNITS[unit].toCore.div(UNITS[coreUnitOf(this.#channel)].toCore).mul(sign);
    const slope = power.mul(decimal(this.#channel.scale)).mul(factor);
    const intercept = decimal(this.#channel.offset).mul(factor).sub(this.#zero);
    const q = slope.d * intercept.d;
    const a = slope.s * slope.n * intercept.d;
    const b = intercept.s * intercept.n * slope.d;
    const line: Line = {
      a,
      b,
      q,
      aDouble: Number(a),
      bDouble: Number(b),
      qDouble: Number(q),
      exactMax: exactMaxOf(a, b, q),
      remembered: new Map(),
    };
    this.#lines.set(key, line);
    return line;
  }
}

/** The largest mantissa for which a·mantissa + b stays a safe integer; −1 where none does or q is none. */
function exactMaxOf(a: bigint, b: bigint, q: bigint): number {
  const size = (value: bigint): bigint => (value < 0n ? -value : value);
  if (q > SAFE || size(b) > SAFE) return -1;
  return a === 0n ? Number.MAX_SAFE_INTEGER : Number((SAFE - size(b)) / size(a));
}
const SAFE = BigInt(Number.MAX_SAFE_INTEGER);

function decimal(text: string): Exact {
  const value = exactFromDecimal(text);
  if (value === null)
    throw new RangeError(`"${text}" is not a decimal; the profile should have been checked`);
  return value;
}

/** The zero of a channel as it is kept: an exact ratio as text, "-1113/500". */
export function zeroText(zero: Exact): string {
  return zero.toFraction();
}

/** Reads a kept zero; null where the text is none. */
export function zeroFromText(text: string): Exact | null {
  const match = /^(-?\d{1,60})(?:\/(\d{1,60}))?$/.exec(text);
  if (match === null) return null;
  const bottom = BigInt(match[2] ?? '1');
  return bottom === 0n ? null : exactRatio(BigInt(match[1] ?? '0'), bottom);
}

export const zeroNumber = (zero: Exact): number => toNumber(zero);
