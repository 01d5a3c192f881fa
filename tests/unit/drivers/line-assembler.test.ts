import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Framing } from '../../../core/contract/readout-profile.ts';
import { LINE_BYTES_MAX, LINE_SILENCE_MS_MAX } from '../../../core/limits.ts';
import { LineAssembler } from '../../../drivers/lines/line-assembler.ts';

type Terminator = Framing['terminator'];

function assemble(
  terminator: Terminator,
  chunks: readonly (string | Uint8Array)[],
  { end = true } = {},
): [string, string][] {
  const assembler = new LineAssembler({ terminator });
  const lines = chunks.flatMap((chunk) =>
    assembler.push(typeof chunk === 'string' ? Buffer.from(chunk, 'latin1') : chunk, 0),
  );
  return [...lines, ...(end ? assembler.end() : [])].map((line) => {
    const text = line.bytes.toString('latin1');
    // The text is cut out of a piece that was decoded once: it must never be that of another line.
    expect(line.text).toBe(text);
    return [text, line.end];
  });
}

describe('terminators (S14)', () => {
  it.each<[string, Terminator, string]>([
    ['CR', 'any', '1\r2\r3\r'],
    ['LF', 'any', '1\n2\n3\n'],
    ['CRLF', 'any', '1\r\n2\r\n3\r\n'],
    ['a mixture', 'any', '1\r\n2\r3\n'],
    ['CR alone', 'cr', '1\r2\r3\r'],
    ['LF alone', 'lf', '1\n2\n3\n'],
    ['LF, with CR before it', 'lf', '1\r\n2\r\n3\r\n'],
    ['CRLF alone', 'crlf', '1\r\n2\r\n3\r\n'],
    ['bytes of its own', { custom: '\u0003;' }, '1\u0003;2\u0003;3\u0003;'],
  ])('%s ends a line, without empty ones', (_name, terminator, text) => {
    expect(assemble(terminator, [text])).toEqual([
      ['1', 'terminated'],
      ['2', 'terminated'],
      ['3', 'terminated'],
    ]);
  });

  it('takes a CRLF that is split over two chunks as one end', () => {
    expect(assemble('any', ['1\r', '\n2\r', '\n'])).toEqual([
      ['1', 'terminated'],
      ['2', 'terminated'],
    ]);
  });
});

describe('the result does not depend on how the bytes were cut into chunks', () => {
  const terminators: Terminator[] = ['any', 'cr', 'lf', 'crlf', { custom: '\u0003\u0004' }];
  const bytes = fc.array(
    fc.oneof(
      { weight: 5, arbitrary: fc.stringMatching(/^[0-9.,+ -]{0,12}$/).map((text) => Buffer.from(text)) },
      {
        weight: 3,
        arbitrary: fc
          .constantFrom('\r', '\n', '\r\n', '\u0003\u0004', '\u0003')
          .map((text) => Buffer.from(text, 'latin1')),
      },
      { weight: 1, arbitrary: fc.uint8Array({ maxLength: 30 }).map((raw) => Buffer.from(raw)) },
      {
        weight: 1,
        arbitrary: fc
          .integer({ min: LINE_BYTES_MAX - 3, max: LINE_BYTES_MAX + 3 })
          .map((length) => Buffer.alloc(length, 0x37)),
      },
    ),
    { maxLength: 20 },
  );

  it.each(terminators.map((terminator) => [JSON.stringify(terminator), terminator] as const))(
    'for the terminator %s',
    (_name, terminator) => {
      fc.assert(
        fc.property(
          bytes,
          fc.array(fc.integer({ min: 1, max: 700 }), { minLength: 1, maxLength: 40 }),
          (pieces, cuts) => {
            const whole = Buffer.concat(pieces);
            const chunks: Buffer[] = [];
            for (let at = 0, cut = 0; at < whole.length; cut++) {
              const length = cuts[cut % cuts.length] ?? 1;
              chunks.push(whole.subarray(at, at + length));
              at += length;
            }
            expect(assemble(terminator, chunks)).toEqual(assemble(terminator, [whole]));
          },
        ),
        { numRuns: 60 },
      );
    },
  );

  it.each(terminators.map((terminator) => [JSON.stringify(terminator), terminator] as const))(
    'nor where each chunk is about one line, as a port is read, for the terminator %s',
    (_name, terminator) => {
      const body = fc.oneof(
        { weight: 6, arbitrary: fc.stringMatching(/^[0-9.]{0,4}$/) },
        { weight: 1, arbitrary: fc.constantFrom('1\r2', '1\n2', '\n1', '\r1', '1\r', '1\r\n2', '\r\n1') },
        {
          weight: 1,
          arbitrary: fc
            .integer({ min: LINE_BYTES_MAX - 3, max: LINE_BYTES_MAX + 3 })
            .map((length) => '7'.repeat(length)),
        },
      );
      const end = fc.oneof(
        { weight: 4, arbitrary: fc.constantFrom('\r\n', '\r', '\n') },
        { weight: 1, arbitrary: fc.constantFrom('', '\n\r', '\r\r\n', '\r\n\r\n') },
      );
      const chunk = fc.tuple(body, end).map(([text, ends]) => text + ends);
      fc.assert(
        fc.property(fc.array(chunk, { minLength: 1, maxLength: 12 }), (chunks) => {
          const filled = chunks.filter((text) => text !== '');
          expect(assemble(terminator, filled)).toEqual(assemble(terminator, [filled.join('')]));
        }),
        { numRuns: 500 },
      );
    },
  );
});

describe('a line that never ends (S13)', () => {
  it('is given out once, cut at its bound, however much follows, and holds no more than the bound', () => {
    const assembler = new LineAssembler({ terminator: 'any' });
    const lines = [];
    for (let chunk = 0; chunk < 400; chunk++) lines.push(...assembler.push(Buffer.alloc(8192, 0x41), 0));
    expect(lines.map((line) => [line.bytes.length, line.end])).toEqual([[LINE_BYTES_MAX, 'too-long']]);
    expect(assembler.heldBytes).toBeLessThan(LINE_BYTES_MAX);
  });

  it('does not let its rest pass as a line of its own', () => {
    const long = '7'.repeat(LINE_BYTES_MAX + 5);
    expect(assemble('any', [`${long}\r\n12.5\r\n`])).toEqual([
      ['7'.repeat(LINE_BYTES_MAX), 'too-long'],
      ['77777', 'remainder'],
      ['12.5', 'terminated'],
    ]);
  });

  it('is cut when its end has not come in time, and what comes later is marked as a rest', () => {
    const assembler = new LineAssembler({ terminator: 'any' });
    assembler.push(Buffer.from('123'), 1_000);
    expect(assembler.tick(1_000 + LINE_SILENCE_MS_MAX * 1000)).toEqual([]);
    const [cut] = assembler.tick(1_001 + LINE_SILENCE_MS_MAX * 1000);
    expect([cut?.bytes.toString(), cut?.end]).toEqual(['123', 'unfinished']);
    const [rest, next] = assembler.push(Buffer.from('45\n6\n'), 9e9);
    expect([rest?.bytes.toString(), rest?.end]).toEqual(['45', 'remainder']);
    expect([next?.bytes.toString(), next?.end]).toEqual(['6', 'terminated']);
  });
});

describe('an end that comes too late', () => {
  it('changes nothing whether or not somebody has looked meanwhile: a record read again gives the same lines', () => {
    const late = LINE_SILENCE_MS_MAX * 1000 + 2;
    const read = (ticks: readonly number[]): [string, string][] => {
      const assembler = new LineAssembler({ terminator: 'any' });
      const lines = [...assembler.push(Buffer.from('1\n23'), 1)];
      for (const at of ticks) lines.push(...assembler.tick(at));
      lines.push(...assembler.push(Buffer.from('4\n5\n'), late + 1));
      return lines.map((line) => [line.bytes.toString(), line.end]);
    };
    expect(read([])).toEqual(read([late - 1000, late]));
    expect(read([])).toEqual([
      ['1', 'terminated'],
      ['23', 'unfinished'],
      ['4', 'remainder'],
      ['5', 'terminated'],
    ]);
  });
});

describe('the end of an opening (S6)', () => {
  it('gives the unfinished tail out as such', () => {
    expect(assemble('any', ['1\n2'])).toEqual([
      ['1', 'terminated'],
      ['2', 'unfinished'],
    ]);
  });
});

describe('bytes (S15)', () => {
  it('come through exactly, every value but the terminators', () => {
    const all = Buffer.from(
      Array.from({ length: 256 }, (_, byte) => byte).filter((byte) => byte !== 0x0a && byte !== 0x0d),
    );
    const assembler = new LineAssembler({ terminator: 'any' });
    const [line] = assembler.push(Buffer.concat([all, Buffer.from('\n')]), 0);
    expect(line?.bytes.equals(all)).toBe(true);
  });
});
