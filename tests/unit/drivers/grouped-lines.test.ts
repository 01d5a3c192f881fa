/** Readouts that send load and extension in lines of their own, by turns. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createParser } from '../../../drivers/create-parser.ts';
import { type Learnt, learnLines } from '../../../drivers/learn/learn-lines.ts';
import { momentsOf } from './invented-readouts.ts';

const MOMENTS = momentsOf(120);
type Lines = (m: (typeof MOMENTS)[number]) => readonly string[];

const BY_TURNS: readonly (readonly [string, Lines, readonly (readonly [string, string | null])[]])[] = [
  [
    'labels and units',
    (m) => [`LOAD ${m.newtons.toFixed(1)} N`, `EXT ${m.extensionMm.toFixed(4)} mm`],
    [
      ['force', 'N'],
      ['extension', 'mm'],
    ],
  ],
  [
    'labels alone',
    (m) => [`F=${m.newtons.toFixed(0).padStart(7)}`, `X=${m.extensionMm.toFixed(3).padStart(7)}`],
    [
      ['force', null],
      ['extension', null],
    ],
  ],
  [
    'units alone',
    (m) => [`${(m.newtons / 1000).toFixed(3)} kN`, `${m.extensionMm.toFixed(4)} mm`],
    [
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  ],
  [
    'three kinds, decimal comma',
    (m) =>
      [
        `T: ${m.seconds.toFixed(1)} s`,
        `L: ${(m.newtons / 1000).toFixed(2)} kN`,
        `E: ${m.extensionMm.toFixed(3)} mm`,
      ].map((text) => text.replace('.', ',')),
    [
      ['time', 's'],
      ['force', 'kN'],
      ['extension', 'mm'],
    ],
  ],
];

function learned(text: string): Learnt {
  const learnt = learnLines(Buffer.from(text, 'latin1'));
  if (learnt === null) throw new Error('nothing was learned');
  return learnt;
}

const textOf = (lines: Lines, moments = MOMENTS): string =>
  moments.flatMap((m) => lines(m).map((line) => `${line}\r\n`)).join('');

describe.each(BY_TURNS.map(([name, lines, channels]) => ({ name, lines, channels })))(
  'lines by turns: $name',
  ({ lines, channels: wanted }) => {
    it.each([
      ['from the first line on', 0],
      ['from the second on', 1],
    ])('are learned as one record, %s', (_words, skipped) => {
      const text = textOf(lines).split('\r\n').slice(skipped).join('\r\n');
      const { channels, profile, readings } = learned(text);
      // Which kind comes first can't be told by a listener who came in between.
      const turned = [...wanted.slice(skipped), ...wanted.slice(0, skipped)];
      expect(channels.map(({ quantity, unit }) => [quantity, unit])).toEqual(turned);
      expect(profile.framing.lines?.count).toBe(wanted.length);
      expect(readings).toBeGreaterThanOrEqual(MOMENTS.length - 1);
    });

    it('give the same readings however they are cut into chunks', () => {
      const { profile } = learned(textOf(lines));
      const bytes = Buffer.from(textOf(lines, MOMENTS.slice(0, 12)), 'latin1');
      const read = (cuts: readonly number[]): unknown[] => {
        const parser = createParser(profile);
        const edges = [0, ...cuts.map((cut) => cut % bytes.length).sort((a, b) => a - b), bytes.length];
        const parsed = edges.flatMap((from, i) => [
          ...parser.push(i, bytes.subarray(from, edges[i + 1] ?? from), 0),
        ]);
        return parsed.map(({ outcome }) =>
          outcome.kind === 'reading' ? outcome.reading.channels : outcome.reason,
        );
      };
      const whole = read([]);
      expect(whole).toHaveLength(12);
      fc.assert(
        fc.property(fc.array(fc.nat(5_000), { maxLength: 12 }), (cuts) => {
          expect(read(cuts)).toEqual(whole);
        }),
        { numRuns: 40 },
      );
    });
  },
);

describe('a record of two lines', () => {
  const { profile } = learned(
    textOf((m) => [`LOAD ${m.newtons.toFixed(1)} N`, `EXT ${m.extensionMm.toFixed(4)} mm`]),
  );
  const outcomes = (text: string): unknown[] => {
    const parser = createParser(profile);
    return [...parser.push(0, Buffer.from(text), 0), ...parser.end()].map(({ outcome }) =>
      outcome.kind === 'reading' ? outcome.reading.channels.map(({ mantissa }) => mantissa) : outcome.reason,
    );
  };

  it('whose second line is missing is none, and takes nothing of the next one', () => {
    expect(
      outcomes('LOAD 1.0 N\r\nEXT 0.1 mm\r\nLOAD 2.0 N\r\nLOAD 3.0 N\r\nEXT 0.3 mm\r\nLOAD 4.0 N\r\n'),
    ).toEqual([[10, 1], 'incomplete', [30, 3], 'incomplete']);
  });

  it('is not made of a second line alone', () => {
    expect(outcomes('EXT 0.1 mm\r\nLOAD 2.0 N\r\nEXT 0.2 mm\r\n')).toEqual(['before-sync', [20, 2]]);
  });
});

it('a heading before lines by turns is left out', () => {
  const text = `Bench controller ready\r\n${textOf((m) => [`L ${m.newtons.toFixed(1)} N`, `E ${m.extensionMm.toFixed(4)} mm`])}`;
  const { channels, profile, rejected } = learned(text);
  expect(channels.map(({ quantity }) => quantity)).toEqual(['force', 'extension']);
  expect(profile.ignoredLines).toHaveLength(1);
  expect(rejected).toBeLessThanOrEqual(1);
});
