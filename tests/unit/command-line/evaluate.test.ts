import { closeSync, ftruncateSync, openSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { folderOfFiles, ran } from './in-process.ts';

const file = folderOfFiles();

/** A pull to 600 MPa at 5 % strain and a break at 8 %, 100 mm² and 50 mm: straight to 400 MPa with 200 GPa. */
const ROWS = Array.from({ length: 801 }, (_, i) => {
  const strain = i / 10_000;
  const plastic = Math.max(0, strain - 0.002);
  const stress = strain <= 0.002 ? 200_000 * strain : 400 + 200 * (1 - ((plastic - 0.048) / 0.048) ** 2);
  return [(i / 10).toFixed(1), (stress * 100).toFixed(2), (strain * 50).toFixed(5)];
});
const CURVE = ['time_s,force_N,extension_mm', ...ROWS.map((row) => row.join(','))].join('\n');
const SPECIMEN = {
  id: 'T-1',
  geometry: { kind: 'flat', width: '20.00 mm', thickness: '5.00 mm' },
  gaugeLength: '50 mm',
};

const curve = file('pull.csv', CURVE);
const specimen = file('specimen.json', JSON.stringify(SPECIMEN));

interface Evaluated {
  readonly program: { readonly version: string };
  readonly specimen: { readonly id: string } | null;
  readonly results: Readonly<
    Record<string, { value: number; unit: string; rounded: { text: string; rule: string }[] }>
  >;
  readonly withheld: readonly { symbol: string; reason: string }[];
}

async function evaluated(...args: string[]): Promise<Evaluated> {
  const { code, out, err } = await ran('evaluate', ...args, '--json');
  expect(err).toBe('');
  expect(code).toBe(0);
  return JSON.parse(out) as Evaluated;
}

describe('gaugemark evaluate', () => {
  it('prints one JSON document with the results under the standards’ symbols', async () => {
    const { results, specimen: about, program } = await evaluated(curve, '--specimen', specimen);
    expect(results.Fm).toMatchObject({ value: 60_000, unit: 'N' });
    expect(results.Rm).toMatchObject({ value: 600, unit: 'MPa' });
    expect(results.S0?.value).toBeCloseTo(100, 9);
    expect(results.mE?.value).toBeCloseTo(200_000, -2);
    expect(results.Rm?.rounded[0]?.rule).toContain('ISO 6892-1');
    expect(about?.id).toBe('T-1');
    expect(program.version).toMatch(/^\d+\.\d+\.\d+/);
  });

  it('tells a size that no such specimen has, and takes it as it is', async () => {
    const odd = file(
      'odd.json',
      JSON.stringify({ ...SPECIMEN, geometry: { kind: 'flat', width: '200.0 mm', thickness: '0.5 mm' } }),
    );
    const { code, out, err } = await ran('evaluate', curve, '--specimen', odd, '--json');
    expect([code, err]).toEqual([
      0,
      expect.stringMatching(/^T-1: width 200\.0 mm is not what such a specimen has/),
    ]);
    expect(JSON.parse(out)).toMatchObject({
      specimen: { id: 'T-1', remarks: [err] },
      results: { Rm: { value: 600 } },
    });
  });

  it('gives the same in pounds and inches, rounded in psi by ASTM E8/E8M for a specimen measured in inches', async () => {
    const us = file(
      'us.csv',
      [
        'time_s;force_lbf;extension_in',
        ...ROWS.map(([t = '', f, e]) =>
          [t, (Number(f) / 4.4482216152605).toFixed(6), (Number(e) / 25.4).toFixed(9)]
            .join(';')
            .replaceAll('.', ','),
        ),
      ].join('\r\n'),
    );
    const inches = file(
      'us.json',
      JSON.stringify({
        ...SPECIMEN,
        geometry: { kind: 'flat', width: '0.78740 in', thickness: '0.19685 in' },
        gaugeLength: '1.9685 in',
      }),
    );
    const { results } = await evaluated(us, '--specimen', inches);
    expect(results.Rm?.value).toBeCloseTo(600, 1);
    expect(results.Rm?.rounded[0]).toMatchObject({ text: '87000', rule: 'ASTM E8/E8M (1): to 500 psi' });
  });

  it('takes a curve of stress and strain without any specimen, and withholds what needs one', async () => {
    const stress = file(
      'stress.csv',
      [
        'strain_percent\tstress_MPa',
        ...ROWS.map(([, f, e]) => `${String(Number(e) * 2)}\t${String(Number(f) / 100)}`),
      ].join('\n'),
    );
    const { results, withheld, specimen: about } = await evaluated(stress);
    expect(results.Rm?.value).toBeCloseTo(600, 6);
    expect(results.Fm).toBeUndefined();
    expect(withheld.map((w) => w.symbol)).toEqual(expect.arrayContaining(['Fm', 'S0', 'Z']));
    for (const { reason } of withheld) expect(reason.length).toBeGreaterThan(20);
    expect(about).toBeNull();
  });

  it('withholds strain results of a force curve that comes without specimen', async () => {
    const { results, withheld } = await evaluated(curve);
    expect(results.Fm?.value).toBe(60_000);
    expect(withheld.map((w) => w.symbol)).toEqual(expect.arrayContaining(['Rm', 'Rp0.2', 'mE']));
  });

  it('obeys offset, rounding rule and a window set by hand', async () => {
    const { results } = await evaluated(
      ...[curve, '--specimen', specimen, '--offset', '0.1', '--offset', '1 %'],
      ...['--rounding', 'e8-3', '--slope-from', '50..300'],
    );
    expect(results['Rp0.1']).toBeDefined();
    expect(results.Rp1?.rounded[0]?.rule).toContain('E8/E8M (3)');
    expect(results['Rp0.2']).toBeUndefined();
  });

  it('shows formula, numbers put in and source on request, in plain text', async () => {
    const { code, out } = await ran('evaluate', curve, '--specimen', specimen, '--working');
    expect(code).toBe(0);
    expect(out).toContain('Rm = Fm / S0');
    expect(out).toContain('S0 = 20 mm × 5 mm = 100 mm²');
    expect(out).toMatch(/uncertainty: U = .* k = 2/);
    expect(out).not.toContain('NaN');
  });
});

describe('what else can be asked for', () => {
  const broken = file(
    'broken.json',
    JSON.stringify({
      ...SPECIMEN,
      finalGaugeLength: '60 mm',
      distanceToNearestMark: '4 mm',
      finalWidth: '16 mm',
      finalThickness: ['4 mm', '3 mm', '4 mm'],
    }),
  );

  it('A on another gauge length, only by a named rule', async () => {
    const plain = await evaluated(curve, '--specimen', broken);
    expect(Object.keys(plain.results).filter((symbol) => symbol.includes('2566'))).toEqual([]);
    const asked = await evaluated(
      ...[curve, '--specimen', broken, '--convert-elongation', '100 mm', '--material-kind', 'carbon'],
    );
    // ISO 2566-1, exponent 0.4 (from memory): 20 % on 50 mm becomes 20 · 0.5^0.4 on 100 mm.
    expect(asked.results['A100mm (ISO 2566-1)']?.value).toBeCloseTo(20 * 0.5 ** 0.4, 9);
  });

  it('a minimum that lets an elongation count wherever it broke', async () => {
    const text = async (...more: string[]) =>
      (await ran('evaluate', curve, '--specimen', broken, ...more)).out;
    expect(await text()).toMatch(/counts only if it still meets the minimum/);
    expect(await text('--required-elongation', '18')).toMatch(/meets the minimum of 18 %/);
  });

  it('Z by the parabola or plain', async () => {
    const z = async (...more: string[]) =>
      (await evaluated(curve, '--specimen', broken, ...more)).results.Z?.value;
    expect(await z()).toBeCloseTo(100 - (16 * (4 + 12 + 4)) / 6, 9);
    expect(await z('--final-section', 'plain')).toBeCloseTo(100 - (16 * 11) / 3, 9);
  });

  it('the table in pounds and inches', async () => {
    const { out } = await ran('evaluate', curve, '--specimen', specimen, '--units', 'us');
    // 60 000 N and 600 MPa by the factors of NIST SP 811.
    expect(out).toMatch(/^Fm +13488\.5 lbf/m);
    expect(out).toMatch(/^Rm +87022\.6 psi/m);
  });

  it('the speed of testing, each check in words', async () => {
    const { out } = await ran('evaluate', curve, '--specimen', specimen);
    expect(out).toMatch(/ASTM E8\/E8M, method A, stress rate: Outside: stress rate 200 MPa\/s/);
    expect(out).toMatch(/ISO 6892-1, method B, through yield: Within: strain rate 0\.001 1\/s/);
  });
});

describe('wrong input: exit code 2, one sentence that names the file, nothing else on stdout', () => {
  const huge = file('huge.csv', '');
  const handle = openSync(huge, 'r+');
  ftruncateSync(handle, 2 * 1024 ** 3);
  closeSync(handle);
  const withSpecimen = (name: string, content: string | Uint8Array) => [
    curve,
    '--specimen',
    file(name, content),
  ];
  const withGeometry = (name: string, geometry: object, more: object = {}) =>
    withSpecimen(name, JSON.stringify({ id: 'x', geometry, ...more }));
  const round = (diameter: string) => ({ kind: 'round', diameter });

  it.each<readonly [string, readonly string[], RegExp]>([
    ['no curve file', [], /curve file is missing/],
    ['a curve that is not there', ['/nowhere/pull.csv'], /no such file/],
    ['a folder for a curve', ['/'], /folder or device/],
    ['an empty curve', [file('empty.csv', '')], /empty/],
    ['a curve of 2 GB', [huge], /2048 MiB; at most/],
    ['a curve in UTF-16', [file('utf16.csv', Buffer.from('\ufeffforce_N\n1\n', 'utf16le'))], /UTF-16/],
    [
      'a picture for a curve',
      [file('x.png', new Uint8Array([137, 80, 78, 71, 13, 10, 26, 10, 0, 0]))],
      /not text/,
    ],
    ['prose for a curve', [file('prose.csv', 'Dear Sir,\nplease find\n')], /no header/],
    ['a curve without units', [file('unitless.csv', 'time,force\n0,1\n')], /has no unit/],
    ['a word among numbers', [file('word.csv', 'force_N\n1\nabc\n')], /Line 3/],
    ['an empty specimen', withSpecimen('a.json', ''), /empty/],
    ['a huge specimen', withSpecimen('b.json', ' '.repeat(1_048_577)), /MiB/],
    ['a specimen that is not JSON', withSpecimen('c.json', '{"id":\n"x",}'), /not JSON/],
    ['a specimen in UTF-16', withSpecimen('d.json', Buffer.from('\ufeff{}', 'utf16le')), /UTF-16/],
    ['a specimen that is a list', withSpecimen('e.json', '[]'), /specimen/i],
    ['a zero dimension', withGeometry('f.json', round('0 mm')), /geometry\.diameter.*not greater than zero/],
    ['a negative dimension', withGeometry('g.json', round('-5 mm')), /not greater than zero/],
    ['a dimension without unit', withGeometry('h.json', round('5')), /has no unit/],
    ['an unknown unit', withGeometry('i.json', round('5 ells')), /"ells"/],
    ['a force for a length', withGeometry('j.json', round('5 N')), /a length is needed/],
    ['a gauge length of zero', withGeometry('k.json', round('5 mm'), { gaugeLength: '0 in' }), /gaugeLength/],
    ['a kind that does not exist', withGeometry('l.json', { kind: 'cube', edge: '5 mm' }), /geometry\.kind/],
    ['an unknown option', [curve, '--frobnicate'], /--frobnicate/],
    ['an unknown rounding rule', [curve, '--rounding', 'nearest'], /use one of iso-6892-1/],
    ['half a window', [curve, '--slope-from', '10'], /needs both ends/],
    ['half a conversion', [curve, '--convert-elongation', '80 mm'], /--material-kind carbon or austenitic/],
    [
      'a conversion without unit',
      [curve, '--convert-elongation', '80', '--material-kind', 'carbon'],
      /has no unit/,
    ],
    ['an unknown class', [curve, '--readout-class', '4'], /use one of 0\.5, 1, 2, 3/],
    ['an offset of zero', [curve, '--offset', '0'], /must be a number above 0/],
    ['two curves', [curve, curve], /one argument too many/],
  ])('%s', async (_name, args, sentence) => {
    const plain = await ran('evaluate', ...args);
    expect(plain.code).toBe(2);
    expect(plain.out).toBe('');
    expect(plain.err).toMatch(sentence);
    expect(plain.err.split('\n')).toHaveLength(1);
    const json = await ran('evaluate', ...args, '--json');
    expect(json.code).toBe(2);
    expect((JSON.parse(json.out) as { error: { sentence: string } }).error.sentence).toBe(json.err);
  });
});

describe('awkward curves: the results that stand, a reason for the rest, never NaN', () => {
  const flat = (n: number, row: (i: number) => string) =>
    ['time_s,force_N,extension_mm', ...Array.from({ length: n }, (_, i) => row(i))].join('\n');
  it.each<readonly [string, string]>([
    ['three readings', flat(3, (i) => `${String(i)},${String(i * 1000)},${String(i / 100)}`)],
    ['all zeros', flat(200, (i) => `${String(i)},0,0`)],
    ['extension constant', flat(200, (i) => `${String(i)},${String(i * 100)},0.5`)],
    ['compression', flat(200, (i) => `${String(i)},${String(-i * 100)},${String(-i / 1000)}`)],
    ['never breaks', flat(200, (i) => `${String(i)},${String(i * 100)},${String(i / 1000)}`)],
    ['blank force throughout', flat(50, (i) => `${String(i)},,${String(i / 1000)}`)],
    ['same time twice', `${CURVE}\n80.0,0,4.0`],
    ['ends with rows of zeros', `${CURVE}\n80.1,0,0\n80.2,0,0`],
    ['one spike at the start', CURVE.replace('0.0,0.00,0.00000', '0.0,9999999,0.00000')],
    ['one spike at the end', `${CURVE}\n80.1,9999999,4.0`],
  ])('%s', async (name, content) => {
    const { code, out } = await ran(
      'evaluate',
      file(`${name}.csv`, content),
      '--specimen',
      specimen,
      '--json',
    );
    expect(code).toBe(0);
    expect(out).not.toMatch(/NaN|Infinity|null,"unit"/);
    const { results, withheld } = JSON.parse(out) as Evaluated;
    for (const [symbol, result] of Object.entries(results))
      expect(Number.isFinite(result.value), symbol).toBe(true);
    const missing = ['Fm', 'Rm', 'Rp0.2', 'mE', 'A'].filter((symbol) => !(symbol in results));
    expect(withheld.map((w) => w.symbol)).toEqual(expect.arrayContaining(missing));
  });

  it('a spike does not become the strength', async () => {
    for (const name of ['one spike at the start', 'one spike at the end']) {
      const path = file(
        `${name} again.csv`,
        name.endsWith('start')
          ? CURVE.replace('0.0,0.00,0.00000', '0.0,9999999,0.00000')
          : `${CURVE}\n80.1,9999999,4.0`,
      );
      const { results } = await evaluated(path, '--specimen', specimen);
      expect(results.Rm === undefined || Math.abs(results.Rm.value - 600) < 1).toBe(true);
    }
  });
});

describe('gaugemark evaluate --units', () => {
  // 30 kN on 12 mm × 5 mm is 500 MPa: 72 519 psi by the factors of NIST SP 811.
  const forces = [...Array.from({ length: 301 }, (_, index) => index / 10), 2, 0.1, 0.1];
  const curveFile = file(
    'units.csv',
    ['time_s,force_kN', ...forces.map((force, i) => `${String(i / 10)},${String(force)}`)].join('\n'),
  );
  const specimenFile = file(
    'units.json',
    JSON.stringify({ id: 'T-8', geometry: { kind: 'flat', width: '12.00 mm', thickness: '5.00 mm' } }),
  );

  it('reports a specimen typed in millimetres in psi by ASTM E8/E8M, the working too', async () => {
    const { out } = await ran(
      'evaluate',
      curveFile,
      '--specimen',
      specimenFile,
      '--units',
      'us',
      '--working',
    );
    // Above 50 000 psi to 500 psi (from memory).
    expect(out).toMatch(/^Rm +72518\.9 psi +→ 72500 psi/m);
    expect(out).toMatch(/Rm = 6744.27 lbf \/ 0\.093\d* in² = 7251\d(\.\d)? psi/);
    expect(out).not.toMatch(/^ {4}Rm = .*MPa/m);
  });

  it('shows it as it was typed without being asked', async () => {
    const { out } = await ran('evaluate', curveFile, '--specimen', specimenFile);
    expect(out).toMatch(/^Rm +500 MPa +→ 500 MPa/m);
  });

  it('refuses another word', async () => {
    const { code, err } = await ran('evaluate', curveFile, '--specimen', specimenFile, '--units', 'cgs');
    expect([code, err]).toEqual([2, expect.stringContaining('use one of si, us')]);
  });
});
