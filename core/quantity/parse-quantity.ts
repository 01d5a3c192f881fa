/** Quantities as people type them: "12.7 mm", "0.5 in", "1/2 in", "1-1/2 in", "1 1/2\"", "22 %". */
import { type Exact, exactFromDecimal, exactRatio, toNumber } from './exact.ts';
import { CORE_UNIT, type Dimension, UNITS, type UnitSymbol, convertExact, unitFromText } from './units.ts';

export interface Quantity {
  /** As it was typed, kept for the record. */
  readonly text: string;
  /** Exact value in the unit that was typed. */
  readonly exact: Exact;
  readonly unit: UnitSymbol;
  readonly dimension: Dimension;
  /** The nearest double in the core's unit of the dimension (mm, N, MPa, …). */
  readonly core: number;
}

export type QuantityFault =
  | { readonly code: 'empty' }
  | { readonly code: 'too-long'; readonly lengthMax: number }
  | { readonly code: 'not-a-number'; readonly numberText: string }
  | { readonly code: 'unit-missing'; readonly dimension: Dimension }
  | { readonly code: 'unit-unknown'; readonly unitText: string }
  | { readonly code: 'wrong-dimension'; readonly unit: UnitSymbol; readonly expected: Dimension }
  | { readonly code: 'not-positive' }
  | { readonly code: 'out-of-range' };

export type QuantityOutcome =
  | { readonly ok: true; readonly quantity: Quantity }
  | { readonly ok: false; readonly fault: QuantityFault };

/** No size, force or stress of a tension test lies outside these magnitudes, in any unit of the core. */
const CORE_MAGNITUDE_MIN = 1e-12;
const CORE_MAGNITUDE_MAX = 1e15;

/** Longest text taken for one quantity. */
export const QUANTITY_TEXT_LENGTH_MAX = 60;

export interface QuantityRule {
  readonly dimension: Dimension;
  /** Unit to assume where none is typed; without it a missing unit is a fault. */
  readonly unitIfMissing?: UnitSymbol;
  /** Refuse zero and below. */
  readonly positive?: boolean;
}

const NUMBER_THEN_UNIT = /^([+-]?[\d.,/\s-]*[\d.](?:[eE][+-]?\d{1,3})?)\s*(.*)$/s;
const FRACTION = /^([+-]?)(?:(\d{1,6})(?:\s+|\s*-\s*))?(\d{1,6})\s*\/\s*(\d{1,6})$/;
const DECIMAL_COMMA = /^[+-]?\d+,\d+$/;
const THOUSANDS = /^[+-]?\d{1,3}(?:[ ,\u00a0\u202f]\d{3})+(?:\.\d+)?$/;

/**
 * Reads one quantity. Decimal comma is understood where it can't be a thousands separator ("12,7 mm");
 * "12,700" is refused as ambiguous rather than guessed.
 */
export function parseQuantity(text: string, rule: QuantityRule): QuantityOutcome {
  const fault = (f: QuantityFault): QuantityOutcome => ({ ok: false, fault: f });
  const trimmed = text.trim();
  if (trimmed === '') return fault({ code: 'empty' });
  if (trimmed.length > QUANTITY_TEXT_LENGTH_MAX)
    return fault({ code: 'too-long', lengthMax: QUANTITY_TEXT_LENGTH_MAX });
  const match = NUMBER_THEN_UNIT.exec(trimmed);
  if (match === null) return fault({ code: 'not-a-number', numberText: trimmed });
  const numberText = (match[1] ?? '').trim();
  const unitText = (match[2] ?? '').trim();
  let unit: UnitSymbol;
  if (unitText === '') {
    if (rule.unitIfMissing === undefined) return fault({ code: 'unit-missing', dimension: rule.dimension });
    unit = rule.unitIfMissing;
  } else {
    const known = unitFromText(unitText);
    if (known === null) return fault({ code: 'unit-unknown', unitText });
    if (known.dimension !== rule.dimension) {
      return fault({ code: 'wrong-dimension', unit: known.symbol as UnitSymbol, expected: rule.dimension });
    }
    unit = known.symbol as UnitSymbol;
  }
  // "66,500 psi" is thousands to everybody who writes psi; "12,700 mm" could be either and is refused.
  const exact = exactFromTypedNumber(numberText, { commaIsThousands: UNITS[unit].system === 'US' });
  if (exact === null) return fault({ code: 'not-a-number', numberText });
  if (rule.positive === true && exact.compare(0) <= 0) return fault({ code: 'not-positive' });
  const core = toNumber(convertExact(exact, unit, CORE_UNIT[rule.dimension]));
  const magnitude = Math.abs(core);
  if (!exact.equals(0) && !(magnitude >= CORE_MAGNITUDE_MIN && magnitude <= CORE_MAGNITUDE_MAX))
    return fault({ code: 'out-of-range' });
  return { ok: true, quantity: { text: trimmed, exact, unit, dimension: rule.dimension, core } };
}

/** The exact value of "0.5", "1/2", "1-1/2", "1 1/2", "12,7" or "66 500"; null where the text is none of these. */
export function exactFromTypedNumber(
  numberText: string,
  { commaIsThousands = false }: { readonly commaIsThousands?: boolean } = {},
): Exact | null {
  const fraction = FRACTION.exec(numberText);
  if (fraction !== null) {
    const [, sign, whole = '0', top = '0', bottom = '1'] = fraction;
    if (BigInt(bottom) === 0n) return null;
    const value = exactRatio(BigInt(whole) * BigInt(bottom) + BigInt(top), BigInt(bottom));
    return sign === '-' ? value.neg() : value;
  }
  if (DECIMAL_COMMA.test(numberText)) {
    const threeBehind = /^[+-]?[1-9]\d{0,2},\d{3}$/.test(numberText);
    if (!threeBehind) return exactFromDecimal(numberText.replace(',', '.'));
    return commaIsThousands ? exactFromDecimal(numberText.replace(',', '')) : null;
  }
  if (THOUSANDS.test(numberText)) return exactFromDecimal(numberText.replace(/[ ,\u00a0\u202f]/g, ''));
  return exactFromDecimal(numberText);
}

/** What a value of each dimension looks like; a length where nobody says what is wanted. */
const EXAMPLES: Readonly<Partial<Record<Dimension, readonly string[]>>> = {
  force: ['"12.5 kN"', '"2810 lbf"'],
  stress: ['"485 MPa"', '"70 ksi"'],
  strain: ['"22 %"'],
};
const LENGTH_EXAMPLES = ['"12.7 mm"', '"0.5 in"', '"1/2 in"'] as const;

/** "9.9O mm", "71 9OO psi": a figure, and what looks like another one where the unit should begin. */
const LETTER_IN_NUMBER = /^[+-]?[\d.,\s]*\d[\d.,]*[OoIl][OoIl\d.,]*(?:\s|$)/;

/** The sentence for a fault: what is wrong and what to do. `wanted`: whose example is given. */
export function quantityFaultSentence(
  fault: QuantityFault,
  text: string,
  wanted: Dimension = 'length',
): string {
  const examples = EXAMPLES[wanted] ?? LENGTH_EXAMPLES;
  switch (fault.code) {
    case 'empty':
      return `Nothing is entered; type a value with its unit, for example ${[examples[0], examples.at(-1)].filter((one, i, all) => all.indexOf(one) === i).join(' or ')}.`;
    case 'too-long':
      return `The text is longer than ${String(fault.lengthMax)} characters; type one value with its unit.`;
    case 'not-a-number':
      return `"${text.slice(0, QUANTITY_TEXT_LENGTH_MAX)}" is not one number with a unit; type it like ${examples.length === 1 ? (examples[0] ?? '') : `${examples.slice(0, -1).join(', ')} or ${examples.at(-1) ?? ''}`}.`;
    case 'unit-missing':
      return `"${text}" has no unit; add one, for example ${unitsToChoose(fault.dimension, text)
        .map((unit) => `"${text} ${unit}"`)
        .join(' or ')}.`;
    case 'unit-unknown':
      if (LETTER_IN_NUMBER.test(text.trim()))
        return `"${text}" has a letter among its figures; type 0 for the letter O and 1 for the letters l and I.`;
      return `The unit "${fault.unitText.slice(0, 20)}" in "${text}" is not known; use for example mm, in, N, kN, lbf, MPa, psi or ksi.`;
    case 'wrong-dimension':
      return `"${text}" is given in ${fault.unit}, but a ${fault.expected} is needed here; use for example ${CORE_UNIT[fault.expected]}.`;
    case 'out-of-range':
      return `"${text}" is beyond anything that can be measured; check the number and its exponent.`;
    case 'not-positive':
      return `"${text}" is not greater than zero; measure again and type the value read.`;
  }
}

/** A stress above this is meant in psi, one below the other in ksi, by anybody (common practice, no source). */
const PSI_ABOVE = 2_500;
const KSI_BELOW = 200;

function unitsToChoose(dimension: Dimension, text: string): readonly string[] {
  const value = toNumber(exactFromTypedNumber(text.trim(), { commaIsThousands: true }) ?? exactRatio(0n, 1n));
  if (dimension === 'length') return ['mm', 'in'];
  if (dimension === 'force') return ['N', 'lbf'];
  if (dimension !== 'stress') return [CORE_UNIT[dimension]];
  if (value > PSI_ABOVE) return ['psi'];
  return value < KSI_BELOW ? ['ksi', 'MPa'] : ['MPa'];
}
