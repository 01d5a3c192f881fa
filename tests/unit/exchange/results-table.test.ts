/** Results of a search as a table: as text read back by an independent reader, as a workbook read back by another. */
import { parse } from 'csv-parse/sync';
import readWorkbook from 'read-excel-file/node';
import { describe, expect, it } from 'vitest';
import { RESULTS_PULLS_MAX } from '../../../core/contract/exchange-requests.ts';
import { SPREADSHEET_FORMS } from '../../../core/exchange/export/csv-form.ts';
import { resultsCsvLines } from '../../../core/exchange/export/results-csv.ts';
import { type TabledPull, blankColumns, resultsTable } from '../../../core/exchange/export/results-table.ts';
import { type ColumnChoice, chosenColumns } from '../../../core/exchange/export/table-columns.ts';
import type { Result } from '../../../core/results/result.ts';
import { WORKBOOK_RESULTS_MAX, resultsWorkbook } from '../../../electron/exports/results-workbook.ts';

const result = (
  symbol: string,
  value: number,
  unit: Result['unit'],
  rounded: Result['rounded'] = [],
): Result => ({
  symbol,
  name: symbol,
  value,
  unit,
  rounded,
  method: '',
  working: { formula: '', inputs: [], substituted: '', source: '' },
});

const pulls: TabledPull[] = [
  {
    pullId: 1,
    specimenName: 'W-1',
    startedWallMs: Date.UTC(2024, 4, 17, 7, 12, 30),
    utcOffsetMinutes: 120,
    operator: '=cmd()',
    verdict: 'accept',
    readingCount: 1200,
    gapCount: 0,
    interrupted: false,
    results: [
      result('Rm', 512.345, 'MPa', [
        { value: 512, text: '512', unit: 'MPa', step: 1, rule: 'ISO 6892-1: as published' },
      ]),
      result('A', 28.04, '%', [
        { value: 28, text: '28.0', unit: '%', step: 0.5, rule: 'ISO 6892-1: as published' },
      ]),
    ],
    withheld: [{ symbol: 'Rp0.2', name: 'proof strength', reason: 'No extensometer.', code: 'no-strain' }],
  },
  {
    pullId: 2,
    specimenName: '-5 copy',
    startedWallMs: Date.UTC(2024, 4, 18, 7, 0, 0),
    utcOffsetMinutes: 120,
    readingCount: 900,
    gapCount: 2,
    interrupted: true,
    results: [result('Rm', -3.5, 'MPa')],
    withheld: [],
  },
];

const choices: ColumnChoice[] = [
  { kind: 'fact', fact: 'pull' },
  { kind: 'fact', fact: 'specimen' },
  { kind: 'fact', fact: 'started' },
  { kind: 'fact', fact: 'operator' },
  { kind: 'result', symbol: 'Rm', form: 'unrounded' },
  { kind: 'result', symbol: 'Rm', unit: 'ksi', form: 'unrounded' },
  { kind: 'result', symbol: 'A', form: 'rounded' },
  { kind: 'fact', fact: 'withheld' },
];

describe('the table of results', () => {
  it('has a title with the unit for each column, and one unit per column', () => {
    expect(resultsTable(pulls, choices).titles).toEqual([
      'pull',
      'specimen',
      'started',
      'operator',
      'Rm (MPa)',
      'Rm (ksi)',
      'A rounded (%)',
      'withheld',
    ]);
  });

  it('as CSV keeps numbers numbers and makes text harmless', () => {
    const [header, first, second]: string[][] = parse(
      [...resultsCsvLines(resultsTable(pulls, choices))].join('\r\n'),
    );
    expect(header?.[4]).toBe('Rm (MPa)');
    expect(first).toEqual([
      '1',
      'W-1',
      '2024-05-17T09:12:30.000+02:00',
      "'=cmd()",
      '512.345',
      expect.stringMatching(/^74\.30/),
      '28.0',
      'Rp0.2: No extensometer.',
    ]);
    expect(second?.slice(0, 5)).toEqual(['2', "'-5 copy", '2024-05-18T09:00:00.000+02:00', '', '-3.5']);
    expect(second?.[6]).toBe('');
  });

  it('in a spreadsheet form of another language has the other decimal sign (X1)', () => {
    const form = SPREADSHEET_FORMS['decimal-comma-semicolon'];
    const rows: string[][] = parse([...resultsCsvLines(resultsTable(pulls, choices), form)].join('\r\n'), {
      delimiter: ';',
      bom: true,
    });
    expect(rows[1]?.[4]).toBe('512,345');
    expect(rows[1]?.[6]).toBe('28,0');
  });

  it('as a workbook keeps numbers numbers and makes text harmless (X2)', async () => {
    const bytes = await resultsWorkbook(resultsTable(pulls, choices));
    const sheets = await readWorkbook(Buffer.from(bytes));
    const rows = sheets[0]?.data ?? [];
    expect(rows).toHaveLength(3);
    expect(rows[0]?.[4]).toBe('Rm (MPa)');
    expect(rows[1]?.slice(0, 5)).toEqual([1, 'W-1', '2024-05-17T09:12:30.000+02:00', "'=cmd()", 512.345]);
    expect(rows[2]?.[4]).toBe(-3.5);
    expect(rows[2]?.[6] ?? null).toBeNull();
  });

  it('offers every result that some pull has, rounded beside unrounded, a rounded column for each unit of the rules', () => {
    const [first, second] = pulls;
    if (first === undefined || second === undefined) throw new Error('there are two');
    const measured = [
      first,
      {
        ...second,
        results: [
          result('Rm', 500, 'MPa', [
            // 72.5 ksi: ASTM E8/E8M rounds 50 000 to 100 000 psi to 500 psi. The shop's own figure is no rule's.
            { value: 72500, text: '72500', unit: 'psi', step: 500, rule: 'ASTM E8/E8M (1): strength' },
            { value: 501.2, text: '501.2', unit: 'MPa', step: 0.1, rule: 'shop arithmetic: area' },
          ]),
        ],
      },
    ];
    const table = resultsTable(measured, chosenColumns(measured));
    const results = table.titles.slice(table.titles.indexOf('welder') + 1, table.titles.indexOf('verdict'));
    expect(results).toEqual(['Rm (MPa)', 'Rm rounded (MPa)', 'Rm rounded (psi)', 'A (%)', 'A rounded (%)']);
    const at = table.titles.indexOf('Rm (MPa)');
    expect(table.rows.map((row) => row.slice(at, at + 3))).toEqual([
      [{ kind: 'number', value: 512.345 }, { kind: 'number', value: 512, text: '512' }, { kind: 'blank' }],
      [{ kind: 'number', value: 500 }, { kind: 'blank' }, { kind: 'number', value: 72500, text: '72500' }],
    ]);
    // Pulls of one archive don't name it.
    expect(table.titles[0]).toBe('pull');
    expect(chosenColumns([{ archive: 'a', results: [] }])[0]).toEqual({ kind: 'fact', fact: 'archive' });
  });

  it('has the columns that are asked for, in that order, and says in which nothing stands', () => {
    const columns = chosenColumns(pulls, [
      { kind: 'fact', fact: 'heat' },
      { kind: 'result', symbol: 'A', form: 'rounded' },
      { kind: 'result', symbol: 'Z', form: 'unrounded' },
      { kind: 'fact', fact: 'filler-lot' },
    ]);
    const set = { heat: 'H-77, H-78', fillerLot: '4711' };
    const table = resultsTable(
      pulls.slice(0, 1).map((pull) => ({ ...pull, ...set })),
      columns,
    );
    expect(table.titles).toEqual(['heat', 'A rounded (%)', 'Z', 'filler lot']);
    expect(table.rows).toEqual([
      [
        { kind: 'text', text: 'H-77, H-78' },
        { kind: 'number', value: 28, text: '28.0' },
        { kind: 'blank' },
        { kind: 'text', text: '4711' },
      ],
    ]);
    expect(blankColumns(table)).toEqual(['Z']);
  });

  it('has the stated day beside the start where one was stated, and then only without being asked', () => {
    const [first, second] = pulls;
    if (first === undefined || second === undefined) throw new Error('there are two');
    const dated = [first, { ...second, pulledOn: '2019-05-14' }];
    const { titles, rows } = resultsTable(dated, chosenColumns(dated));
    const at = titles.indexOf('pulled on');
    expect(titles[at - 1]).toBe('started');
    expect(rows.map((row) => row[at])).toEqual([{ kind: 'blank' }, { kind: 'text', text: '2019-05-14' }]);
    expect(resultsTable(pulls, chosenColumns(pulls)).titles).not.toContain('pulled on');
    expect(chosenColumns(pulls, [{ kind: 'fact', fact: 'pulled-on' }])).toHaveLength(1);
  });

  it('is refused where it has more columns or rows than can be written', async () => {
    expect(() =>
      resultsTable(
        pulls,
        Array.from({ length: 201 }, () => choices[0] ?? never()),
      ),
    ).toThrow(RangeError);
    await expect(
      resultsWorkbook({ titles: ['a'], rows: new Array<never[]>(1_048_576).fill([]) }),
    ).rejects.toThrow(/narrow the search or export CSV/);
    // Whoever asks for a table is refused in a sentence long before that, and readings go into CSV files in parts.
    expect(RESULTS_PULLS_MAX).toBeLessThanOrEqual(WORKBOOK_RESULTS_MAX);
  });
});

function never(): never {
  throw new Error('there are choices');
}
