import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { gatherValues } from '../../../electron/command-line/gather-values.ts';
import { runCommandLine } from '../../../electron/command-line/main.ts';
import { OWN_PACK } from './judging.ts';

const folder = mkdtempSync(join(tmpdir(), 'gaugemark-rules-'));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

async function ran(...argv: string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const code = await runCommandLine(argv, { out: (text) => out.push(text), err: (text) => err.push(text) });
  return { code, out: out.join('\n'), err: err.join('\n'), lines: out.length };
}

describe('gaugemark judge', () => {
  it('answers one JSON document with outcome, sentence, clause and limit', async () => {
    const { code, out, lines } = await ran(
      'judge',
      '--rules',
      'asme-ix',
      '--base-metal',
      'SA-516-70',
      '--strength',
      '66500 psi',
      '--broke',
      'base-metal',
      '--json',
    );
    expect([code, lines]).toEqual([0, 1]);
    expect(JSON.parse(out)).toMatchObject({
      verdict: {
        outcome: 'accept',
        clause: 'QW-153.1(d)',
        limit: { value: 66_500, unit: 'psi' },
        pack: { id: 'asme-ix', kind: 'code' },
      },
    });
  });

  it('answers in words without --json', async () => {
    const { out } = await ran(
      'judge',
      '--rules',
      'shop-practice',
      '--strength',
      '80 ksi',
      '--broke',
      'weld-metal',
    );
    expect(out).toMatch(/^REJECT\n/);
    expect(out).toContain('common practice, no source');
    expect(out).toContain('your own copy of the code');
  });

  it('takes several values behind one option, and one option several times', async () => {
    for (const minima of [
      ['--minimum', '60 ksi', '70 ksi'],
      ['--minimum', '60 ksi', '--minimum', '70 ksi'],
    ]) {
      const { out } = await ran(
        'judge',
        '--rules',
        'asme-ix',
        ...minima,
        '--strength',
        '60 ksi',
        '--broke',
        'weld-metal',
        '--json',
      );
      expect(JSON.parse(out)).toMatchObject({ verdict: { outcome: 'accept', clause: 'QW-153.1(b)' } });
    }
  });

  it.each([
    ['no pack', [], /--rules is missing/],
    ['two packs', ['--rules', 'asme-ix', '--rules', 'aws-d1.1'], /judged by one rule pack/],
    ['an ambiguous pack', ['--rules', 'API 1104'], /api-1104-20 or api-1104-21/],
    ['an unknown pack', ['--rules', 'ASME X'], /no rule pack "ASME X"/],
    ['a file that is not there', ['--rules', 'missing.json'], /no such file/],
    [
      'a negative minimum',
      ['--rules', 'asme-ix', '--minimum', '-60 ksi'],
      /--minimum: "-60 ksi" is negative/,
    ],
    ['a strength without a unit', ['--rules', 'asme-ix', '--strength', '66500'], /--strength: .*no unit/],
    ['an unknown place', ['--rules', 'asme-ix', '--broke', 'flange'], /--broke: .*base-metal/],
    ['an unknown soundness', ['--rules', 'asme-ix', '--fracture', 'fair'], /sound, unsound/],
    ['an option that does not exist', ['--rules', 'asme-ix', '--lenient'], /--lenient/],
  ])('refuses %s with exit code 2 and one sentence', async (_what, args, sentence) => {
    const plain = await ran('judge', ...args);
    expect(plain.code).toBe(2);
    expect(plain.err).toMatch(sentence);
    expect(plain.out).toBe('');
    const json = await ran('judge', ...args, '--json');
    expect(JSON.parse(json.out)).toMatchObject({ error: { sentence: plain.err } });
  });

  it('judges by a pack file of the laboratory', async () => {
    const path = file('own.json', OWN_PACK);
    const { out } = await ran(
      'judge',
      '--rules',
      path,
      '--base-metal',
      'HB-9',
      '--strength',
      '500 MPa',
      '--broke',
      'base-metal',
      '--appearance',
      'shear',
      '--json',
    );
    expect(JSON.parse(out)).toMatchObject({ verdict: { outcome: 'accept', pack: { id: 'our-laboratory' } } });
  });

  it('refuses a wrong pack file instead of judging by it', async () => {
    const path = file('wrong.json', { ...OWN_PACK, kind: 'law' });
    const { code, err } = await ran(
      'judge',
      '--rules',
      path,
      '--strength',
      '500 MPa',
      '--broke',
      'base-metal',
    );
    expect(code).toBe(2);
    expect(err).toContain('kind: "law" is not known here; it must be "code" or "practice"');
  });
});

describe('gaugemark rules', () => {
  it('list --json answers id, name, edition and kind of every pack, and nothing else', async () => {
    const { out } = await ran('rules', 'list', '--json');
    const list = JSON.parse(out) as Record<string, string>[];
    expect(list.length).toBeGreaterThan(15);
    for (const pack of list) expect(Object.keys(pack)).toEqual(['id', 'name', 'edition', 'kind']);
    expect(new Set(list.map((pack) => pack.kind))).toEqual(new Set(['code', 'practice']));
  });

  it('show lists base metals and fillers with the ids to ask for them by', async () => {
    expect((await ran('rules', 'show', 'asme-ix')).out).toMatch(
      /A516-70 +tensile 70 ksi to 90 ksi \/ 485 MPa to 620 MPa/,
    );
    expect((await ran('rules', 'show', 'AWS A5.1')).out).toMatch(
      /E7018 +tensile 70 ksi \/ 490 MPa; yield 58 ksi \/ 400 MPa; elongation 22 %/,
    );
  });

  it('show --json is a pack file that check finds right', async () => {
    const path = file('shown.json', (await ran('rules', 'show', 'api-1104-21', '--json')).out);
    const { code, out } = await ran('rules', 'check', path, '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ ok: true, pack: { id: 'api-1104-21' } });
  });

  it('check tells every fault with its field, and ends with 2', async () => {
    const wrong = structuredClone(OWN_PACK) as unknown as {
      rules: { clause: string }[];
      baseMetals: { tensile: object }[];
    };
    const [rule, metal] = [wrong.rules[0], wrong.baseMetals[0]];
    if (rule === undefined || metal === undefined) throw new Error('the pack has rules and metals');
    metal.tensile = { si: { min: '-5 MPa' } };
    const path = file('faulty.json', wrong);
    const { code, err, out } = await ran('rules', 'check', path, '--json');
    expect(code).toBe(2);
    expect(err).toMatch(/faulty\.json: baseMetals\[0\]\.tensile\.si\.min: "-5 MPa" is negative/);
    expect(JSON.parse(out)).toMatchObject({
      ok: false,
      faults: [{ field: 'baseMetals[0].tensile.si.min' }],
      error: { code: 'rule-pack-wrong' },
    });
  });

  it.each([
    ['no act', [], /list, show ID or check FILE/],
    ['an unknown act', ['erase'], /"erase" is none of them/],
    ['check of no JSON', ['check', file('text.json', 'rules: none')], /not JSON/],
    ['check of nothing', ['check'], /missing/],
  ])('refuses %s', async (_what, args, sentence) => {
    const { code, err } = await ran('rules', ...args);
    expect(code).toBe(2);
    expect(err).toMatch(sentence);
  });

  it('reads the packs of a folder, one of which takes the place of the program’s', async () => {
    const own = mkdtempSync(join(folder, 'packs-'));
    writeFileSync(join(own, 'a.json'), JSON.stringify(OWN_PACK));
    writeFileSync(
      join(own, 'b.json'),
      JSON.stringify({ ...OWN_PACK, id: 'asme-ix', name: 'Our edition of ASME IX' }),
    );
    const list = JSON.parse((await ran('rules', 'list', '--rules-folder', own, '--json')).out) as {
      id: string;
      name: string;
    }[];
    expect(list.map((pack) => pack.id)).toContain('our-laboratory');
    expect(list.filter((pack) => pack.id === 'asme-ix').map((pack) => pack.name)).toEqual([
      'Our edition of ASME IX',
    ]);
  });
});

it('a value that begins with a minus sign stays a value', () => {
  expect(
    gatherValues(['--a', '-5', '--b', '1', '2', '--c', '3', '4'], {
      a: { type: 'string' },
      b: { type: 'string', multiple: true },
      c: { type: 'string' },
    }),
  ).toEqual(['--a=-5', '--b=1', '--b=2', '--c=3', '4']);
});

it('one value each leaves a file name behind an option alone', () => {
  expect(
    gatherValues(['--b', '1', 'pull.csv'], { b: { type: 'string', multiple: true } }, { oneEach: true }),
  ).toEqual(['--b=1', 'pull.csv']);
});

describe('gaugemark evaluate --rules', () => {
  const forces = [...Array.from({ length: 301 }, (_, index) => index / 10), 2, 0.1, 0.1];
  const curve = file(
    'pull.csv',
    ['time_s,force_kN', ...forces.map((force, index) => `${String(index / 10)},${String(force)}`)].join('\n'),
  );
  const specimen = file('specimen.json', {
    id: 'T-7',
    geometry: { kind: 'flat', width: '12.00 mm', thickness: '5.00 mm' },
  });
  const base = ['evaluate', '--specimen', specimen, '--rules', 'iso-15614-1', '--broke', 'haz'];

  it('adds the verdict on the strength that was evaluated', async () => {
    const { code, out } = await ran(...base, '--base-metal', 'S355', curve, '--json');
    expect(code).toBe(0);
    // 30 kN on 60 mm² is 500 MPa; S355 asks for 470 MPa.
    expect(JSON.parse(out)).toMatchObject({
      results: { Rm: { value: 500 } },
      verdict: { outcome: 'accept', limit: { value: 470, unit: 'MPa' }, margin: { value: 30 } },
    });
  });

  it('and in words', async () => {
    const { out } = await ran(...base, '--minimum', '510 MPa', curve);
    expect(out).toMatch(/REJECT\nRejected by ISO 15614-1:2017, 7\.4\.1: it broke in the heat-affected zone/);
  });

  it('asks for the pack where only the fracture is told', async () => {
    const { code, err } = await ran('evaluate', '--broke', 'haz', curve);
    expect(code).toBe(2);
    expect(err).toMatch(/add --rules/);
  });
});

describe('a strength that can be none', () => {
  const judge = (strength: string): ReturnType<typeof ran> =>
    ran(
      'judge',
      '--rules',
      'asme-ix',
      '--base-metal',
      'A516-70',
      '--broke',
      'base-metal',
      '--strength',
      strength,
    );

  it.each([
    ['68200', /has no unit; add one, for example "68200 psi"\.$/],
    ['68 200', /for example "68 200 psi"\.$/],
    ['68.2', /for example "68\.2 ksi" or "68\.2 MPa"\.$/],
    ['470', /for example "470 MPa"\.$/],
    ['68 200 MPa', /more than any metal bears; check number and unit/],
    ['0 psi', /is zero, and a specimen that was pulled bore something/],
    ['0 MPa', /is zero/],
    ['-5 psi', /below zero/],
  ])('%s is refused with a sentence', async (strength, words) => {
    const { code, out, err } = await judge(strength);
    expect([code, out, err]).toEqual([2, '', expect.stringMatching(words)]);
  });
});
