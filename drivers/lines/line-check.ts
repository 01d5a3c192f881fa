/** The check that a line carries at its end: whether it is there, and whether it is right. */
import type { LineCheck } from '../../core/contract/readout-profile.ts';

export type CheckedLine =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly found: string | null };

/** Cuts the check off a line and compares it. `leading` are the framing's bytes before the text. */
export function lineChecker(check: LineCheck, leading = ''): (text: string) => CheckedLine {
  const width = writtenWidth(check);
  return (text) => {
    const written = width === null ? decimalTail(text, check.marker) : text.slice(-width);
    if (written === null || text.length < written.length + check.marker.length)
      return { ok: false, found: null };
    const markerAt = text.length - written.length - check.marker.length;
    if (!text.startsWith(check.marker, markerAt)) return { ok: false, found: null };
    const summed =
      (check.leadingSummed ? leading : '') +
      text.slice(check.skipped, markerAt + (check.markerSummed ? check.marker.length : 0));
    const expected = writeCheck(check, checkValue(check.kind, Buffer.from(summed, 'latin1')));
    const same = check.written === 'hex-any' ? expected === written.toUpperCase() : expected === written;
    return same ? { ok: true, text: text.slice(0, markerAt) } : { ok: false, found: written };
  };
}

/** The check of some bytes as a number. */
export function checkValue(kind: LineCheck['kind'], bytes: Uint8Array): number {
  switch (kind) {
    case 'xor':
      return bytes.reduce((sum, byte) => sum ^ byte, 0);
    case 'sum':
      return bytes.reduce((sum, byte) => (sum + byte) & 0xff, 0);
    case 'sum16':
      return bytes.reduce((sum, byte) => (sum + byte) & 0xffff, 0);
    case 'sum-twos-complement':
      return -bytes.reduce((sum, byte) => (sum + byte) & 0xff, 0) & 0xff;
    case 'crc16-modbus':
      return crcReflected(bytes, 0xffff, 0xa001);
    case 'crc16-arc':
      return crcReflected(bytes, 0, 0xa001);
    case 'crc16-ccitt':
      return crcForward(bytes, { start: 0xffff, polynomial: 0x1021, bits: 16 });
    case 'crc16-xmodem':
      return crcForward(bytes, { start: 0, polynomial: 0x1021, bits: 16 });
    case 'crc8':
      return crcForward(bytes, { start: 0, polynomial: 0x07, bits: 8 });
    case 'crc8-maxim':
      return crcReflected(bytes, 0, 0x8c);
  }
}

/** The check as it is written in the line. */
export function writeCheck(
  check: Pick<LineCheck, 'kind' | 'written'> & Partial<Pick<LineCheck, 'lowByteFirst'>>,
  inOrder: number,
): string {
  const isSwapped = check.lowByteFirst === true && hexDigits(check.kind) === 4;
  const value = isSwapped ? ((inOrder & 0xff) << 8) | (inOrder >> 8) : inOrder;
  switch (check.written) {
    case 'hex-upper':
    case 'hex-any':
      return value.toString(16).toUpperCase().padStart(hexDigits(check.kind), '0');
    case 'hex-lower':
      return value.toString(16).padStart(hexDigits(check.kind), '0');
    case 'decimal':
      return String(value).padStart(3, '0');
    case 'decimal-modulo-100':
      return String(value % 100).padStart(2, '0');
    case 'byte':
      return hexDigits(check.kind) === 2
        ? String.fromCharCode(value)
        : String.fromCharCode(value >> 8, value & 0xff);
  }
}

function hexDigits(kind: LineCheck['kind']): number {
  return kind.startsWith('crc16') || kind === 'sum16' ? 4 : 2;
}

/** Characters of the check; null where it varies. */
function writtenWidth(check: LineCheck): number | null {
  switch (check.written) {
    case 'hex-upper':
    case 'hex-lower':
    case 'hex-any':
      return hexDigits(check.kind);
    case 'decimal-modulo-100':
      return 2;
    case 'decimal':
      return hexDigits(check.kind) === 2 ? 3 : null;
    case 'byte':
      return hexDigits(check.kind) / 2;
  }
}

function decimalTail(text: string, marker: string): string | null {
  const at = marker === '' ? -1 : text.lastIndexOf(marker);
  const tail = at === -1 ? '' : text.slice(at + marker.length);
  return /^\d{1,5}$/.test(tail) ? tail : null;
}

/** Least significant bit first, as Modbus over serial line defines its CRC-16. */
function crcReflected(bytes: Uint8Array, start: number, polynomial: number): number {
  let crc = start;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc & 1) === 1 ? (crc >>> 1) ^ polynomial : crc >>> 1;
  }
  return crc;
}

function crcForward(
  bytes: Uint8Array,
  { start, polynomial, bits }: { readonly start: number; readonly polynomial: number; readonly bits: 8 | 16 },
): number {
  const top = 1 << (bits - 1);
  const mask = (1 << bits) - 1;
  let crc = start;
  for (const byte of bytes) {
    crc ^= byte << (bits - 8);
    for (let bit = 0; bit < 8; bit++) crc = ((crc & top) === 0 ? crc << 1 : (crc << 1) ^ polynomial) & mask;
  }
  return crc;
}
