/** Formats put together at random: each must be found with its channels, and every value must come back as it was sent. */
import { describe, expect, it } from 'vitest';
import { createParser } from '../../../drivers/create-parser.ts';
import { learnLines } from '../../../drivers/learn/learn-lines.ts';
import { uniformRandom } from '../../../drivers/simulated-frame/random.ts';
import { momentsOf } from './invented-readouts.ts';
import { bytesOfFormat, madeUpFormat } from './made-up-formats.ts';

const FORMATS = Array.from({ length: 60 }, (_, index) => {
  const seed = 104_729 + index * 7_919;
  return { seed, format: madeUpFormat(uniformRandom(seed)) };
});

describe.each(FORMATS.map((each) => ({ ...each, words: each.format.words })))(
  '$words',
  ({ seed, format }) => {
    it.each([160, 50])('is learned from %d lines, values with their signs', (count) => {
      const moments = momentsOf(count, seed);
      const bytes = bytesOfFormat(format, moments);
      const learnt = learnLines(bytes);
      if (learnt === null) throw new Error('nothing was learned');
      expect(learnt.channels).toHaveLength(format.channels.length);
      format.channels.forEach(({ quantity, unit }, index) => {
        if (quantity !== null) expect(learnt.channels[index]?.quantity).toBe(quantity);
        if (unit !== null) expect(learnt.channels[index]?.unit).toBe(unit);
      });
      const parser = createParser(learnt.profile);
      const sevenBits = format.parity === 'none' ? bytes : bytes.map((byte) => byte & 0x7f);
      const readings = [...parser.push(0, sevenBits, 0), ...parser.end()].flatMap(({ outcome }) =>
        outcome.kind === 'reading' ? [outcome.reading] : [],
      );
      expect(readings).toHaveLength(count);
      const sent = moments.map((moment) => format.channels.map(({ value }) => value(moment).toFixed(6)));
      const read = readings.map(({ channels }) =>
        channels.map(({ mantissa, exponent }) => ((mantissa ?? Number.NaN) * 10 ** exponent).toFixed(6)),
      );
      expect(read.map(withoutMinusZero)).toEqual(sent.map(withoutMinusZero));
    });
  },
);

const withoutMinusZero = (line: readonly string[]): string[] =>
  line.map((text) => text.replace(/^-(0\.0+)$/, '$1'));

const ramp = (line: (k: number) => string, count = 40): Buffer =>
  Buffer.from(Array.from({ length: count }, (_, k) => `${line(k)}\r\n`).join(''), 'latin1');
const quantitiesOf = (bytes: Buffer): unknown => learnLines(bytes)?.channels.map(({ quantity }) => quantity);

describe('numbers that rise as evenly as a clock', () => {
  it('are no time where there is nothing else, and none where they carry a sign', () => {
    expect(quantitiesOf(ramp((k) => (22.5 * k).toFixed(1)))).toEqual([null]);
    expect(quantitiesOf(ramp((k) => `+${(0.1 * k).toFixed(2)},+${(3 * k).toFixed(1)}`))).toEqual([
      null,
      null,
    ]);
  });

  it('are time in one field at most: the first, where its steps are those of a clock', () => {
    const both = ramp((k) => `${(0.1 * k).toFixed(2)};${(137.3 * k).toFixed(1)};${(0.0131 * k).toFixed(4)}`);
    expect(quantitiesOf(both)).toEqual(['time', null, null]);
    expect(quantitiesOf(ramp((k) => `${(137.3 * k).toFixed(1)};${(0.0131 * k).toFixed(4)}`))).toEqual([
      null,
      null,
    ]);
  });

  it('are no time where they may be the travel of a steady crosshead', () => {
    // A load that wavers, an extension, and what rises by 0.002 a line, or by 0.05 beside a clock.
    const wavering = (k: number): string => (5 + Math.sin(k) * 3).toFixed(2);
    expect(quantitiesOf(ramp((k) => `${wavering(k)};${(0.002 * k).toFixed(3)}`))).not.toContain('time');
    const both = ramp((k) => `${(0.05 * k).toFixed(2)};${wavering(k)};${(0.1 * k).toFixed(1)}`);
    expect(quantitiesOf(both)).not.toContain('time');
    expect(quantitiesOf(ramp((k) => `${wavering(k)};${(0.1 * k).toFixed(1)}`))).toContain('time');
  });

  it('are what their label or unit says, whatever their pace', () => {
    expect(quantitiesOf(ramp((k) => `M Load:${String(23 * k)} `))).toEqual(['force']);
    expect(quantitiesOf(ramp((k) => `${(0.1 * k).toFixed(1)} kN`))).toEqual(['force']);
  });
});
