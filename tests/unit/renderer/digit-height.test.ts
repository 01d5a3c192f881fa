/** The height that is promised for digits read at the frame, against the file of the face itself. */
import { readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import {
  DIGIT_HEIGHT_OF_EM,
  DIGIT_MM_MAX,
  DIGIT_MM_MIN,
  digitFontSize,
  grownWith,
  fontSizeForDigitMm,
  sharedFontSize,
} from '../../../renderer/design/theme.ts';

/** Tables of a WOFF file (W3C WOFF 1.0, 2012, section 4: twenty bytes of directory for each table). */
function tableOf(file: Buffer, tag: string): Buffer {
  for (let at = 44; at < 44 + 20 * file.readUInt16BE(12); at += 20) {
    if (file.toString('latin1', at, at + 4) !== tag) continue;
    const [from, packed, length] = [4, 8, 12].map((off) => file.readUInt32BE(at + off)) as [
      number,
      number,
      number,
    ];
    const bytes = file.subarray(from, from + packed);
    return packed < length ? inflateSync(bytes) : bytes;
  }
  throw new Error(`the face has no ${tag}`);
}

/** Highest point of a character as part of the em (OpenType: cmap format 4, loca, head of a glyph). */
function heightOf(file: Buffer, character: string): number {
  const cmap = tableOf(file, 'cmap');
  const head = tableOf(file, 'head');
  const loca = tableOf(file, 'loca');
  const code = character.charCodeAt(0);
  const tables = Array.from({ length: cmap.readUInt16BE(2) }, (_, i) => cmap.readUInt32BE(8 + i * 8));
  const at = tables.find((one) => cmap.readUInt16BE(one) === 4);
  if (at === undefined) throw new Error('no table of characters of format 4');
  const segments = cmap.readUInt16BE(at + 6) / 2;
  const entry = (block: number, i: number): number =>
    at + 14 + block * segments * 2 + i * 2 + (block > 0 ? 2 : 0);
  const i = Array.from({ length: segments }, (_, n) => n).find((n) => cmap.readUInt16BE(entry(0, n)) >= code);
  if (i === undefined) throw new Error(`${character} is not in the face`);
  const range = cmap.readUInt16BE(entry(3, i));
  const delta = cmap.readInt16BE(entry(2, i));
  const glyph =
    range === 0
      ? code + delta
      : cmap.readUInt16BE(entry(3, i) + range + 2 * (code - cmap.readUInt16BE(entry(1, i)))) + delta;
  const number = ((glyph % 65_536) + 65_536) % 65_536;
  const long = head.readInt16BE(50) === 1;
  const begins = long ? loca.readUInt32BE(number * 4) : 2 * loca.readUInt16BE(number * 2);
  return tableOf(file, 'glyf').readInt16BE(begins + 8) / head.readUInt16BE(18);
}

const bold = readFileSync(
  new URL('../../../node_modules/@fontsource/b612/files/b612-latin-700-normal.woff', import.meta.url),
);

describe('digits at the frame', () => {
  it('are no lower than the height of a digit in the face that is promised', () => {
    // The flat top of 7; rounded tops reach a little above it.
    expect(heightOf(bold, '7')).toBeCloseTo(DIGIT_HEIGHT_OF_EM, 2);
    for (const digit of '0123456789')
      expect(heightOf(bold, digit)).toBeGreaterThan(DIGIT_HEIGHT_OF_EM - 0.01);
  });

  // CSS Values and Units, absolute lengths: 96 px are 25.4 mm. Issue 7: 13 mm at least, to 25.
  it('have their height in millimetres at 96 dots to the inch', () => {
    expect(fontSizeForDigitMm(13) * DIGIT_HEIGHT_OF_EM).toBeCloseTo((13 / 25.4) * 96, 9);
    expect([DIGIT_MM_MIN, DIGIT_MM_MAX]).toEqual([13, 25]);
  });

  it('have the chosen height at the load, and elsewhere never less than 13 mm', () => {
    const px = (mm: number): string => `${fontSizeForDigitMm(mm).toFixed(1)}px`;
    expect(digitFontSize('25')).toBe(px(25));
    for (const chosen of ['fit', '13', '18', '25'] as const) {
      const size = sharedFontSize(chosen, { ems: 10, taken: '4px' });
      expect(size.startsWith(`clamp(${px(13)}, calc((100cqi - 4px) / 10.00), `)).toBe(true);
      if (chosen !== 'fit') expect(size.endsWith(`, ${px(Number(chosen))})`)).toBe(true);
    }
  });

  it('take the words beside them along, once they are larger than usual', () => {
    expect((['fit', '13', '18'] as const).map(grownWith)).toEqual([1, 1, 1]);
    expect(grownWith('25')).toBeCloseTo(25 / 18, 9);
  });
});
