/** What a line looks like and is not: learned rightly, or left open for a person to name. */
import { describe, expect, it } from 'vitest';
import { createParser } from '../../../drivers/create-parser.ts';
import { checkValue } from '../../../drivers/lines/line-check.ts';
import { type Learnt, learnLines } from '../../../drivers/learn/learn-lines.ts';

interface Moment {
  readonly i: number;
  /** A load that rises with a little noise, falls back and is gone, and its largest value so far. */
  readonly k: number;
  readonly peak: number;
  readonly e: number;
}

function moments(): Moment[] {
  let peak = 0;
  return Array.from({ length: 120 }, (_, i) => {
    const k = i > 100 ? 0 : Math.max(0, i - 10) * 0.6 - Math.max(0, i - 80) * 1.4 + (i % 3) * 0.02;
    peak = Math.max(peak, k);
    return { i, k, peak, e: i * i * 0.0004 };
  });
}

function learned(line: (moment: Moment) => string, terminator = '\r\n'): Learnt {
  const text = moments().map((moment) => `${line(moment)}${terminator}`);
  const learnt = learnLines(Buffer.from(text.join(''), 'latin1'));
  if (learnt === null) throw new Error('nothing was learned');
  return learnt;
}

const told = ({ channels }: Learnt): unknown[] => channels.map(({ quantity, unit }) => [quantity, unit]);

describe('a peak memory beside the live value', () => {
  it.each([
    ['units', (m: Moment) => `${m.k.toFixed(2)} kN ${m.peak.toFixed(2)} kN`, 'kN'],
    ['nothing', (m: Moment) => `${m.k.toFixed(2)},${m.peak.toFixed(2)}`, null],
  ])('is told by how it moves where the line says %s', (_, line, unit) => {
    const learnt = learned(line);
    expect(told(learnt)).toEqual([
      ['force', unit],
      ['force', unit],
    ]);
    expect(learnt.profile.channels.map(({ peak }) => peak)).toEqual([false, true]);
    expect(learnt.remarks.join(' ')).toMatch(/largest value so far/);
  });
});

describe('a number that only looks like something', () => {
  it('is no load where two of them fall away: a readout that changed the order of its fields', () => {
    const line = ({ i, k, e }: Moment): string =>
      (i < 60 ? [k, 30 - e] : [30 - e, k]).map((value) => value.toFixed(2)).join(',');
    expect(told(learned(line))).not.toContainEqual(['force', null]);
  });

  it('is no load in volts', () => {
    expect(told(learned(({ k }) => `${(k / 20).toFixed(4)}V`))).toEqual([[null, null]]);
  });

  it('is no counter with a unit behind it', () => {
    const learnt = learned(({ i, k }) => `${k.toFixed(2)} kN ${String(i)} mm`);
    expect(told(learnt)).toEqual([
      ['force', 'kN'],
      ['extension', 'mm'],
    ]);
    expect(learnt.profile.sequence).toBeUndefined();
  });

  it('is in no newtons where N is the letter of the next one', () => {
    const line = ({ k }: Moment): string => `G ${(k + 1.5).toFixed(2)} T 1.50 N ${k.toFixed(2)} kN`;
    expect(learned(line).channels.map(({ unit }) => unit)).toEqual([null, null, 'kN']);
  });
});

describe('a comma or a point before three digits', () => {
  const force = (learnt: Learnt, text: string): number => {
    const [line] = createParser(learnt.profile).push(0, Buffer.from(text), 0);
    const shown = line?.outcome.kind === 'reading' ? line.outcome.reading.channels[0] : undefined;
    return (shown?.mantissa ?? Number.NaN) * 10 ** (shown?.exponent ?? 0);
  };
  const newtons = ({ k }: Moment): number => Math.round(k * 700);

  it.each([
    [',', 'en-US'],
    ['.', 'de-DE'],
  ])('sets thousands apart where small numbers lack it: "%s"', (_, locale) => {
    const learnt = learned((m) => `Load ${newtons(m).toLocaleString(locale)} N`);
    expect(force(learnt, `Load ${(27_999).toLocaleString(locale)} N\r\n`)).toBe(27_999);
    expect(force(learnt, 'Load 999 N\r\n')).toBe(999);
  });

  it('is the decimal sign where zero has it too', () => {
    const learnt = learned(({ k }) => `Load ${k.toFixed(3).replace('.', ',')} kN`);
    expect(force(learnt, 'Load 27,999 kN\r\n')).toBeCloseTo(27.999, 9);
    expect(learnt.remarks.join(' ')).not.toMatch(/comma/);
  });

  it('is told to be doubtful where no line tells', () => {
    const learnt = learned(({ k }) => `Load ${(k + 2).toFixed(3).replace('.', ',')} kN`);
    expect(learnt.confidence).toBeLessThan(0.7);
    expect(learnt.remarks.join(' ')).toMatch(/comma stands before three digits/);
  });
});

describe('a flag that is always 0', () => {
  it('is no channel beside numbers with units, nor where a whole pull passes it by', () => {
    expect(learned(({ k }) => `1,0,${k.toFixed(2)} kN`).channels).toHaveLength(1);
    expect(learned(({ k }) => `1,0,${k.toFixed(2)}`).channels).toHaveLength(1);
  });

  it('is one, without a name, where it may be a load at rest', () => {
    const learnt = learned(({ i }) => `0,${(((i * 7) % 5) / 1000).toFixed(3)}`);
    expect(told(learnt)).toEqual([
      [null, null],
      [null, null],
    ]);
  });
});

describe('parentheses', () => {
  const bookkeeping = (value: number, decimals: number): string =>
    value < 0 ? `(${(-value).toFixed(decimals)})` : value.toFixed(decimals);
  const mantissas = ({ profile }: Learnt, line: string): (number | null)[] =>
    createParser(profile)
      .push(0, Buffer.from(`${line}\r\n`), 0)
      .flatMap(({ outcome }) =>
        outcome.kind === 'reading' ? outcome.reading.channels.map(({ mantissa }) => mantissa) : [],
      );

  it.each([
    ['a delimiter', (load: string, way: string) => `${load};${way}`, '(9.87);0.5000'],
    [
      'columns',
      (load: string, way: string) => `${load.padStart(9)} ${way.padStart(9)}`,
      '   (9.87)    0.5000',
    ],
    ['labels', (load: string, way: string) => `F=${load} X=${way}`, 'F=(9.87) X=0.5000'],
    ['units', (load: string, way: string) => `${load} kN ${way} mm`, '(9.87) kN 0.5000 mm'],
  ])('that come and go around a number mean minus, in a line with %s', (_, line, below) => {
    const learnt = learned(({ k, e }) => line(bookkeeping(k - 10, 2), bookkeeping(e, 4)));
    expect(learnt.profile.minusInParentheses).toBe(true);
    expect(learnt.rejected).toBe(0);
    expect(mantissas(learnt, below)).toEqual([-987, 5000]);
  });

  it('that stand in every line mean nothing', () => {
    const learnt = learned(({ k }) => `(${k.toFixed(2)}) kN`);
    expect(learnt.profile.minusInParentheses).toBeUndefined();
    expect(mantissas(learnt, '(9.87) kN')).toEqual([987]);
  });
});

describe('what stands once for two numbers, or in an unusual place', () => {
  it('is the unit of a peak memory and of the value that it follows', () => {
    const learnt = learned((m) => `${m.k.toFixed(2)},${m.peak.toFixed(2)},lbf`);
    expect(told(learnt)).toEqual([
      ['force', 'lbf'],
      ['force', 'lbf'],
    ]);
  });

  it('is the unit joined to a name', () => {
    const line = ({ k, e }: Moment): string =>
      `{"force_N":${(k * 1000).toFixed(0)},"ext_mm":${e.toFixed(4)}}`;
    expect(told(learned(line))).toEqual([
      ['force', 'N'],
      ['extension', 'mm'],
    ]);
    expect(told(learned(({ k }) => `load_t=${k.toFixed(2)}`))).toEqual([[null, null]]);
  });

  it('is a name that would be a unit elsewhere', () => {
    expect(told(learned(({ k, e }) => `F;${k.toFixed(2)};kN;s;${e.toFixed(3)};mm`))).toEqual([
      ['force', 'kN'],
      ['travel', 'mm'],
    ]);
  });

  it('is a bit of the readout, which is no channel', () => {
    expect(
      told(learned(({ i, k }) => `${i < 9 ? '0' : '1'} ${(k * 100).toFixed(0).padStart(6, '0')}`)),
    ).toEqual([['force', null]]);
  });

  it('is a check that looks like the end of a line', () => {
    const learnt = learned(({ k }) => {
      const text = `+${k.toFixed(2).padStart(7, '0')}\u0003`;
      return `\u0002${text}${String.fromCharCode(checkValue('xor', Buffer.from(text, 'latin1')))}`;
    });
    expect([learnt.readings, learnt.rejected]).toEqual([120, 0]);
    expect(learnt.profile.check?.kind).toBe('xor');
  });
});

describe('the time of day', () => {
  it('may have a point beside numbers with a comma', () => {
    const learnt = learned(
      ({ i, k }) =>
        `04.03.2026 09:00:${(i / 10).toFixed(1).padStart(4, '0')} ${k.toFixed(2).replace('.', ',')} kN`,
    );
    expect(told(learnt)).toEqual([
      ['time', 's'],
      ['force', 'kN'],
    ]);
    const [line] = createParser(learnt.profile).push(0, Buffer.from('04.03.2026 09:00:11.5 56,17 kN\n'), 0);
    const shown = line?.outcome.kind === 'reading' ? line.outcome.reading.channels : [];
    expect(shown).toMatchObject([
      { mantissa: 324115, exponent: -1, unit: 's' },
      { mantissa: 5617, exponent: -2, unit: 'kN' },
    ]);
  });
});

describe('a letter that stands for several things', () => {
  it.each(['D', 'Y', 'Z', 'P', 'L', 'H'])('%s before a length is neither extension nor travel', (letter) => {
    expect(told(learned(({ k, e }) => `F=${k.toFixed(2)} kN ${letter}=${e.toFixed(4)} in`))).toEqual([
      ['force', 'kN'],
      [null, 'in'],
    ]);
  });

  it.each(['S', 'R', 'Y'])('%s before a number without unit is left open', (letter) => {
    expect(told(learned(({ k, e }) => `F=${k.toFixed(2)} ${letter}=${e.toFixed(4)}`))[1]).toEqual([
      null,
      null,
    ]);
  });

  it('is said by the unit where that leaves one', () => {
    expect(told(learned(({ k, e }) => `R=${(k * 9).toFixed(1)} MPa S=${e.toFixed(4)} mm`))).toEqual([
      ['stress', 'MPa'],
      ['travel', 'mm'],
    ]);
  });
});

it('a word longer than any label is answered, not fallen over', () => {
  const bytes = Buffer.from(`${'a_'.repeat(400)}1.5\r\n`.repeat(40));
  expect(() => learnLines(bytes)).not.toThrow();
});

describe('a counter', () => {
  const counter = (modulus: number): number | undefined =>
    learned(({ i, k }) => `#${String(i % modulus).padStart(3, '0')} ${k.toFixed(2)} kN`).profile.sequence
      ?.modulus;

  it('has its turn only where it was seen to turn', () => {
    expect(counter(64)).toBe(64);
    expect(counter(1000)).toBeUndefined();
  });
});

describe('a line', () => {
  it('of numbers with nothing but signs between them keeps the signs', () => {
    const signed = (value: number): string =>
      `${value < 0 ? '-' : '+'}${Math.abs(value).toFixed(2).padStart(7, '0')}`;
    const learnt = learned(({ i, k, e }) => `${String(i).padStart(4, '0')}${signed(-k - 0.01)}${signed(e)}`);
    expect(learnt.profile.format).toMatchObject({ kind: 'fixed-columns' });
    expect([learnt.channels.length, learnt.rejected]).toEqual([2, 0]);
    expect(learnt.profile.sequence).toBeDefined();
  });

  it("may have a state's letter straight behind its unit", () => {
    expect(told(learned(({ i, k }) => `${k.toFixed(1)}kg${i > 20 ? 'M' : ''}`))).toEqual([['force', 'kgf']]);
  });

  it('ends with the bytes that gave an old printer time', () => {
    const learnt = learned(({ k }) => `${k.toFixed(2)} kN`, '\r\n\0\0');
    expect([learnt.readings, learnt.rejected]).toEqual([120, 0]);
  });

  it('is no reading and not rejected where it greets, names the columns or their units', () => {
    const head = 'Frame 2 ready\r\nForce;Strain\r\nkN;%\r\n';
    const lines = moments().map(({ k, e }) => `${k.toFixed(2)};${e.toFixed(3)}\r\n`);
    const learnt = learnLines(Buffer.from(head + lines.join('')));
    expect(learnt).toMatchObject({ readings: 120, rejected: 0 });
    expect(learnt === null ? null : told(learnt)).toEqual([
      ['force', 'kN'],
      ['strain', '%'],
    ]);
  });
});

describe('checks', () => {
  // The values of "123456789" as catalogues of CRCs print them (from memory).
  it.each([
    ['crc16-ccitt', 0x29b1],
    ['crc16-xmodem', 0x31c3],
    ['crc16-modbus', 0x4b37],
    ['crc16-arc', 0xbb3d],
    ['crc8', 0xf4],
    ['crc8-maxim', 0xa1],
  ] as const)('%s', (kind, value) => {
    expect(checkValue(kind, Buffer.from('123456789'))).toBe(value);
  });

  it('are found with the low byte first', () => {
    const line = ({ k, e }: Moment): string => {
      const text = `${k.toFixed(2)} kN ${e.toFixed(3)} mm `;
      const check = checkValue('crc16-modbus', Buffer.from(text));
      return `${text}${[check & 0xff, check >> 8].map((byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join('')}`;
    };
    expect(learned(line).profile.check).toMatchObject({ kind: 'crc16-modbus', lowByteFirst: true });
  });
});
