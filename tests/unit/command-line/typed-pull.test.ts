/** A pull on a frame without a port: typed from its display, kept as typed, evaluated, listed, exported. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { typedDoubt } from '../../../core/pull/typed-plausibility.ts';
import { typedNumbers, typedValues } from '../../../core/pull/typed-values.ts';
import { evaluateTyped } from '../../../core/results/evaluate-typed.ts';
import { readSpecimen } from '../../../core/specimen/read-specimen.ts';
import { ran } from './in-process.ts';

/** 0.5 in × 0.25 in = 1/8 in². */
const FLAT = { id: 'Q-1', geometry: { kind: 'flat', width: '0.500 in', thickness: '0.250 in' } };
const specimen = (further: object = {}) => {
  const read = readSpecimen({ ...FLAT, ...further });
  if (!read.ok) throw new Error('the specimen of this test can’t be read');
  return read.specimen;
};

describe('typed values', () => {
  it('give the strength by hand: 8 kip over 1/8 in² is 64 ksi', () => {
    const { results } = evaluateTyped({ load: '8 kip' }, specimen());
    const strength = results.find((one) => one.symbol === 'Rm');
    // 1 ksi is 6.894 757 293 168 MPa (NIST SP 811, appendix B).
    expect(strength?.value).toBeCloseTo(64 * 6.894_757_293_168, 9);
    expect(strength?.working.substituted).toContain('N /');
    expect(results.find((one) => one.symbol === 'Fm')?.working.substituted).toContain('8 kip');
  });

  it('say of themselves that they were typed, and have no curve to give what needs one', () => {
    const { results, withheld, remarks, marks } = evaluateTyped({ load: '8 kip' }, specimen());
    expect(results.find((one) => one.symbol === 'Fm')?.method).toContain('typed');
    expect(withheld.map((one) => one.symbol)).toEqual(expect.arrayContaining(['Rp0.2', 'mE', 'Ag']));
    expect(remarks.join()).toContain('no curve');
    expect(marks).toEqual({});
  });

  it('take the elongation from the refitted halves where they were measured, and say so', () => {
    const measured = specimen({ gaugeLength: '2 in', finalGaugeLength: '2.5 in' });
    const { results, remarks } = evaluateTyped({ load: '8 kip', elongation: '24 %' }, measured);
    const elongations = results.filter((one) => one.symbol === 'A');
    expect(elongations).toHaveLength(1);
    expect(elongations[0]?.value).toBeCloseTo(25, 12);
    expect(remarks.join()).toContain('24 %');
    const typed = evaluateTyped({ load: '8 kip', elongation: '24' }, specimen({ gaugeLength: '2 in' }));
    expect(typed.results.find((one) => one.symbol === 'A')?.value).toBeCloseTo(24, 12);
  });

  it('are read in any unit of force and refused without one', () => {
    expect(typedNumbers({ load: '1 kip' }).loadN).toBeCloseTo(4448.221_615_260_5, 9);
    expect(typedValues.safeParse({ load: '66.5' }).error?.issues[0]?.message).toContain('no unit');
    expect(typedValues.safeParse({ load: '' }).success).toBe(false);
    expect(typedValues.safeParse({ load: '-3 kN' }).success).toBe(false);
    expect(typedValues.safeParse({ load: '12 mm' }).success).toBe(false);
  });
});

describe('plausibility', () => {
  it('refuses what no metal bears, and a yield load above the peak', () => {
    expect(typedDoubt({ load: '8 MN' }, specimen())).toMatchObject({ kind: 'refused', field: 'load' });
    expect(typedDoubt({ load: '8 kip', yieldLoad: '9 kip' }, specimen())).toMatchObject({
      kind: 'refused',
      field: 'yieldLoad',
    });
  });

  it('asks about what is improbable, and lets the usual pass', () => {
    expect(typedDoubt({ load: '45 kip' }, specimen())).toMatchObject({ kind: 'asked', field: 'load' });
    expect(typedDoubt({ load: '8 lbf' }, specimen())).toMatchObject({ kind: 'asked', field: 'load' });
    expect(typedDoubt({ load: '8 kip', elongation: '240 %' }, specimen())).toMatchObject({
      kind: 'asked',
      field: 'elongation',
    });
    expect(typedDoubt({ load: '8 kip', elongation: '24 %', yieldLoad: '6 kip' }, specimen())).toBeNull();
  });
});

describe('gaugemark pull --typed', () => {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const file = join(folder, 'Q-1.json');
  const archive = join(folder, 'typed.gaugemark');
  writeFileSync(file, JSON.stringify({ ...FLAT, gaugeLength: '2 in' }));
  const pull = (...args: string[]) =>
    ran('pull', '--typed', '--specimen', file, '--archive', archive, ...args);

  it('keeps the pull, marked as typed in every list and file, and the archive stays sound', async () => {
    const kept = await pull('--load', '8 kip', '--elongation', '24 %', '--json');
    expect(kept.code).toBe(0);
    const document = JSON.parse(kept.out) as {
      pull: { typed: unknown; readingCount: number; source: unknown };
    };
    expect(document.pull).toMatchObject({
      typed: { load: '8 kip', elongation: '24 %' },
      readingCount: 0,
      source: { kind: 'typed' },
      state: 'ended',
    });
    expect((await ran('archive', 'list', '--archive', archive)).out).toMatch(/8000 lbf +64000 psi +TYPED/);
    expect((await ran('archive', 'show', '1', '--archive', archive)).out).toMatch(/^TYPED from the display/);
    const csv = join(folder, 'typed.csv');
    expect((await ran('archive', 'export', '1', '--archive', archive, '--out', csv)).code).toBe(0);
    expect(readFileSync(csv, 'utf8')).toContain('# typed peak load: 8 kip');
    expect((await ran('archive', 'check', '--archive', archive)).code).toBe(0);
  });

  it('keeps nothing of a doubtful value until somebody says that it is right', async () => {
    const asked = await pull('--load', '45 kip');
    expect(asked).toMatchObject({ code: 2 });
    expect(asked.err).toContain('--sure');
    expect((await pull('--load', '8 MN', '--sure')).code).toBe(2);
    expect((await pull('--load', '45 kip', '--sure')).code).toBe(0);
    const list = JSON.parse((await ran('archive', 'list', '--archive', archive, '--json')).out) as {
      pulls: unknown[];
    };
    expect(list.pulls).toHaveLength(2);
  });

  it('says that a specimen has a pull already, and keeps the next one all the same', async () => {
    const next = await pull('--load', '8.1 kip', '--json');
    expect(next.code).toBe(0);
    expect(next.err).toContain('Q-1 has a pull already: number 2.');
    expect(JSON.parse(next.out)).toMatchObject({
      pull: { pullId: 3 },
      notes: ['Q-1 has a pull already: number 2'],
    });
    // "Q-1" stands in "Q-10" too.
    const other = join(folder, 'other.json');
    writeFileSync(other, JSON.stringify({ ...FLAT, id: 'Q-10', gaugeLength: '2 in' }));
    const another = await ran(
      'pull',
      '--typed',
      '--specimen',
      other,
      '--archive',
      archive,
      '--load',
      '8 kip',
      '--json',
    );
    expect(another.err).not.toContain('already');
    expect(JSON.parse(another.out)).toMatchObject({ pull: { pullId: 4 } });
    expect(JSON.parse(another.out)).not.toHaveProperty('notes');
    expect((await pull('--load', '8 kip')).err).toContain('Q-1 has a pull already: number 3.');
  });

  it('says which options belong together', async () => {
    expect((await ran('pull', '--load', '8 kip')).err).toContain('--typed');
    expect((await pull('--load', '8 kip', '--port', '/dev/ttyX')).err).toContain('--port');
    expect((await pull()).err).toContain('--load');
  });
});
