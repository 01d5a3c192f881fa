/** Loss bound of the recorder: what is in hand between reading and writing down never holds more than one line. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LinePace, SINGLE_LINES_MAX } from '../../../drivers/serial/line-pace.ts';

/** Reads a queue as the port does: pieces up to the end of a line, or to the end of what is there. */
function chunksOf(pace: LinePace, queue: Buffer): Buffer[] {
  const chunks: Buffer[] = [];
  for (let at = 0; at < queue.length;) {
    const from = at;
    for (;;) {
      const asked = pace.next();
      const piece = queue.subarray(at, at + asked);
      const endsLine = pace.took(piece);
      at += piece.length;
      if (piece.length < asked) pace.emptied();
      if (endsLine || piece.length < asked) break;
    }
    chunks.push(queue.subarray(from, at));
  }
  return chunks;
}

const line = (length: number, end: string): string => '7'.repeat(length) + end;
const ends = fc.constantFrom('\n', '\r\n', '\r');

describe('reading a port line by line', () => {
  it('takes one whole line at a time out of a queue of lines that are equally long', () => {
    fc.assert(
      fc.property(
        ends,
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 40 }),
        (end, length, count) => {
          const pace = new LinePace('any');
          // The first line tells the length, and whether CR or LF ends it.
          chunksOf(pace, Buffer.from(line(length, end).repeat(2)));
          pace.emptied();
          const chunks = chunksOf(pace, Buffer.from(line(length, end).repeat(count)));
          expect(chunks.map(String)).toEqual(Array.from({ length: count }, () => line(length, end)));
        },
      ),
    );
  });

  it('loses no byte, and holds at most one line when the next is longer than those before', () => {
    fc.assert(
      fc.property(
        ends,
        fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 30 }),
        (end, lengths) => {
          const growing = lengths.toSorted((a, b) => a - b);
          const queue = Buffer.from(growing.map((length) => line(length, end)).join(''));
          const chunks = chunksOf(new LinePace('any'), queue);
          expect(Buffer.concat(chunks)).toEqual(queue);
          const last = end.slice(-1);
          for (const chunk of chunks) expect(String(chunk).split(last).length - 1).toBeLessThanOrEqual(1);
        },
      ),
    );
  });

  it('loses no byte whatever comes, and never asks for nothing', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 3_000 }), (bytes) => {
        expect(Buffer.concat(chunksOf(new LinePace('any'), Buffer.from(bytes)))).toEqual(Buffer.from(bytes));
      }),
    );
  });

  it('knows a terminator of the profile’s own', () => {
    const pace = new LinePace({ custom: '\u0003' });
    const text = 'L=12.5\u0003'.repeat(5);
    expect(chunksOf(pace, Buffer.from(text)).map(String)).toEqual(
      Array.from({ length: 5 }, () => 'L=12.5\u0003'),
    );
  });

  it('reads a flood as fast as it can, and singly again when it is over', () => {
    const pace = new LinePace('lf');
    const flood = Buffer.from(line(20, '\n').repeat(SINGLE_LINES_MAX + 500));
    const chunks = chunksOf(pace, flood);
    expect(chunks.length).toBe(SINGLE_LINES_MAX + 1);
    chunksOf(pace, Buffer.from(line(20, '\n')));
    expect(chunksOf(pace, Buffer.from(line(20, '\n').repeat(5)))).toHaveLength(5);
  });

  it('reads as fast as it can where no line ever ends', () => {
    expect(chunksOf(new LinePace('lf'), Buffer.alloc(60_000, 'x'))).toHaveLength(1);
  });
});
