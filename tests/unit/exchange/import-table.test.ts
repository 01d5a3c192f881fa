import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { importBytes } from '../../../core/exchange/import/import-bytes.ts';
import { type ImportChoices, proposeImport } from '../../../core/exchange/import/propose-import.ts';
import { DelimitedReader } from '../../../core/exchange/import/read-delimited.ts';
import { importReport } from '../../../core/exchange/import/import-report.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

function imported(text: string | Uint8Array, choices: ImportChoices = {}) {
  const outcome = importBytes(typeof text === 'string' ? bytes(text) : text, choices);
  if (!outcome.ok) throw new Error(outcome.fault.sentence);
  expect(importReport.safeParse(outcome.report).success).toBe(true);
  return outcome;
}

function faultOf(input: string | Uint8Array, choices: ImportChoices = {}) {
  const outcome = importBytes(typeof input === 'string' ? bytes(input) : input, choices);
  if (outcome.ok) throw new Error('was read, should have been refused');
  expect(outcome.fault.sentence.split('\n')).toHaveLength(1);
  return outcome.fault;
}

function proposed(text: string, choices: ImportChoices = {}) {
  const outcome = proposeImport(bytes(text), true, choices);
  if (!outcome.ok) throw new Error(outcome.fault.sentence);
  return outcome.proposal;
}

const list = (column: Float64Array | undefined): number[] => [...(column ?? [])];

describe('finding the table in a file from elsewhere', () => {
  it.each([
    ['tabs', 'Time [s]\tForce [kN]\n0\t0.5\n0.1\t1.25\n'],
    ['semicolons and decimal comma', 'Time [s];Force [kN]\n0;0,5\n0,1;1,25\n'],
    ['semicolons and decimal point', 'Time [s];Force [kN]\n0;0.5\n0.1;1.25\n'],
    ['commas', 'Time [s],Force [kN]\n0,0.5\n0.1,1.25\n'],
    ['commas and quoted decimal commas', 'Time [s],Force [kN]\n"0","0,5"\n"0,1","1,25"\n'],
    ['vertical bars', 'Time [s]|Force [kN]\n0|0.5\n0.1|1.25\n'],
    ['blanks', 'Time_s  Force_kN\n 0   0.5\n 0.1 1.25\n'],
    ['units in a line of their own', 'Time;Standard force\ns;kN\n0;0,5\n0,1;1,25\n'],
    ['bracketed units in a line of their own', 'Time;Load\n[s];[kN]\n0;0,5\n0,1;1,25\n'],
    ['quoted names with the unit behind a semicolon', '"Time;s","Standard force;kN"\n0,0.5\n0.1,1.25\n'],
    ['units behind a stroke', 'Zeit / s;Prüfkraft / kN\n0;0,5\n0,1;1,25\n'],
    ['units after "in"', 'Zeit in s;Standardkraft in kN\n0;0,5\n0,1;1,25\n'],
    ['Spanish names', 'Tiempo (s);Fuerza (kN)\n0;0,5\n0,1;1,25\n'],
    ['a delimiter at the end of every line', 'Time [s];Force [kN];\n0;0,5;\n0,1;1,25;\n'],
    ['a delimiter at the end of the rows only', 'Time [s];Force [kN]\n0;0,5;\n0,1;1,25;\n'],
    ['a comment sign before the names', '# Time [s];Force [kN]\n0;0,5\n0,1;1,25\n'],
    [
      'the header in the middle',
      'Order;4711;12\nWidth;12,7;mm\n\nremarks, none\n\nTime [s];Force [kN]\n0;0,5\n0,1;1,25\n',
    ],
    ['a byte order mark', '\ufeffTime [s];Force [kN]\n0;0,5\n0,1;1,25\n'],
    ['CR line ends', 'Time [s];Force [kN]\r0;0,5\r0,1;1,25\r'],
    ['no end of the last line', 'Time [s];Force [kN]\r\n0;0,5\r\n0,1;1,25'],
    ['exponents and a real minus sign', 'Time [s];Force [kN]\n−0E0;5e-1\n1E-1;1.25e0\n'],
  ])('%s', (_, text) => {
    const { curve } = imported(text);
    expect(list(curve.timeS).map((t) => t + 0)).toEqual([0, 0.1]);
    expect(list(curve.forceN)).toEqual([500, 1250]);
  });

  it('loses no row to names that stand in the middle: repeated ones are skipped, others leave a question', () => {
    const rows = (from: number): string =>
      Array.from({ length: 4 }, (_, i) => `${String(from + i)},0.5\n`).join('');
    const names = 'time_s,force_kN\n';
    const again = imported(names + rows(0) + names + rows(4) + rows(8));
    expect(list(again.curve.timeS)).toHaveLength(12);
    expect(again.report.misfits.count).toBe(1);

    const middle = rows(0) + names + rows(4) + rows(8);
    const { questions, readyWithoutAsking } = proposed(middle);
    expect(readyWithoutAsking).toBe(false);
    expect(questions.join()).toMatch(/begin in line 1 or in line 6\?/);
    const lengths = [{ firstRowLine: 6 }, { firstRowLine: 1 }, { columnsText: 'time_s;force_kN' }].map(
      (choices) => imported(middle, choices).curve.length,
    );
    expect(lengths).toEqual([8, 12, 12]);
  });

  it('keeps the lines above the table for the person who looks', () => {
    const proposal = proposed('Order;4711\nWidth;12,7;mm\n\nTime [s];Force [kN]\n0;0,5\n0,1;1,25\n');
    expect(proposal.preamble).toEqual([
      { line: 1, text: 'Order;4711' },
      { line: 2, text: 'Width;12,7;mm' },
    ]);
    expect(proposal.plan?.firstRowLine).toBe(5);
    expect(proposal.sample).toEqual([
      ['0', '0,5'],
      ['0,1', '1,25'],
    ]);
  });

  it('begins at the first row below the names even where that row does not fit', () => {
    const { report } = imported('Time [s];Force [N]\nn/s;x\n0;1\n1;2\n2;3\n');
    expect(report.misfits.first[0]?.line).toBe(2);
  });

  it('of two tables in one file takes the longer one, with its own names', () => {
    const proposal = proposed(
      'Width [mm];Force [N]\n12;1\n13;2\n\nTime [s];Extension [mm];Force [kN]\n0;0;0,5\n1;1;0,6\n2;2;0,7\n',
    );
    expect(proposal.plan?.firstRowLine).toBe(6);
    expect(proposal.columns.map((c) => c.quantity)).toEqual(['time', 'extension', 'force']);
  });

  it('takes the decimal sign from the rows, not from the lines above them', () => {
    const { curve } = imported(
      'Width;12.75\nRoom [°C];21.5;checked\n\nTime [s];Force [kN]\n0;0,5\n0,1;1,25\n',
    );
    expect(list(curve.forceN)).toEqual([500, 1250]);
  });

  it('begins where a person says', () => {
    const { curve } = imported('Time [s];Force [N]\n0;1\n1;2\n2;3\n', { firstRowLine: 3 });
    expect(list(curve.forceN)).toEqual([2, 3]);
  });

  it('reads thousands where a sign between them shows beyond doubt', () => {
    expect(list(imported('Force [N];Time [s]\n1.234,5;0\n12.345,0;1\n999,5;2\n').curve.forceN)).toEqual([
      1234.5, 12345, 999.5,
    ]);
    expect(list(imported('Force [N]\tTime [s]\n1 234.5\t0\n12 345\t1\n').curve.forceN)).toEqual([
      1234.5, 12345,
    ]);
    expect(list(imported("Force [N];Time [s]\n1'234.5;0\n12'345;1\n").curve.forceN)).toEqual([1234.5, 12345]);
  });

  it.each([
    ['UTF-16, little end first, with its mark', Buffer.from('\ufeffTime [s];Force [kN]\n0;0,5\n', 'utf16le')],
    [
      'UTF-16, big end first, with its mark',
      Buffer.from('\ufeffTime [s];Force [kN]\n0;0,5\n', 'utf16le').swap16(),
    ],
    ['UTF-16 without a mark', Buffer.from('Time [s];Force [kN]\n0;0,5\n', 'utf16le')],
    [
      'UTF-16, big end first, without a mark',
      Buffer.from('Time [s];Force [kN]\n0;0,5\n', 'utf16le').swap16(),
    ],
    ['Latin-1', Buffer.from('Zeit [s];Pr\u00fcfkraft [kN]\n0;0,5\n', 'latin1')],
  ])('text in %s', (_, buffer) => {
    expect(list(imported(new Uint8Array(buffer)).curve.forceN)).toEqual([500]);
  });

  it('says which encoding it took, and that Latin-1 is a fallback', () => {
    const outcome = proposeImport(new Uint8Array(Buffer.from('Pr\u00fcfkraft [kN]\n5\n', 'latin1')), true);
    expect(outcome.ok && outcome.proposal.evidence[0]).toMatch(/not valid UTF-8.*Latin-1/);
    expect(outcome.ok && outcome.proposal.columns[0]?.name).toBe('Prüfkraft [kN]');
  });
});

describe('proposing what the columns are', () => {
  const column = (header: string, row = '1;1;1;1') => proposed(`${header}\n${row}\n${row}\n`).columns[0];

  it.each([
    ['Force [kN];b', 'force', 'kN', 'sure'],
    ['Load lbf;b', 'force', 'lbf', 'sure'],
    ['Extensometer (mm);b', 'extension', 'mm', 'sure'],
    ['Strain %;b', 'strain', '%', 'sure'],
    ['Dehnung [mm];b', 'extension', 'mm', 'likely'],
    ['ext mm;b', 'extension', 'mm', 'likely'],
    ['Disp (in);b', 'travel', 'in', 'likely'],
    ['Elongation [%];b', 'strain', '%', 'likely'],
    ['Crosshead extension [mm];b', 'travel', 'mm', 'sure'],
    ['Extension (mm);b', 'extension', 'mm', 'likely'],
    ['extension_mm;b', 'extension', 'mm', 'sure'],
    ['Displacement [mm];b', 'travel', 'mm', 'likely'],
    ['True stress [MPa];b', 'true-stress', 'MPa', 'sure'],
    ['Stress N/mm²;b', 'stress', 'MPa', 'sure'],
    ['F [N];b', 'force', 'N', 'likely'],
    ['Strain;b', 'strain', '1', 'guess'],
    ['[kN];b', 'force', 'kN', 'likely'],
    ['Strain rate [1/s];b', null, null, 'none'],
    ['Transverse strain [%];b', null, null, 'none'],
    ['Temperature [°C];b', null, null, 'none'],
    ['Force [mm];b', null, null, 'none'],
    ['Sample;b', null, null, 'none'],
  ] as const)('%s', (header, quantity, unit, confidence) => {
    expect(column(header, '1;1')).toMatchObject({ quantity, unit, confidence });
  });

  it('never takes crosshead travel for an extension, but takes the extensometer beside it', () => {
    const { columns } = proposed('Displacement [mm];Crosshead [mm];Force [N]\n1;1;1\n2;2;2\n');
    expect(columns.map((c) => c.quantity)).toEqual(['extension', 'travel', 'force']);
    expect(columns[0]?.evidence).toMatch(/machine's own travel/);
    expect(proposed('Displacement [mm];Force [N]\n1;1\n2;2\n').columns[0]?.quantity).toBe('travel');
  });

  it('says of what it took for likely that it did', () => {
    const { report } = imported('Force [N];Extension [mm]\n1;1\n2;2\n');
    expect(report.notes).toEqual([
      expect.stringMatching(/Column 2, "Extension \[mm\]", is read as extension.*travel of the crosshead/),
    ]);
    expect(imported('force_N;extension_mm\n1;1\n2;2\n').report.notes).toEqual([]);
  });

  it('takes stress and strain only where force and extension are not there', () => {
    const both = proposed('Force [N];Extension [mm];Stress [MPa];Strain [%]\n1;1;1;1\n2;2;2;2\n');
    expect(both.columns.map((c) => c.used)).toEqual([true, true, false, false]);
    expect(both.columns[2]?.evidence).toMatch(/follows from the force/);
    const ratios = proposed('Stress [MPa];Strain [%]\n1;1\n2;2\n');
    expect(ratios.columns.map((c) => c.used)).toEqual([true, true]);
  });

  it('tells percent from ratio by the size of the values, and asks', () => {
    const percent = proposed('Force [N];Strain\n100;0,5\n200;12,5\n');
    expect(percent.columns[1]).toMatchObject({ unit: '%', confidence: 'guess' });
    expect(percent.readyWithoutAsking).toBe(false);
    expect(percent.questions.join()).toMatch(/column 2, "Strain", a strain in %/);
  });

  it('refuses to settle where the name and the line of units disagree', () => {
    const proposal = proposed('Force [kN];Time\nN;s\n1;2\n3;4\n');
    expect(proposal.columns[0]?.evidence).toMatch(/name says "kN".*"N"/);
    expect(proposal.plan).toBeNull();
  });

  it('of two columns of a quantity takes the more certain one and says so of the other', () => {
    const { columns } = proposed('F [N];Force [kN];Time [s]\n1;1;1\n2;2;2\n');
    expect(columns.map((c) => c.used)).toEqual([false, true, true]);
    expect(columns[0]?.evidence).toMatch(/another column is taken as force/);
    // Told where nobody looks at a preview, too.
    const twice = imported('time_s,force_N,force_kN,extension_mm,status\n0,1000,1,0,ok\n1,2000,2,0.1,ok\n');
    expect(list(twice.curve.forceN)).toEqual([1000, 2000]);
    expect(twice.report.notes).toEqual([
      'Column 3, "force_kN", is left out: column 2 is taken for the same quantity.',
    ]);
    expect(imported('time_s,force_N,force_kN,force_lbf\n0,1000,1,225\n1,2000,2,450\n').report.notes).toEqual([
      '2 columns are left out, since others are taken for the same quantities; the first is column 3, "force_kN".',
    ]);
  });

  it('reads clocks, and dates with times, as seconds', () => {
    expect(list(imported('Time;Force [N]\n00:00:01.5;1\n00:01:02,25;2\n').curve.timeS)).toEqual([1.5, 62.25]);
    expect(
      list(imported('Timestamp;Force [N]\n2024-05-17 09:59:59.5;1\n2024-05-17T10:00:01.75;2\n').curve.timeS),
    ).toEqual([0, 2.25]);
  });

  it('reads units inside the cells', () => {
    const outcome = imported('Force;Time [s]\n12.5 kN;0\n13 kN;1\n');
    expect(list(outcome.curve.forceN)).toEqual([12_500, 13_000]);
  });
});

describe('columns named by a person', () => {
  const text = '1;2;3;4\n2;3;4;5\n';

  it('take the place of what the file says', () => {
    const { curve } = imported(text, { columnsText: 'time_s;force_kN;travel_mm;extension_mm' });
    expect([curve.timeS, curve.forceN, curve.travelMm, curve.extensionMm].map(list)).toEqual([
      [1, 2],
      [2000, 3000],
      [3, 4],
      [4, 5],
    ]);
  });

  it('are found among three hundred, by their names or as said', () => {
    const among = (name: (at: number) => string): string =>
      Array.from({ length: 300 }, (_, at) => name(at)).join(';');
    const rows = [7, 8].map((row) => among((at) => String(row * 1000 + at))).join('\n');
    const heads = among((at) =>
      at === 120 ? 'Time [s]' : at === 250 ? 'Force [kN]' : `channel ${String(at)}`,
    );
    const byName = imported(`${heads}\n${rows}\n`).curve;
    expect([byName.timeS, byName.forceN].map(list)).toEqual([
      [7_120, 8_120],
      [7_250_000, 8_250_000],
    ]);
    const columnsText = among((at) => (at === 298 ? 'force_N' : at === 3 ? 'time_s' : '-'));
    const said = imported(`${rows}\n`, { columnsText }).curve;
    expect([said.timeS, said.forceN].map(list)).toEqual([
      [7_003, 8_003],
      [7_298, 8_298],
    ]);
  });

  it('leave out with a dash, with nothing, and what is not named', () => {
    const { curve, report } = imported(text, { columnsText: '-;force_N;' });
    expect(Object.keys(curve)).toEqual(['length', 'forceN']);
    expect(report.notes).toEqual(['Column 4 was not named and is left out.']);
    const two = proposed(text, { columnsText: '-;force_N' });
    expect(two.notes).toEqual(['Columns 3 to 4 were not named and are left out.']);
    expect(two.readyWithoutAsking).toBe(true);
    expect(proposed(text, { columnsText: '-;force_N;-;-' }).notes).toEqual([]);
    // Rows that end with a delimiter leave nothing out.
    expect(proposed('1;2;\n2;3;\n', { columnsText: 'time_s;force_N' }).notes).toEqual([]);
  });

  it.each([
    [
      'four names over eight cells',
      '0,00,0,21,0,11,0,52\n0,10,1,25,0,20,0,61\n',
      'time_s;force_kN;travel_mm;extension_mm',
      {},
      /\(8 cells, no decimal point, and 4 columns named\)/,
    ],
    [
      'one name over two cells',
      '0,21\n1,25\n',
      'force_kN',
      { delimiter: ',' },
      /\(2 cells, no decimal point, and 1 column named\)/,
    ],
    [
      'two names over three cells',
      '0,1,25\n1,2,50\n',
      'time_s;force_kN',
      {},
      /\(3 cells, no decimal point, and 2 columns named\)/,
    ],
    [
      'a clock before decimal commas',
      '12:00:00,0,21\n12:00:01,1,25\n',
      'time_s;force_kN',
      {},
      /\(3 cells, no decimal point, and 2 columns named\)/,
    ],
    [
      'powers of ten',
      '1,5E3,0,2E0\n1,6E3,0,3E0\n',
      'force_N;time_s',
      {},
      /\(4 cells, no decimal point, and 2 columns named\)/,
    ],
  ] as const)(
    'are not taken for the first cells of decimal commas between commas: %s',
    (_, rows, columnsText, choices, sentence) => {
      const fault = faultOf(rows, { columnsText, ...choices });
      expect(fault.code).toBe('import-comma-and-comma');
      expect(fault.sentence).toMatch(sentence);
      const looked = proposeImport(bytes(rows), true, { columnsText, ...choices });
      expect(looked).toEqual({ ok: false, fault });
    },
  );

  it('may be fewer than the cells between commas where names or decimal points leave no doubt, or dashes say so', () => {
    const columnsText = 'time_s;force_kN';
    const pointed = imported('0,0.5,1,2\n1,1.25,2,3\n', { columnsText });
    expect(list(pointed.curve.forceN)).toEqual([500, 1250]);
    expect(pointed.report.notes).toEqual(['Columns 3 to 4 were not named and are left out.']);
    const headed = imported('a,b,c,d\n0,5,1,2\n1,6,2,3\n', { columnsText });
    expect(list(headed.curve.forceN)).toEqual([5000, 6000]);
    const dashed = imported('0,5,1,2\n1,6,2,3\n', { columnsText: `${columnsText};-;-` });
    expect(list(dashed.curve.forceN)).toEqual([5000, 6000]);
    // Also the window, where each column is chosen, says what can't be told from the file.
    const doubtful = [
      expect.stringMatching(/where they are decimal signs too.*no number shows a decimal point/),
    ];
    expect(dashed.report.notes).toEqual(doubtful);
    expect(proposed('0,00,0,21\n0,10,1,25\n').notes).toEqual(doubtful);
    expect(proposed('0,0.5\n1,1.25\n').notes).toEqual([]);
    expect(proposed('a,b\n0,5\n1,6\n').notes).toEqual([]);
  });

  it('are told of the cells under too few names as they are', () => {
    const eight = 'time_s,force_kN,travel_mm,extension_mm\n0,00,0,21,0,11,0,52\n0,10,1,25,0,20,0,61\n';
    expect(faultOf(eight).sentence).toContain('(8 cells under 4 names)');
    expect(faultOf(`${eight}0,2,2,30,0,3,0,7\n`).sentence).toContain('(8 cells under 4 names)');
    expect(faultOf(`${eight}1,2,30,0,3,0,7\n`).sentence).toContain(
      '(the rows have different numbers of cells)',
    );
  });

  it('take true stress and true strain, and turn them into engineering values', () => {
    const { curve, report } = imported('a;b\n100;0,1\n200;0,2\n', {
      columnsText: 'true_stress_MPa;true_strain_1',
    });
    expect(curve.strainRatio?.[0]).toBeCloseTo(Math.exp(0.1) - 1, 15);
    expect(curve.stressMpa?.[1]).toBeCloseTo(200 / Math.exp(0.2), 12);
    expect(report.notes.join()).toMatch(/not in the neck/);
  });

  it.each([
    ['time_s;force', /Column 2.*"force" has no unit/],
    ['time_s;force_stone', /Column 2.*"stone"/],
    ['time_s;weight_kN', /Column 2.*"weight_kN" is no quantity/],
    ['force_N;force_kN', /Column 2.*twice/],
    ['true_force_N', /only stress and strain/],
    ['-;-', /leave all of them out/],
    ['time_s;force_N;-;-;travel_mm', /5 columns are named but the rows of the file have 4 cells/],
    ['true_stress_MPa', /true stress needs a strain/],
    ['time_s', /force or a stress/],
  ])('%s is refused with a reason', (columnsText, sentence) => {
    expect(faultOf(text, { columnsText }).sentence).toMatch(sentence);
  });

  it('tell a column of decimal commas from two columns', () => {
    expect(list(imported('1,5\n2,25\n', { columnsText: 'force_N' }).curve.forceN)).toEqual([1.5, 2.25]);
    expect(list(imported('1,5\n2,25\n', { columnsText: 'force_N,time_s' }).curve.forceN)).toEqual([1, 2]);
  });
});

describe('rows', () => {
  it('with a blank cell or a word for "no value" are kept without it', () => {
    const { curve, report } = imported('Time [s];Force [N]\n0;1\n1;\n2;OL\n3\n4;2\n');
    expect(list(curve.forceN)).toEqual([1, Number.NaN, Number.NaN, 2]);
    expect(list(curve.timeS)).toEqual([0, 1, 2, 4]);
    expect(report.absent).toEqual({ force: 2 });
    expect(report.misfits).toEqual({
      count: 1,
      first: [{ line: 5, reason: '1 cell where the table has 2' }],
    });
  });

  it('that do not fit are listed with their lines, counted, and said', () => {
    const { curve, report } = imported('Time [s];Force [N]\n0;1\n1;abc\n2;3;4\n3;12 kN\n4;5\n5;6\n6;7\n');
    expect(list(curve.forceN)).toEqual([1, 5, 6, 7]);
    expect(report.misfits.first).toEqual([
      { line: 3, reason: '"abc" in the column Force [N], which is not a number' },
      { line: 4, reason: '3 cells where the table has 2' },
      { line: 5, reason: '"12 kN" in the column Force [N], but the column is in N' },
    ]);
    expect(report.notes.join()).toMatch(/3 rows did not fit.*; the first, line 3, has "abc" in the column/);
  });

  it('of zeros at the end are data like all others', () => {
    expect(list(imported('Force [N],Time [s]\n5,0\n0,1\n0,2\n').curve.forceN)).toEqual([5, 0, 0]);
  });

  it('with blank lines and comments between them are all there', () => {
    const { report } = imported('Force [N],Time [s]\n5,0\n\n# half way\n6,1\n,\n');
    expect(report).toMatchObject({ rows: 2, blankLines: 2, commentLines: 1, misfits: { count: 0 } });
  });

  it('in which time runs backwards are kept in their order, and it is said', () => {
    const { curve, report } = imported('Force [N],Time [s]\n5,0\n6,2\n7,1\n');
    expect(list(curve.timeS)).toEqual([0, 2, 1]);
    expect(report.notes.join()).toMatch(/backwards once, first at reading 3/);
  });

  it('under the same names again are read on; other names with rows behind them end the import', () => {
    const head = 'Force [N],Time [s]\n5,0\n6,1\n';
    const again = imported(`${head}Force [N],Time [s]\n7,2\n`);
    expect(again.report).toMatchObject({ rows: 3, misfits: { count: 1, first: [{ line: 4 }] } });
    const other = faultOf(`${head}Time [s],Force [N]\n2,7\n`);
    expect(other).toMatchObject({ code: 'import-second-header', line: 4 });
    expect(imported(`${head}end,of test\n`).report.misfits.count).toBe(1);
  });

  it('list no more than the bound, and count all', () => {
    const good = Array.from({ length: 500 }, (_, i) => `${String(i)};1`);
    const bad = Array.from({ length: 400 }, () => 'x;y');
    const { report } = imported(['Time [s];Force [N]', ...good, ...bad].join('\n'));
    expect(report.misfits.count).toBe(400);
    expect(report.misfits.first).toHaveLength(200);
  });

  it('in kN become the nearest double in N, not the product of two roundings', () => {
    fc.assert(
      fc.property(fc.double({ min: -500, max: 500, noNaN: true }), (kilonewtons) => {
        const text = kilonewtons.toFixed(7);
        const exact = Number(`${text}e3`);
        expect(imported(`Force [kN],Time [s]\n${text},0\n`).curve.forceN?.[0]).toBe(exact);
      }),
      { numRuns: 100 },
    );
  });
});

describe('what cannot be read is refused in one sentence', () => {
  it.each([
    ['an empty file', '', 'import-empty'],
    ['blank lines only', '\n\n \n', 'import-empty'],
    ['a letter', 'Dear colleague,\nthe specimen broke.\n', 'import-no-numbers'],
    ['names without rows', 'Time [s];Force [N]\n', 'import-no-numbers'],
    [
      '300 columns, none of a curve',
      `${Array.from({ length: 300 }, (_, i) => `c${String(i)}`).join(';')}\n${Array.from({ length: 300 }, (_, i) => String(i)).join(';')}\n`,
      'import-columns-unclear',
    ],
    [
      '1001 columns',
      `${Array.from({ length: 1001 }, (_, i) => `c${String(i)}`).join(';')}\n${Array.from({ length: 1001 }, (_, i) => String(i)).join(';')}\n`,
      'import-columns-too-many',
    ],
    ['columns that are none of a curve', 'Height [mm];Hardness\n1;2\n3;4\n', 'import-columns-unclear'],
    ['decimal commas between commas', 'Time [s],Force [kN]\n0,1,25,3\n0,2,26,4\n', 'import-comma-and-comma'],
    [
      'decimal commas between commas, some values whole',
      'Time [s],Force [kN]\n0,0\n0,1,25,3\n0,2,26,4\n1,27,5\n',
      'import-comma-and-comma',
    ],
    [
      'decimal commas between commas without names',
      '0,0\n0,1,25,3\n0,2,26,4\n1,27,5\n',
      'import-comma-and-comma',
    ],
    [
      'decimal commas between commas, the same number of cells throughout',
      'time_s,force_kN,travel_mm,extension_mm\n0,00,0,21,0,11,0,52\n0,10,1,25,0,20,0,61\n',
      'import-comma-and-comma',
    ],
    ['decimal point and comma mixed', 'Time [s];Force [kN]\n0.1;1,5\n0.25;2,5\n', 'import-decimal-mixed'],
    ['thousands or thousandths', 'Time [s];Force [N]\n0;1,234\n1;2,345\n', 'import-decimal-unclear'],
    ['a web page', '<html><table><tr><td>1</td></tr></table></html>', 'import-not-delimited'],
    ['JSON', '{"force":[1,2,3]}', 'import-not-delimited'],
    ['a line without an end', '1'.repeat(25_000), 'import-line-too-long'],
  ])('%s', (_, text, code) => {
    expect(faultOf(text).code).toBe(code);
  });

  it.each([
    ['a workbook renamed .csv', [0x50, 0x4b, 3, 4, 20, 0], /spreadsheet workbook.*save the sheet as CSV/],
    ['an older workbook', [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], /older binary kind/],
    ['gzip', [0x1f, 0x8b, 8], /unpack/],
    ['zero bytes', [1, 0, 0, 0, 2, 0, 0, 0], /zero bytes/],
  ])('%s', (_, head, sentence) => {
    const fault = faultOf(new Uint8Array(head));
    expect(fault.code).toBe('import-not-text');
    expect(fault.sentence).toMatch(sentence);
  });

  it('a table most of whose rows do not fit', () => {
    const outcome = faultOf('Time [s];Force [N]\n0;1\n1;2\nx;y\nx;y\nx;y\n');
    expect(outcome).toMatchObject({ code: 'import-most-rows-do-not-fit', line: 4 });
  });

  it('a person can settle what the program will not guess', () => {
    const text = 'Time [s];Force [N]\n0;1,234\n1;2,345\n';
    expect(list(imported(text, { decimalSign: ',' }).curve.forceN)).toEqual([1.234, 2.345]);
    expect(list(imported(text, { decimalSign: '.', groupSign: ',' }).curve.forceN)).toEqual([1234, 2345]);
  });
});

describe('whatever comes', () => {
  it('never throws, and a refusal is one sentence', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 600 }), (input) => {
        const outcome = importBytes(input);
        if (!outcome.ok) expect(outcome.fault.sentence).toMatch(/^[^\n]{20,}[.)]|"\.?$/);
      }),
      { numRuns: 400 },
    );
  });

  it('never throws on text that looks like a table either', () => {
    const cell = fc.oneof(
      fc.constantFrom(
        '',
        '-',
        'OL',
        '"',
        '""',
        'Force [kN]',
        'Time',
        's',
        '#',
        '1,5',
        '1.5',
        '1.234.5',
        '0:01',
        '\ufffd',
        '=1+1',
      ),
      fc.double().map(String),
      fc.string({ maxLength: 6 }),
    );
    const text = fc
      .tuple(
        fc.array(fc.array(cell, { maxLength: 5 }), { maxLength: 12 }),
        fc.constantFrom(',', ';', '\t', ' ', '|'),
        fc.constantFrom('\n', '\r\n', '\r'),
      )
      .map(([rows, delimiter, end]) => rows.map((row) => row.join(delimiter)).join(end));
    fc.assert(
      fc.property(text, fc.constantFrom(undefined, 'force_N;time_s', '-;force_N'), (input, columnsText) => {
        const outcome = importBytes(bytes(input), { columnsText });
        if (!outcome.ok) return;
        // Every line is accounted for.
        const { rows, blankLines, commentLines, misfits, lines } = outcome.report;
        expect(rows + blankLines + commentLines + misfits.count).toBe(lines - outcome.plan.firstRowLine + 1);
        expect(outcome.curve.length).toBe(rows);
      }),
      { numRuns: 600 },
    );
  });

  it('reads the same curve however the pieces are cut', () => {
    const whole = new Uint8Array(
      Buffer.from('\ufeffZeit [s];Prüfkraft [kN]\r\n0;0,5\r\n0,1;1,25\r\n0,2;1,75\r\n', 'utf16le'),
    );
    const { plan, curve } = imported(whole);
    for (let piece = 1; piece < 40; piece++) {
      const reader = new DelimitedReader(plan);
      for (let at = 0; at < whole.length; at += piece) reader.push(whole.subarray(at, at + piece));
      const outcome = reader.end();
      expect(outcome.ok && list(outcome.curve.forceN)).toEqual(list(curve.forceN));
    }
  });

  it('needs no more memory than its readings, however long the file is', () => {
    const { plan } = imported('Time [s];Force [N]\n0;1\n1;2\n');
    const reader = new DelimitedReader(plan);
    reader.push(bytes('Time [s];Force [N]\n'));
    // A gigabyte would take too long here: 40 MB of rows that don't fit leave nothing behind but a count.
    const junk = bytes('no reading in this line at all;neither here\n'.repeat(10_000));
    for (let i = 0; i < 100; i++) reader.push(junk);
    reader.push(bytes('0;1\n'));
    const outcome = reader.end();
    expect(outcome.ok).toBe(false);
    expect(!outcome.ok && outcome.fault.sentence).toMatch(/1000000 rows don't fit/);
  });
});
