/** `gaugemark archive export`: the end of the file's name says the form, each checked by somebody else's library. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import jsonld from 'jsonld';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { CSV_FORMS } from '../../../core/exchange/export/csv-form.ts';
import { pullDocument } from '../../../core/exchange/export/pull-document.ts';
import { folderOfFiles, ran } from './in-process.ts';

const fixture = (path: string): URL => new URL(`../../../fixtures/${path}`, import.meta.url);

it('writes an imported pull as CSV, as everything in JSON, and as linked data', async () => {
  const file = folderOfFiles();
  // A record of our own: a straight line to 400 MPa on 100 mm², then it draws out.
  const rows = Array.from({ length: 200 }, (_, i) =>
    [i / 10, i < 100 ? i * 400 : 40_000 + (i - 100) * 20, i < 100 ? i * 0.001 : 0.1 + (i - 100) * 0.05].join(
      ',',
    ),
  );
  const broken = Array.from({ length: 20 }, (_, i) => `${String(20 + i / 10)},40,5.05`);
  const bytes = ['time_s,force_N,extension_mm', ...rows, ...broken, ''].join('\n');
  const curve = file('curve.csv', bytes);
  const folder = join(curve, '..');
  const archive = join(folder, 'a.gaugemark');
  const specimen = {
    id: '=S1',
    geometry: { kind: 'flat', width: '20 mm', thickness: '5 mm' },
    gaugeLength: '50 mm',
  };
  file('curve.specimen.json', JSON.stringify(specimen));
  expect(await ran('archive', 'import', curve, '--archive', archive)).toMatchObject({ code: 0 });
  const kept = await ran(
    ...(['archive', 'evaluate', '1', '--archive', archive, '--zero-load', '40 N'] as const),
    ...(['--reason', 'grips were not zeroed'] as const),
  );
  expect(kept.code, kept.err).toBe(0);

  const photo = fileURLToPath(fixture('photos/grey-ramp.jpg'));
  expect((await ran('archive', 'photo', '--pull', '1', '--add', photo, '--archive', archive)).code).toBe(0);
  const certificate = ['certificate', '--pull', '1', '--archive', archive] as const;
  expect((await ran(...certificate, '--out', join(folder, 'c.json'))).code).toBe(0);

  const out = async (name: string): Promise<string> => {
    const to = join(folder, name);
    const { code, err } = await ran('archive', 'export', '1', '--archive', archive, '--out', to);
    expect(code, err).toBe(0);
    return readFileSync(to, 'utf8');
  };
  expect(await out('p.csv')).toContain('time_s,force_N,extension_mm');
  expect(await out('p.svg')).toMatch(/^<svg|^<\?xml/);
  for (const [name, said] of [
    ['p.xlsx', /not written as \.xlsx/],
    ['p.png', /not written as \.png/],
  ] as const) {
    const to = join(folder, name);
    const refused = await ran('archive', 'export', '1', '--archive', archive, '--out', to);
    expect([refused.code, refused.err]).toEqual([2, expect.stringMatching(said)]);
    expect(readdirSync(folder)).not.toContain(name);
  }

  const text = await out('p.json');
  // Never over a file that is there.
  const twice = ['archive', 'export', '1', '--archive', archive, '--out', join(folder, 'p.json')] as const;
  expect((await ran(...twice)).code).not.toBe(0);
  const schema = JSON.parse(readFileSync(fixture('schemas/pull-4.schema.json'), 'utf8')) as object;
  const validate = new Ajv2020({ strict: false, validateFormats: false, allErrors: true }).compile(schema);
  validate(JSON.parse(text));
  expect(validate.errors ?? []).toEqual([]);
  const document = pullDocument.parse(JSON.parse(text));
  const raw = Buffer.concat(document.raw.chunks.map((chunk) => Buffer.from(chunk.base64, 'base64')));
  expect(raw.toString('utf8')).toBe(bytes);
  expect(document.imported?.sha256).toBe(createHash('sha256').update(bytes).digest('hex'));
  expect(document.imported?.report.rows).toBe(220);
  expect(document.raw.chunks.map(({ opening }) => opening)).toEqual([0]);
  expect(document.sets).toEqual([]);
  expect(readFileSync(join(folder, 'c.json'), 'utf8')).toContain(
    `"${document.certificates[0]?.number ?? ''}"`,
  );
  expect(document.photos.map(({ base64 }) => Buffer.from(base64 ?? '', 'base64'))).toEqual([
    readFileSync(photo),
  ]);
  const [standing] = document.evaluations;
  expect(standing?.kept).toMatchObject({ reason: 'grips were not zeroed', supersedes: null });
  // 40 000 N + 99 × 20 N, less the 40 N that the grips weighed.
  expect(standing?.evaluation?.results.find(({ symbol }) => symbol === 'Fm')?.value).toBeCloseTo(41_940, 6);

  const linked = JSON.parse(await out('p.jsonld')) as object;
  const quads = (await jsonld.toRDF(linked, { safe: true })) as { subject: { value: string } }[];
  expect(quads.length).toBeGreaterThan(20);
  // Pulls of two archives have the same numbers, and must not have the same names.
  expect(quads.some(({ subject }) => /^urn:gaugemark:archive:[^:]+:pull:1:$/.test(subject.value))).toBe(true);
  expect(readdirSync(folder).filter((name) => name.includes('.part-'))).toEqual([]);
});

describe('a pull as CSV for a spreadsheet of some language', async () => {
  const file = folderOfFiles();
  const rows = Array.from(
    { length: 60 },
    (_, i) => `${String(i / 8)},${String(i * 12.5)},${String(i * 0.003)}`,
  );
  const curve = file('curve.csv', ['time_s,force_N,extension_mm', ...rows, ''].join('\n'));
  file(
    'curve.specimen.json',
    JSON.stringify({
      id: 'S;1, "x"',
      geometry: { kind: 'flat', width: '20 mm', thickness: '5 mm' },
      gaugeLength: '50 mm',
    }),
  );
  const archive = join(curve, '..', 'a.gaugemark');
  await ran('archive', 'import', curve, '--archive', archive);
  const out = (name: string, ...flags: string[]) =>
    ran('archive', 'export', '1', '--archive', archive, '--out', join(curve, '..', name), ...flags);
  const table = (name: string, delimiter: string): Record<string, string>[] =>
    parse(readFileSync(join(curve, '..', name)), {
      ...{ columns: true, comment: '#', comment_no_infix: true, bom: true },
      delimiter,
    });
  await out('usual.csv');
  const plain = table('usual.csv', ',');

  it.each(Object.entries(CSV_FORMS))('%s reads back as the same numbers', async (form, its) => {
    const { code, err } = await out(`${form}.csv`, '--form', form);
    expect([code, err]).toEqual([0, '']);
    const read = table(`${form}.csv`, its.delimiter);
    expect(read).toHaveLength(60);
    expect(read.map((row) => row['force_N'])).toContain(`12${its.decimalSign}5`);
    for (const [i, row] of read.entries())
      for (const [name, cell] of Object.entries(row))
        expect(cell.replace(its.decimalSign, '.')).toBe(plain[i]?.[name]);
    const hasMark = readFileSync(join(curve, '..', `${form}.csv`))
      .subarray(0, 3)
      .equals(Buffer.from([0xef, 0xbb, 0xbf]));
    expect(hasMark).toBe(form !== 'plain');
  });

  it('is not written in a form that nobody knows, nor under a name that says another', async () => {
    const unknown = await out('u.csv', '--form', 'xlsx');
    expect([unknown.code, unknown.err]).toEqual([2, expect.stringContaining('decimal-comma-semicolon')]);
    const contrary = await out('u.json', '--form', 'decimal-comma-semicolon');
    expect([contrary.code, contrary.err]).toEqual([2, expect.stringMatching(/is CSV.*end it with \.csv/)]);
    expect(readdirSync(join(curve, '..')).filter((name) => name.startsWith('u.'))).toEqual([]);
  });
});
