/** The double nearest to a ratio of whole numbers, rounded once (ties to even). */

/** A quotient of this many bits, with everything below it gathered in one sticky bit, rounds correctly to 53. */
const QUOTIENT_BITS = 64;
const SAFE = BigInt(Number.MAX_SAFE_INTEGER);

/** `bottom` must be greater than zero. Results outside the normal doubles are not met here and not treated. */
export function ratioToDouble(top: bigint, bottom: bigint): number {
  if (bottom <= 0n) throw new RangeError('the denominator must be greater than zero');
  if (top === 0n) return 0;
  const size = top < 0n ? -top : top;
  // Both exact as doubles: one division, rounded once by the processor.
  if (size <= SAFE && bottom <= SAFE) return Number(top) / Number(bottom);
  const shift = QUOTIENT_BITS - (bitLength(size) - bitLength(bottom));
  const scaledTop = shift > 0 ? size << BigInt(shift) : size;
  const scaledBottom = shift < 0 ? bottom << BigInt(-shift) : bottom;
  const quotient = scaledTop / scaledBottom;
  const sticky = quotient * scaledBottom === scaledTop ? 0n : 1n;
  const value = Number((quotient << 1n) | sticky) * 2 ** -(shift + 1);
  return top < 0n ? -value : value;
}

function bitLength(value: bigint): number {
  const hex = value.toString(16);
  return (hex.length - 1) * 4 + (32 - Math.clz32(Number.parseInt(hex.charAt(0), 16)));
}
