import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CSV_LINE_LENGTH_MAX, CurveCsvReader, readCurveCsv } from '../../../core/curve/read-csv.ts';
import type { Curve } from '../../../core/curve/curve.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

function curveOf(text: string): Curve {
  const outcome = readCurveCsv(bytes(text));
  if (!outcome.ok) throw new Error(outcome.fault.sentence);
  return outcome.curve;
}

function faultOf(input: string | Uint8Array): { code: string; sentence: string; line?: number } {
  const outcome = readCurveCsv(typeof input === 'string' ? bytes(input) : input);
  if (outcome.ok) throw new Error('was read, should have been refused');
  return outcome.fault;
}

const list = (column: Float64Array | undefined): number[] => [...(column ?? [])];

describe('reading a curve file', () => {
  it('reads time, force and extension in the core units', () => {
    const curve = curveOf('time_s,force_N,extension_mm\n0,0,0\n0.1,250,0.002\n');
    expect(curve.length).toBe(2);
    expect(list(curve.timeS)).toEqual([0, 0.1]);
    expect(list(curve.forceN)).toEqual([0, 250]);
    expect(list(curve.extensionMm)).toEqual([0, 0.002]);
    expect(curve.stressMpa).toBeUndefined();
  });

  it.each([
    ['force_kN', 2, 2000],
    ['force_lbf', 1, 4.4482216152605],
    ['force_kip', 1, 4448.2216152605],
    ['force_kgf', 1, 9.80665],
    ['Force (kN)', 2, 2000],
    ['load [lbf]', 1, 4.4482216152605],
  ])('converts %s by NIST SP 811 factors', (name, shown, newtons) => {
    expect(curveOf(`${name}\n${String(shown)}\n`).forceN?.[0]).toBeCloseTo(newtons, 9);
  });

  it.each([
    ['extension_in', 'extensionMm', 1, 25.4],
    ['travel_mm', 'travelMm', 3, 3],
    ['stress_MPa', 'stressMpa', 3, 3],
    ['stress_psi', 'stressMpa', 1000, 6.894757293168],
    ['stress_ksi', 'stressMpa', 1, 6.894757293168],
    ['strain_1', 'strainRatio', 0.02, 0.02],
    ['strain_percent', 'strainRatio', 2, 0.02],
    ['time_min', 'timeS', 1, 60],
  ] as const)('converts %s', (name, key, shown, expected) => {
    expect(curveOf(`${name}\n${String(shown)}\n`)[key]?.[0]).toBeCloseTo(expected, 9);
  });

  it('takes tabs, and semicolons with a decimal comma', () => {
    expect(list(curveOf('force_N\textension_mm\n1.5\t0.25').extensionMm)).toEqual([0.25]);
    expect(list(curveOf('force_N;extension_mm\n1,5;0,25\n').forceN)).toEqual([1.5]);
    expect(list(curveOf('force_N;extension_mm\n1.5;0.25\n').forceN)).toEqual([1.5]);
  });

  it('passes over comments, blank lines and a byte order mark', () => {
    expect(list(curveOf('\ufeff# made today\n\nforce_N\n# half way\n1\n\n2\n').forceN)).toEqual([1, 2]);
  });

  it('keeps rows of zeros at the end as data', () => {
    expect(list(curveOf('force_N,extension_mm\n5,1\n0,0\n0,0\n').forceN)).toEqual([5, 0, 0]);
  });

  it('turns blank cells and words for "no value" into gaps and counts them', () => {
    const outcome = readCurveCsv(bytes('time_s,force_N\n0,1\n1,\n2,OL\n3,4\n'));
    if (!outcome.ok) throw new Error(outcome.fault.sentence);
    expect(list(outcome.curve.forceN)).toEqual([1, Number.NaN, Number.NaN, 4]);
    expect(outcome.notes[0]).toMatch(/force_N is missing in 2 rows, first in line 3/);
  });

  it('says which columns it has no use for', () => {
    const outcome = readCurveCsv(bytes('force_N,temperature_C\n1,20\n'));
    expect(outcome.ok && outcome.notes[0]).toMatch(/temperature_C/);
  });

  it('reads the same curve whatever the line ends and however the pieces are cut', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: -9999, max: 9999 }), fc.integer({ min: 0, max: 999 })), {
          minLength: 1,
          maxLength: 30,
        }),
        fc.constantFrom('\n', '\r\n', '\r'),
        fc.integer({ min: 1, max: 40 }),
        (rows, end, piece) => {
          const text = ['force_N,extension_mm', ...rows.map(([f, e]) => `${String(f)},${String(e / 1000)}`)];
          const whole = bytes(text.join(end) + end);
          const reader = new CurveCsvReader();
          for (let at = 0; at < whole.length; at += piece) reader.push(whole.subarray(at, at + piece));
          const outcome = reader.end();
          if (!outcome.ok) throw new Error(outcome.fault.sentence);
          expect(list(outcome.curve.forceN)).toEqual(rows.map(([f]) => f));
          expect(list(outcome.curve.extensionMm)).toEqual(rows.map(([, e]) => e / 1000));
        },
      ),
      { numRuns: 100 },
    );
  });
});

describe('refusing what is no curve file: one sentence, with the line', () => {
  it.each([
    ['', 'csv-empty', /empty/],
    ['# only a comment\n', 'csv-empty', /no header/],
    ['force_N\n', 'csv-no-readings', /no readings/],
    ['1,2\n3,4\n', 'csv-header-missing', /Line 1 holds numbers/],
    ['hello world\nthis is a letter\n', 'csv-no-known-column', /Line 1 is no header/],
    [
      'ext_in,frce_kN\n1,2\n',
      'csv-no-known-column',
      /^"ext_in" \(name it extension_in\), "frce_kN" \(name it force_kN\)\. Line 1/,
    ],
    ['ext_kN,ext\n1,2\n', 'csv-no-known-column', /^Line 1/],
    ['force\n1\n', 'csv-unit-missing', /"force" has no unit/],
    ['force_stone\n1\n', 'csv-unit-unknown', /"stone"/],
    ['force_mm\n1\n', 'csv-unit-wrong', /unit of length/],
    ['force_N,load_kN\n1,2\n', 'csv-column-twice', /twice/],
    ['force_N,extension_mm\n1,2\n3\n', 'csv-cells', /Line 3 has 1 cell /],
    ['force_N,extension_mm\n1,5,0,2\n', 'csv-cells', /decimal comma/],
    ['force_N\n1\n\nabc\n', 'csv-not-a-number', /Line 4 holds "abc"/],
    ['force_N\n0x10\n', 'csv-not-a-number', /Line 2/],
    ['force_N\n1e999\n', 'csv-not-a-number', /Line 2/],
    ['force_N;time_s\n1.234,5;0\n', 'csv-not-a-number', /Line 2/],
  ])('%j', (text, code, sentence) => {
    const fault = faultOf(text);
    expect(fault.code).toBe(code);
    expect(fault.sentence).toMatch(sentence);
    expect(fault.sentence.split('\n')).toHaveLength(1);
  });

  it('UTF-16 with either byte order, and bytes that are no text', () => {
    const utf16 = new Uint8Array(Buffer.from('\ufeffforce_N\n1\n', 'utf16le'));
    expect(faultOf(utf16).code).toBe('csv-utf16');
    expect(faultOf(new Uint8Array(Buffer.from(utf16).swap16())).code).toBe('csv-utf16');
    expect(faultOf(new Uint8Array([80, 75, 3, 4, 0, 0])).code).toBe('csv-not-text');
  });

  it('a line without an end', () => {
    expect(faultOf('x'.repeat(CSV_LINE_LENGTH_MAX + 1)).code).toBe('csv-line-too-long');
  });

  it('never throws, whatever the bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), (input) => {
        const outcome = readCurveCsv(input);
        if (!outcome.ok) expect(outcome.fault.sentence.length).toBeGreaterThan(10);
      }),
      { numRuns: 300 },
    );
  });
});
