/** Bytes of seven bits with a parity bit, read as eight: seen by the top bit, which then follows the other seven. */
import type { SerialSettings } from '../../core/contract/readout-profile.ts';

/** Bytes looked at, and how many must follow the rule: a line has noise. */
const BYTES_LOOKED_AT = 4_096;
const FOLLOWING_MIN = 0.97;
const TOP_BITS_MIN = 0.05;

/** The parity that the bytes show; null where the top bit is no parity bit. */
export function parityShown(bytes: Uint8Array): 'even' | 'odd' | null {
  const seen = bytes.subarray(0, BYTES_LOOKED_AT);
  if (seen.length < 16) return null;
  let set = 0;
  let even = 0;
  let printable = 0;
  for (const byte of seen) {
    if (byte >= 0x80) set++;
    if (onesOf(byte) % 2 === 0) even++;
    const low = byte & 0x7f;
    if (
      (low >= 0x20 && low < 0x7f) ||
      low === 0x0d ||
      low === 0x0a ||
      low === 0x09 ||
      low === 0x02 ||
      low === 0x03
    )
      printable++;
  }
  if (set < seen.length * TOP_BITS_MIN || printable < seen.length * FOLLOWING_MIN) return null;
  if (even >= seen.length * FOLLOWING_MIN) return 'even';
  return even <= seen.length * (1 - FOLLOWING_MIN) ? 'odd' : null;
}

/** The bytes as the port would give them with seven data bits. */
export function withoutTopBits(bytes: Uint8Array): Uint8Array {
  return bytes.map((byte) => byte & 0x7f);
}

export function sevenBits(settings: SerialSettings, parity: 'even' | 'odd'): SerialSettings {
  return { ...settings, dataBits: 7, parity };
}

function onesOf(byte: number): number {
  let ones = 0;
  for (let rest = byte; rest > 0; rest >>= 1) ones += rest & 1;
  return ones;
}
