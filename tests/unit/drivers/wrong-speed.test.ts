/** What a port at a wrong speed makes of real lines, and real lines of which a part is damaged: neither is believed. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { learnLines } from '../../../drivers/learn/learn-lines.ts';
import { INVENTED_READOUTS, type InventedReadout, bytesOf } from './invented-readouts.ts';

const LINES = 40;
/** The usual ones (common practice, no source). */
const BAUD_RATES = [1_200, 2_400, 4_800, 9_600, 19_200, 38_400, 57_600, 115_200] as const;
const LOOKS_A_BIT = 16;

/**
 * Bytes of eight bits without parity, as a receiver of `ratio` times their speed takes them from the line: it looks where
 * the middle of each of its own bits is, and waits for the line to rest before the next start bit.
 */
function heardAt(bytes: Uint8Array, ratio: number): Buffer {
  const isHigh = (at: number): boolean => {
    const byte = bytes[Math.floor(at / 10)];
    const bit = Math.floor(at) % 10;
    if (byte === undefined || bit === 9) return true;
    return bit > 0 && ((byte >> (bit - 1)) & 1) === 1;
  };
  const heard: number[] = [];
  const end = bytes.length * 10;
  for (let at = 0; at < end; at += 1 / LOOKS_A_BIT) {
    if (isHigh(at)) continue;
    let byte = 0;
    for (let bit = 0; bit < 8; bit++) if (isHigh(at + (1.5 + bit) / ratio)) byte |= 1 << bit;
    heard.push(byte);
    at += 9.5 / ratio;
    while (at < end && !isHigh(at)) at += 1 / LOOKS_A_BIT;
  }
  return Buffer.from(heard);
}

const sureOf = (bytes: Uint8Array): number => learnLines(bytes)?.confidence ?? 0;
const readout = fc.constantFrom(...INVENTED_READOUTS);
const seed = fc.integer({ min: 1, max: 1_000 });
const sentBy = (of: InventedReadout, its: number): Buffer => bytesOf(of, { count: LINES, seed: its }).bytes;

it('a receiver of the right speed, or next to it, takes every byte as it was sent', () => {
  fc.assert(
    fc.property(readout, seed, fc.constantFrom(0.97, 1, 1.03), (of, its, ratio) => {
      const sent = sentBy(of, its);
      expect(heardAt(sent, ratio).equals(sent)).toBe(true);
    }),
    { numRuns: 10 },
  );
});

it('at another of the usual speeds a proposal is never nearly as sure as at the right one (S17)', () => {
  const rate = fc.constantFrom(...BAUD_RATES);
  fc.assert(
    fc.property(readout, seed, rate, rate, (of, its, sentAt, listenedAt) => {
      fc.pre(sentAt !== listenedAt);
      const sent = sentBy(of, its);
      expect(sureOf(heardAt(sent, listenedAt / sentAt))).toBeLessThan(0.8 * sureOf(sent));
    }),
    { numRuns: 40 },
  );
});

/** Of the bytes of a damaged line; one in 25 of those becomes another digit. */
const DAMAGED_BYTES = 0.3;

it('of copies of real lines most of which are damaged a proposal is no surer than lines came whole (S17)', () => {
  const chance = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });
  const withEnds = INVENTED_READOUTS.filter(({ terminator }) => terminator !== '');
  fc.assert(
    fc.property(
      fc.constantFrom(...withEnds),
      seed,
      chance,
      fc.infiniteStream(chance),
      (of, its, share, chances) => {
        const next = (): number => Number(chances.next().value);
        const damaged = (byte: number): number => (next() < DAMAGED_BYTES ? Math.floor(next() * 256) : byte);
        const end = of.terminator ?? '\r\n';
        const lines = sentBy(of, its).toString('latin1').split(end).slice(0, -1);
        const came = lines.map((line) =>
          next() < share ? Buffer.from(Buffer.from(line, 'latin1').map(damaged)).toString('latin1') : line,
        );
        const whole = came.filter((line, i) => line === lines[i]).length / lines.length;
        expect(sureOf(Buffer.from(came.join(end) + end, 'latin1'))).toBeLessThan(whole + 0.2);
      },
    ),
    { numRuns: 40 },
  );
});
