/** Numbers as they stand in a working: plain digits, no exponent in the range that people measure in. */

/** Significant digits of a value that is shown unrounded; one more than a calliper and a load cell give together. */
export const WORKING_DIGITS = 6;

/** A value with at most `digits` significant digits, trailing zeros cut ("0.06021875" → "0.0602188"). */
export function numberText(value: number, digits: number = WORKING_DIGITS): string {
  if (value === 0) return '0';
  const nearest = Number(value.toPrecision(digits));
  // Next to the largest double the rounded one would be infinite.
  const rounded = Number.isFinite(nearest) ? nearest : value;
  const magnitude = Math.abs(rounded);
  if (magnitude >= 1e15 || magnitude < 1e-9) return String(rounded);
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(magnitude)));
  const text = rounded.toFixed(Math.min(decimals, 20));
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
