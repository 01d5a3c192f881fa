/** Learning from much more than is compared: bounded in what it compares, exact in what it reports. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { learnLines } from '../../../drivers/learn/learn-lines.ts';
import { COMPARED_BYTES_MAX, spreadPieces } from '../../../drivers/learn/spread-pieces.ts';

const ANY = { terminator: 'any' } as const;
const bytesOf = (text: string): Uint8Array => Buffer.from(text, 'latin1');
const linesOf = (count: number, line: (index: number) => string): string =>
  Array.from({ length: count }, (_, index) => line(index)).join('');

describe('the part of many bytes by which layouts are compared', () => {
  it('is bounded, holds whole lines in order, and reaches from the first bytes to the last', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('\n', '\r\n', '\r'),
        fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 200, maxLength: 600 }),
        (end, lengths) => {
          const lines = lengths.map((length, index) => `${index}:${'7'.repeat(length)}`);
          const text = lines.map((line) => line + end).join('');
          const pieces = spreadPieces(bytesOf(text), ANY, 2_000).map((piece) =>
            Buffer.from(piece).toString('latin1'),
          );
          expect(pieces.join('').length).toBeLessThanOrEqual(2_000);
          const seen = pieces.flatMap((piece) => piece.split(/[\r\n]+/).filter((line) => line !== ''));
          const places = seen.map((line) => lines.indexOf(line));
          expect(places).not.toContain(-1);
          expect(places).toEqual([...new Set(places)].sort((a, b) => a - b));
          expect([places[0], places.at(-1)]).toEqual([0, lines.length - 1]);
        },
      ),
    );
  });

  it('is all of it where there is little, and one stretch where nothing begins a record of several lines', () => {
    const bytes = bytesOf('1.5\n'.repeat(1_000));
    expect(spreadPieces(bytes, ANY)).toEqual([bytes]);
    expect(spreadPieces(bytes, { terminator: 'any', lines: { count: 2 } }, 400)).toEqual([
      bytes.subarray(0, 400),
    ]);
  });
});

describe('learning from much', () => {
  it('counts readings and rejected lines over all bytes, not over what was compared', () => {
    // A word that no layout reads stands now and then, where hardly any piece falls.
    const count = 60_000;
    const odd = (index: number): boolean => index % 1_009 === 500;
    const text = linesOf(count, (index) =>
      odd(index) ? 'restart of the display\r\n' : `${(index % 977) / 10 + 100.1}\r\n`,
    );
    expect(text.length).toBeGreaterThan(COMPARED_BYTES_MAX);
    const learnt = learnLines(bytesOf(text));
    const rejected = Array.from({ length: count }, (_, index) => odd(index)).filter(Boolean).length;
    expect(learnt).toMatchObject({ readings: count - rejected, rejected });
  });

  it('sees what comes only long after the beginning', () => {
    // At rest the columns are two figures wide; under load, from the second half on, they are wider.
    const text = linesOf(40_000, (index) =>
      index < 20_000 ? `1${index % 10} 0.1\n` : `${1_000 + (index % 9_000)} ${(index / 1_000).toFixed(1)}\n`,
    );
    expect(text.length).toBeGreaterThan(COMPARED_BYTES_MAX);
    expect(learnLines(bytesOf(text))).toMatchObject({ readings: 40_000, rejected: 0 });
  });

  it('takes lines that come by turns for one record also then', () => {
    const text = linesOf(30_000, (index) =>
      index % 2 === 0 ? `L ${(index / 10).toFixed(1)} kN\r\n` : `E ${(index / 1_000).toFixed(3)} mm\r\n`,
    );
    expect(text.length).toBeGreaterThan(COMPARED_BYTES_MAX);
    const learnt = learnLines(bytesOf(text));
    expect(learnt?.channels.map(({ quantity, unit }) => [quantity, unit])).toEqual([
      ['force', 'kN'],
      ['extension', 'mm'],
    ]);
    expect(learnt).toMatchObject({ readings: 15_000, rejected: 0 });
  });
});
