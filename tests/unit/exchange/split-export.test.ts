/** A pull of more readings than a spreadsheet holds: in parts that are whole together, or in one file that says so. */
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { expect, it } from 'vitest';
import type { Archive } from '../../../core/archive/archive.ts';
import { CSV_FORMS, CSV_FORM_NAMES } from '../../../core/exchange/export/csv-form.ts';
import { exportCsv } from '../../../electron/recorder/export-csv.ts';
import {
  END,
  SPECIMEN,
  batch,
  batchesOfLines,
  newPull,
  openArchive,
  scratchFolder,
} from '../archive/made-archive.ts';

/** 300 readings; silent before reading 150, and at the end. */
function pullWithGaps(archive: Archive): number {
  const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
  for (const its of batchesOfLines(pullId, 3, 100)) {
    const gap = {
      cause: 'silence',
      beforeSeq: 150,
      fromUs: 149_500,
      toUs: 150_000,
      words: 'the middle',
    } as const;
    archive.appendBatch(its.firstSeq === 100 ? { ...its, gaps: [gap] } : its);
  }
  const last = { cause: 'silence', beforeSeq: 300, fromUs: 300_000, toUs: null, words: 'the end' } as const;
  archive.closePull(batch(pullId, { firstSeq: 300, gaps: [last] }), END);
  return pullId;
}

function made() {
  const folder = scratchFolder();
  const archive = openArchive(join(folder, 'a.gaugemark'));
  return { archive, pullId: pullWithGaps(archive), folder, to: join(folder, 'p.csv') };
}

const rowsOf = (path: string, delimiter: string): Record<string, string>[] =>
  parse(readFileSync(path), {
    ...{ columns: true, comment: '#', comment_no_infix: true, bom: true },
    delimiter,
  });
const linesOf = (path: string): string[] => readFileSync(path, 'utf8').trimEnd().split('\r\n');

it('becomes files that fit, each with all heads, which together hold every reading and every gap once', () => {
  const { archive, pullId, folder, to } = made();
  const whole = exportCsv(archive, {
    pullId,
    to: join(folder, 'whole.csv'),
    form: 'decimal-comma-semicolon',
  });
  expect(whole).toMatchObject({ parts: [], remark: null, path: join(folder, 'whole.csv') });
  const rowsMax = 140;
  const written = exportCsv(archive, { pullId, to, form: 'decimal-comma-semicolon' }, rowsMax);
  expect(written.parts).toEqual([1, 2, 3].map((n) => join(folder, `p-part-${String(n)}-of-3.csv`)));
  expect(written.remark).toMatch(/300 readings .* 140 rows, so it is written as 3 files/);
  expect(existsSync(to)).toBe(false);
  const together = written.parts.flatMap((part) => rowsOf(part, ';'));
  expect(together).toEqual(rowsOf(whole.path, ';'));
  expect(together.map((row) => row['reading'])).toEqual(Array.from({ length: 300 }, (_, i) => String(i)));
  const said = written.parts.map(linesOf);
  for (const [i, lines] of said.entries()) {
    expect(lines.length).toBeLessThanOrEqual(rowsMax);
    expect(lines[0]).toContain('gaugemark pull csv 1');
    expect(lines).toContain('# specimen: T-1');
    expect(lines.at(-1)).toMatch(new RegExp(`^# end: \\d+ readings of part ${String(i + 1)} of 3$`));
  }
  const gaps = said.map((lines) => lines.filter((line) => line.startsWith('# gap')).length);
  expect(gaps).toEqual([0, 1, 1]);
  expect(written.bytes).toBe(written.parts.reduce((sum, part) => sum + readFileSync(part).length, 0));
});

it.each(CSV_FORM_NAMES)(
  'in the form %s a pull reads back with the very values of the archive (X1)',
  (form) => {
    const { archive, pullId, to } = made();
    const { path } = exportCsv(archive, { pullId, to, form });
    const { delimiter, decimalSign } = CSV_FORMS[form];
    const rows = rowsOf(path, delimiter);
    const { columns } = archive.readColumns({ pullId, fromSeq: 0, count: 300, shown: false });
    const [load, extension] = columns.channels;
    // As a spreadsheet of that language reads a cell: the other sign has no place in a number.
    const read = (column: string): number[] =>
      rows.map((row) => {
        const cell = row[column] ?? '';
        expect(cell).toMatch(decimalSign === ',' ? /^-?\d+(,\d+)?$/ : /^-?\d+(\.\d+)?$/);
        return Number(cell.replace(decimalSign, '.'));
      });
    expect(read('force_N')).toEqual([...(load?.value ?? [])]);
    expect(read('extension_mm')).toEqual([...(extension?.value ?? [])]);
    expect(read('time_s')).toEqual([...columns.elapsedUs].map((us) => us / 1e6));
    // What was shown, digit by digit as it was sent.
    const shown = ['shown_force_lbf', 'shown_extension_in'].map((column) => rows.map((row) => row[column]));
    const sent = [...batchesOfLines(pullId, 3, 100)].flatMap(({ chunks }) =>
      chunks.map(({ bytes }) => Buffer.from(bytes).toString().trimEnd().split(',')),
    );
    for (const [place, texts] of shown.entries())
      expect(texts).toEqual(sent.map((line) => line[place]?.replace('.', decimalSign)));
  },
);

it('stays one file in the form for machines, and is told that a spreadsheet would cut it off', () => {
  const { archive, pullId, to } = made();
  const written = exportCsv(archive, { pullId, to, form: 'plain' }, 140);
  expect(written).toMatchObject({ path: to, parts: [] });
  expect(written.remark).toMatch(/all 300 readings; a spreadsheet holds 140 rows and would cut it off/);
  expect(rowsOf(to, ',')).toHaveLength(300);
});

it('leaves nothing where one of the parts is there already', () => {
  const { archive, pullId, folder, to } = made();
  const inTheWay = join(folder, 'p-part-3-of-3.csv');
  writeFileSync(inTheWay, 'mine');
  const before = readdirSync(folder);
  expect(() => exportCsv(archive, { pullId, to, form: 'decimal-comma-tab' }, 140)).toThrow(
    /p-part-3-of-3\.csv exists already and is not written over/,
  );
  expect(readdirSync(folder)).toEqual(before);
  expect(readFileSync(inTheWay, 'utf8')).toBe('mine');
});
