/** A pull as CSV, read back by an independent reader and by our own. */
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCurveCsv } from '../../../core/curve/read-csv.ts';
import {
  LINE_END,
  PLAIN_CSV,
  SPREADSHEET_FORMS,
  remarkLine,
  textCell,
} from '../../../core/exchange/export/csv-form.ts';
import { momentText } from '../../../core/exchange/export/moment-text.ts';
import { neutraliseText } from '../../../core/exchange/export/neutralise-text.ts';
import { type PullCsvOptions, pullCsvLines } from '../../../core/exchange/export/pull-csv.ts';
import {
  SPREADSHEET_ROWS_MAX,
  partPath,
  splitForSpreadsheet,
} from '../../../core/exchange/export/spreadsheet-rows.ts';
import { importBytes } from '../../../core/exchange/import/import-bytes.ts';
import { blocksOf, pull } from './sample-pull.ts';

const options: PullCsvOptions = {};
const written = (o: PullCsvOptions = options, of = pull): string =>
  [...pullCsvLines(of, blocksOf(), o)].map((line) => line + LINE_END).join('');
const records = (text: string, delimiter = ','): Record<string, string>[] =>
  parse(text, { columns: true, comment: '#', comment_no_infix: true, delimiter, bom: true });

describe('a pull as CSV', () => {
  it('has quantities and units in the header, converted values first, then what was shown, then the status', () => {
    const [first] = records(written());
    expect(Object.keys(first ?? {})).toEqual([
      'reading',
      'time_s',
      'force_N',
      'extension_mm',
      'shown_force_kN',
      'status_force',
      'shown_extension_µm',
      'status_extension',
      'status',
    ]);
  });

  it('keeps the digits that were shown, and leaves blank what was not there (N9)', () => {
    const rows = records(written());
    expect(rows.map((r) => r['shown_force_kN'])).toEqual(['0.12', '1.50', '12.50', '', '11.00', '-0.03']);
    expect(rows.map((r) => r['force_N'])).toEqual(['0', '1380', '12380', '', '10880', '-150']);
    expect(rows.map((r) => r['status_force'])).toEqual(['ok', 'ok', 'ok', 'overload', 'ok', 'ok']);
    expect(rows.map((r) => r['extension_mm'])).toEqual(['0.005', '0.00525', '0.15', '0.155', '', '0.45']);
    expect(rows.map((r) => r['time_s'])).toEqual([
      '0.000000',
      '0.100000',
      '0.200000',
      '1.404500',
      '1.500000',
      '1.600000',
    ]);
  });

  it('states start with offset, factor, sign, zero, marks, misfits and the end', () => {
    const text = written();
    expect(text).toContain('started: 2024-05-17T09:12:30.250+02:00');
    expect(text).toContain(
      'channel load: force_N = (shown_force_kN × 1 + 0 kN), sign as shown, converted by the exact factor of the unit, less a zero of 120',
    );
    expect(text).toContain('channel ext: extension_mm = (shown_extension_µm × 0.5 + 0 µm), sign turned');
    expect(text).toContain('mark: break at reading 5, 1.600000 s (person) broke');
    expect(text).toContain('lines that gave no reading: 2 (malformed)');
    expect(text.trimEnd().split(LINE_END).at(-1)).toBe('# end: 6 readings');
  });

  it('states the start in UTC where the offset of the place was not kept', () => {
    expect(written({}, { ...pull, startedUtcOffsetMinutes: null })).toContain(
      'started: 2024-05-17T07:12:30.250Z (',
    );
  });

  it("has the readout's own clock as its time where the curve has, and the arrival beside it", () => {
    const rows = records(written({ readoutTimeS: Float64Array.from([0, 0.11, 0.22, 1.31, 1.43, 1.54]) }));
    expect(rows.map((r) => r['time_s'])).toEqual(['0', '0.11', '0.22', '1.31', '1.43', '1.54']);
    expect(rows.map((r) => r['arrival_s'])).toEqual(records(written()).map((r) => r['time_s']));
    expect(written({ readoutTimeS: new Float64Array(6) })).toContain("time_s is the readout's own clock");
  });

  it('has the gap as a remark where it was', () => {
    const lines = written().split(LINE_END);
    const at = lines.findIndex((line) => line.includes('gap before reading 3'));
    expect(lines[at]).toMatch(
      /1\.204500 s without readings from 0\.200000 s on \(signal-lost\) adapter unplugged/,
    );
    expect(lines[at + 1]).toMatch(/^3,1\.404500,/);
  });

  it('does not depend on how the readings come in blocks', () => {
    const once = [...pullCsvLines(pull, blocksOf(100), options)];
    for (const size of [1, 2, 5]) expect([...pullCsvLines(pull, blocksOf(size), options)]).toEqual(once);
  });

  it('is read back as the same curve by our own reader and by the import', () => {
    const bytes = new TextEncoder().encode(written());
    const own = readCurveCsv(bytes);
    if (!own.ok) throw new Error(own.fault.sentence);
    expect([...(own.curve.forceN ?? [])]).toEqual([0, 1380, 12_380, Number.NaN, 10_880, -150]);
    const imported = importBytes(bytes);
    if (!imported.ok) throw new Error(imported.fault.sentence);
    expect(imported.curve.forceN).toEqual(own.curve.forceN);
    expect(imported.curve.extensionMm).toEqual(own.curve.extensionMm);
    expect(imported.curve.timeS).toEqual(own.curve.timeS);
  });

  it('carries the unit of every reading where it changed during the pull', () => {
    const changed = {
      ...pull,
      marks: [
        ...pull.marks,
        { kind: 'unit-changed', seq: 2, elapsedUs: 200_000, cause: 'rule', words: '' } as const,
      ],
    };
    const [first] = records(written(options, changed));
    expect(first).toMatchObject({ shown_force: '0.12', shown_unit_force: 'kN' });
  });

  it.each(Object.entries(SPREADSHEET_FORMS))(
    'in the spreadsheet form %s reads back as the same numbers',
    (_, form) => {
      const text = written({ ...options, form });
      expect(text.startsWith('\ufeff#')).toBe(true);
      const rows = records(text, form.delimiter);
      const plain = records(written());
      for (const [i, row] of rows.entries())
        for (const [name, cell] of Object.entries(row))
          expect(cell.replace(form.decimalSign, '.')).toBe(plain[i]?.[name]);
      if (form.decimalSign === ',') expect(rows[1]?.['shown_force_kN']).toBe('1,50');
    },
  );

  it('refuses a form whose decimal sign is its delimiter (X1)', () => {
    expect(() =>
      written({ ...options, form: { delimiter: ',', decimalSign: ',', byteOrderMark: false } }),
    ).toThrow(/must differ/);
  });
});

describe('text in a spreadsheet', () => {
  it.each([
    '=1+1',
    '+49 30',
    '-5',
    '@sum',
    '\t=1',
    '\r=1',
    '\n',
    '\0x',
    '  =1',
    '"=1',
    '\u200b=1',
    '＝1',
    '−5',
  ])('%j is made plain', (text) => {
    expect(neutraliseText(text)).toBe(`'${text}`);
  });

  it.each(['W-17', 'a=b', '12.7 mm', '', 'x', '3 @ 4'])('%j stays as it is', (text) => {
    expect(neutraliseText(text)).toBe(text);
  });

  it('never becomes a cell that runs, in a cell or in a remark, whatever the delimiter (X2)', () => {
    const forms = [PLAIN_CSV, ...Object.values(SPREADSHEET_FORMS)];
    fc.assert(
      fc.property(
        fc.string({
          unit: fc.constantFrom('=', '+', '-', '@', '"', "'", ',', ';', '\t', '\n', '\r', ' ', 'a', '1'),
        }),
        fc.constantFrom(...forms),
        (text, form) => {
          for (const line of [textCell(text, form), remarkLine(text)]) {
            const cells: string[][] = parse(`${line}${form.delimiter}end`, {
              delimiter: form.delimiter,
              relax_quotes: true,
              relax_column_count: true,
            });
            for (const cell of cells.flat()) expect(cell).not.toMatch(/^[\s"]*[=+\-@]/);
          }
        },
      ),
      { numRuns: 500 },
    );
  });

  it('in a remark stays on its line and opens no quote', () => {
    expect(remarkLine('a\r\nb, "c\n=d;=e')).toBe("# a b, 'c =d;'=e");
  });

  it('in a cell reads back as it was, but for the apostrophe', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const [row]: string[][] = parse(`${textCell(text, PLAIN_CSV)},end\r\n`, { skip_empty_lines: false });
        expect(row?.[0]).toBe(neutraliseText(text));
      }),
    );
  });
});

describe('a spreadsheet that is too small', () => {
  it('takes everything where it fits', () => {
    expect(splitForSpreadsheet(1000, 20)).toEqual([{ number: 1, of: 1, firstSeq: 0, count: 1000 }]);
    // The last reading that fits beside forty rows, and the first that does not.
    expect(splitForSpreadsheet(SPREADSHEET_ROWS_MAX - 40, 40)).toHaveLength(1);
    expect(splitForSpreadsheet(SPREADSHEET_ROWS_MAX - 39, 40)).toHaveLength(2);
  });

  it('gets the readings in parts, none lost (X3)', () => {
    const parts = splitForSpreadsheet(2_500_000, 40);
    expect(parts.map(({ number, of }) => [number, of])).toEqual([
      [1, 3],
      [2, 3],
      [3, 3],
    ]);
    expect(parts.reduce((sum, part) => sum + part.count, 0)).toBe(2_500_000);
    parts.forEach((part, i) => {
      expect(part.firstSeq).toBe(parts.slice(0, i).reduce((sum, p) => sum + p.count, 0));
      expect(part.count + 40).toBeLessThanOrEqual(SPREADSHEET_ROWS_MAX);
    });
    expect(() => splitForSpreadsheet(10, SPREADSHEET_ROWS_MAX)).toThrow(RangeError);
  });

  it('names each part before the end of the name', () => {
    expect(partPath('/a.b/curve.csv', { number: 2, of: 12 })).toBe('/a.b/curve-part-2-of-12.csv');
    expect(partPath('/a.b/curve', { number: 1, of: 2 })).toBe('/a.b/curve-part-1-of-2');
  });
});

describe('a moment', () => {
  it('is written with the offset of the place', () => {
    const moment = Date.UTC(2024, 0, 1, 0, 30);
    expect(momentText(moment, 0)).toBe('2024-01-01T00:30:00.000+00:00');
    expect(momentText(moment, -210)).toBe('2023-12-31T21:00:00.000-03:30');
    // RFC 9557, section 2.2: "Z" says that UTC is known and the local offset is not.
    expect(momentText(moment, null)).toBe('2024-01-01T00:30:00.000Z');
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4e12 }), fc.integer({ min: -720, max: 840 }), (ms, offset) => {
        expect(Date.parse(momentText(ms, offset))).toBe(ms);
      }),
    );
  });
});
