import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createParser } from '../../../drivers/create-parser.ts';
import { ONE_LINE_CONFIDENCE, learnLines, type Learnt } from '../../../drivers/learn/learn-lines.ts';
import { INVENTED_READOUTS, bytesOf } from './invented-readouts.ts';
import { type RampMoment, SET_ASIDE, rampBytes } from './set-aside-readouts.ts';

function learned(bytes: Uint8Array): Learnt {
  const learnt = learnLines(bytes);
  if (learnt === null) throw new Error('nothing was learned');
  return learnt;
}

describe.each(INVENTED_READOUTS.map((readout) => [readout.name, readout] as const))(
  'a readout that sends %s',
  (_name, readout) => {
    it('is learned from a whole pull: its channels, their quantities and units', () => {
      const { bytes, lines } = bytesOf(readout);
      const { channels, readings, confidence } = learned(bytes);
      expect(channels).toHaveLength(readout.channels.length);
      readout.channels.forEach(([quantity, unit], index) => {
        if (quantity !== null) expect(channels[index]?.quantity).toBe(quantity);
        if (unit !== null) expect(channels[index]?.unit).toBe(unit);
      });
      expect(readings).toBeGreaterThanOrEqual(lines * (readout.readable ?? 1));
      expect(confidence).toBeGreaterThan(0.6);
    });

    it('is read by the learned profile, chunked anyhow, as it was while learning', () => {
      const { bytes } = bytesOf(readout);
      const { profile, readings } = learned(bytes);
      const parser = createParser(profile);
      const other = bytesOf(readout, { seed: 99 });
      let count = 0;
      for (let at = 0; at < other.bytes.length; at += 13)
        count += parser
          .push(at, other.bytes.subarray(at, at + 13), 0)
          .filter((line) => line.outcome.kind === 'reading').length;
      // Another pull of the same readout: nothing was learned by heart.
      expect(count).toBeGreaterThanOrEqual(readings - 2);
    });

    it('is learned from forty lines', () => {
      const { bytes } = bytesOf(readout, { count: 40 });
      const { channels, readings } = learned(bytes);
      expect(channels).toHaveLength(readout.channels.length);
      expect(readings).toBeGreaterThanOrEqual(40 * (readout.readable ?? 1) - 1);
    });
  },
);

describe.each(
  SET_ASIDE.map(([name, line, channels, terminator = '\r\n']) => ({ name, line, channels, terminator })),
)('a readout of the second set: $name', ({ line, channels: wanted, terminator }) => {
  it.each([100, 30])('is learned from %d lines of a ramp', (count) => {
    const { channels, readings } = learned(rampBytes(line, terminator, count));
    expect(channels).toHaveLength(wanted.length);
    wanted.forEach(([quantity, unit], index) => {
      if (quantity !== null) expect(channels[index]?.quantity).toBe(quantity);
      if (unit !== null) expect(channels[index]?.unit).toBe(unit);
    });
    expect(readings).toBeGreaterThanOrEqual(count - 1);
  });
});

describe('signs between values and around them', () => {
  it.each([' || ', '||', ' :: '])(
    'takes "%s" for one delimiter, not for two with an empty field',
    (between) => {
      const line = (m: RampMoment): string => [m.t.toFixed(1), m.k.toFixed(2), m.e.toFixed(4)].join(between);
      const { profile, channels, readings } = learned(rampBytes(line, '\r\n', 60));
      expect(channels).toHaveLength(3);
      expect(profile.status).toEqual([]);
      expect(profile.format).toMatchObject({ kind: 'delimited', fields: ['1', '2', '3'] });
      expect(readings).toBe(60);
    },
  );

  it('keeps a field between two commas that is empty in every line', () => {
    const { profile } = learned(rampBytes((m) => `${m.k.toFixed(2)},,${m.e.toFixed(4)}`, '\r\n', 60));
    expect(profile.format).toMatchObject({ delimiter: ',', fields: ['1', '2', '3'] });
  });

  it('finds values without an end of line by the sign that begins each', () => {
    const { profile, channels, readings } = learned(
      rampBytes((m) => `=${m.k.toFixed(2).padStart(7, '0')}`, '', 60),
    );
    expect(profile.framing).toEqual({ terminator: { custom: '=' } });
    expect(channels).toHaveLength(1);
    expect(readings).toBe(59);
  });
});

describe('what the lines do not say', () => {
  it('is not guessed: without a unit a number is no force in the profile, though it is proposed as one', () => {
    const { channels, profile, remarks } = learned(rampBytes((m) => `F=${m.k.toFixed(2)}`, '\r\n', 50));
    expect(channels).toMatchObject([{ quantity: 'force', unit: null }]);
    expect(profile.channels[0]?.quantity).toBe('other');
    expect(remarks.join(' ')).toMatch(/does not say the unit/);
  });
});

describe('seven data bits with parity, recorded as eight', () => {
  it('are recognised by their top bit', () => {
    const even = (byte: number): number =>
      byte.toString(2).replaceAll('0', '').length % 2 === 0 ? byte : byte | 0x80;
    const { profile, channels } = learned(rampBytes((m) => `${m.k.toFixed(2)} kN`, '\r\n', 50).map(even));
    expect(profile.serial).toMatchObject({ dataBits: 7, parity: 'even' });
    expect(channels).toMatchObject([{ quantity: 'force', unit: 'kN' }]);
  });
});

describe('confidence', () => {
  it('is low for a single line, whatever it looks like (S17)', () => {
    expect(learned(Buffer.from('ST,GS,+0012.34kN\r\n')).confidence).toBeLessThanOrEqual(ONE_LINE_CONFIDENCE);
  });

  it('falls with the share of lines that do not fit', () => {
    const good = '12.5 kN\r\n';
    const mixed = Array.from({ length: 60 }, (_, index) =>
      index % 2 === 0 ? `${String(index)}.5 kN\r\n` : '\u00e9\u0080x?\r\n',
    ).join('');
    expect(learned(Buffer.from(mixed, 'latin1')).confidence).toBeLessThan(
      learned(Buffer.from(good.repeat(60))).confidence * 0.7,
    );
  });
});

describe('bytes that are no readout', () => {
  it.each([
    ['nothing', ''],
    ['no line end', '12.5 13.5 14.5 15.5'.repeat(4)],
    ['prose', 'the quick brown fox\r\njumps over the dog\r\n'.repeat(20)],
  ])('%s teaches nothing', (_name, text) => {
    expect(learnLines(Buffer.from(text))).toBeNull();
  });

  it('signs behind a value are cut off one by one, as many as a profile takes, and their run is no single sign', () => {
    const line = Buffer.from('A12.5\u00c0\u00c0\u0000{|}~\r\n', 'latin1');
    expect(learnLines(Buffer.concat(Array.from({ length: 20 }, () => line)))?.profile.format).toMatchObject({
      kind: 'labelled',
      between: ' \t\u00c0\u0000{|}~',
    });
  });

  it('any bytes end without an error, and whatever is proposed can be read', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.oneof(
            fc.uint8Array({ maxLength: 20 }),
            fc
              .constantFrom('\r\n', '12.5', ',', 'kN', '-', ';', '\u0002', '*4F')
              .map((text) => Buffer.from(text, 'latin1')),
          ),
          { maxLength: 60 },
        ),
        (pieces) => {
          const learnt = learnLines(Buffer.concat(pieces));
          if (learnt !== null) expect(learnt.channels.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 100 },
    );
  });
});
