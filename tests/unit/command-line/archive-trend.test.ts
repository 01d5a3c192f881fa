/** `gaugemark archive trend`: one result of all that a search finds, with limits, tolerance bound and picture. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { folderOfFiles, ran } from './in-process.ts';

it('tells mean, limits and bound of what is found, and draws it', async () => {
  const file = folderOfFiles();
  const archive = join(file('empty', ''), '..', 'pulls.gaugemark');
  const specimen = file(
    'S.json',
    JSON.stringify({ id: 'S', geometry: { kind: 'flat', width: '1 in', thickness: '0.5 in' } }),
  );
  // On half a square inch: 70 000, 72 000 and 71 000 psi.
  for (const load of ['35 kip', '36 kip', '35.5 kip'])
    expect(
      (await ran('pull', '--typed', '--load', load, '--specimen', specimen, '--archive', archive)).code,
    ).toBe(0);
  const svg = join(archive, '..', 'trend.svg');
  const { code, out, err } = await ran(
    ...(['archive', 'trend', '--archive', archive, '--units', 'us'] as const),
    ...(['--distribution', 'normal', '--coverage', '0.9', '--svg', svg] as const),
  );
  expect(code, err).toBe(0);
  expect(out).toMatch(/Rm of 3 pulls: mean 71 ?000 psi, least 70 ?000 psi, largest 72 ?000 psi/u);
  // Mean moving range 1 500 psi, by 1.128 (NIST/SEMATECH e-Handbook, 6.3.2.2): 71 000 ± 3 989 psi.
  expect(out).toMatch(/three-sigma limits from moving ranges 67 ?011 psi – 74 ?989 psi; outside: none/u);
  // k(n = 3, p = 0.90, 95 %) = 6.155 in published tables (from memory): 71 000 − 6.155 × 1 000 = 64 845 psi.
  expect(out).toMatch(/64 ?84\d psi: lower tolerance bound, normal, 90 % of the population with 95 %/u);
  expect(out).toContain('Only 3 specimens: the factor is large');
  expect(existsSync(svg)).toBe(true);
  expect(readFileSync(svg, 'utf8')).toContain('mean + 3 sigma from moving ranges');
  // In no set: nothing is compared.
  expect(out).toContain('not judged: all (in no set, so no rules are chosen)');
  expect(out).not.toContain('below the minimum');

  // Whole or not at all: no part of a file is left, and none is written over.
  expect(readdirSync(join(archive, '..')).filter((name) => name.includes('.part-'))).toEqual([]);
  const twice = await ran('archive', 'trend', '--archive', archive, '--svg', svg);
  expect([twice.code, twice.err]).toEqual([2, expect.stringContaining('give another name to --svg')]);
  const nowhere = await ran('archive', 'trend', '--archive', archive, '--svg', join(svg, 'none.svg'));
  expect([nowhere.code, nowhere.err]).toEqual([1, expect.stringContaining('none.svg')]);

  const refused = await ran('archive', 'trend', '--archive', archive, '--of', 'Z');
  expect(refused.code).toBe(2);
});
