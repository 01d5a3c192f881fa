/** `gaugemark evaluate` with every correction and choice: each does what it says, says that it did, and is checked. */
import { describe, expect, it } from 'vitest';
import { folderOfFiles, ran } from './in-process.ts';

const file = folderOfFiles();
const lines = (header: string, rows: readonly (readonly number[])[]): string =>
  [header, ...rows.map((row) => row.map((n) => n.toFixed(6)).join(','))].join('\n');

/** 100 mm² and 50 mm: straight with 200 GPa to 400 MPa, a parabola to 600 MPa at 5 % strain, a break at 8 %. */
const ROWS = Array.from({ length: 801 }, (_, i) => {
  const strain = i / 10_000;
  const plastic = Math.max(0, strain - 0.002);
  const stress = strain <= 0.002 ? 200_000 * strain : 400 + 200 * (1 - ((plastic - 0.048) / 0.048) ** 2);
  return [i / 10, stress * 100, strain * 50] as const;
});
const HEADER = 'time_s,force_N,extension_mm';
const curve = file('pull.csv', lines(HEADER, ROWS));
const specimen = file(
  'specimen.json',
  JSON.stringify({
    id: 'T-1',
    geometry: { kind: 'flat', width: '20.00 mm', thickness: '5.00 mm' },
    gaugeLength: '50 mm',
    finalGaugeLength: '60 mm',
  }),
);

interface Evaluated {
  readonly options: object;
  readonly optionsApplied: readonly { key: string; correction: boolean; sentence: string }[];
  readonly optionFiles: readonly { what: string; name: string; sha256: string }[];
  readonly results: Readonly<
    Record<
      string,
      {
        value: number;
        method: string;
        working: { formula: string };
        uncertainty?: { expanded: number; budget: { source: string }[] };
      }
    >
  >;
}

async function evaluated(path: string, ...args: string[]): Promise<Evaluated> {
  const { code, out, err } = await ran('evaluate', path, '--specimen', specimen, ...args, '--json');
  expect(err).toBe('');
  expect(code).toBe(0);
  return JSON.parse(out) as Evaluated;
}
const value = async (symbol: string, path: string, ...args: string[]): Promise<number> =>
  (await evaluated(path, ...args)).results[symbol]?.value ?? Number.NaN;

describe('corrections', () => {
  it('of zero take force and extension back to what a zeroed readout would have shown', async () => {
    const shifted = file(
      'shifted.csv',
      lines(
        HEADER,
        ROWS.map(([t, f, e]) => [t, f + 40, e + 0.02]),
      ),
    );
    const zeros = ['--zero-load', '40 N', '--zero-extension', '0.02 mm'];
    expect(await value('Fm', shifted)).toBeCloseTo(60_040, 3);
    expect(await value('Fm', shifted, ...zeros)).toBeCloseTo(60_000, 3);
    const one = await evaluated(shifted, ...zeros);
    expect(one.results['Rp0.2']?.value).toBeCloseTo(await value('Rp0.2', curve), 6);
    expect(one.options).toEqual({ corrections: { forceZeroN: 40, extensionZeroMm: 0.02 } });
    expect(one.optionsApplied.map((o) => [o.key, o.correction])).toEqual([
      ['forceZero', true],
      ['extensionZero', true],
    ]);
    expect(one.optionsApplied[0]?.sentence).toContain('40 N is taken off');
  });

  it('of zero in pounds and inches, below zero too', async () => {
    // 1 lbf = 4.448 221 615 260 5 N (NIST SP 811, Appendix B).
    expect(await value('Fm', curve, '--zero-load', '-100 lbf')).toBeCloseTo(60_000 + 444.82216152605, 6);
  });

  it('by calibration tables of force and extension, each from its file, whose hash is kept', async () => {
    const wrong = file(
      'wrong.csv',
      lines(
        HEADER,
        ROWS.map(([t, f, e]) => [t, f / 1.02, e * 2]),
      ),
    );
    const force = file('force.csv', 'shown_kN,actual_kN\n0,0\n10,10.2\n60,61.2\n');
    const extension = file('extension.csv', 'indicated_mm;applied_mm\n0;0\n1;0,5\n');
    const one = await evaluated(wrong, '--calibration', force, '--calibration', extension);
    expect(one.results.Rm?.value).toBeCloseTo(600, 3);
    expect(one.results['Rp0.2']?.value).toBeCloseTo(await value('Rp0.2', curve), 2);
    expect(one.optionFiles.map((f) => [f.what, f.name, f.sha256.length])).toEqual([
      ['calibration table of the force', 'force.csv', 64],
      ['calibration table of the extension', 'extension.csv', 64],
    ]);
  });

  it('for frame and grips by a blank run leave the specimen’s own slope', async () => {
    // Springs in series: the travel of the crosshead is that of the specimen and F/k of the frame, here 40 kN/mm.
    const travel = file(
      'travel.csv',
      lines(
        'time_s,force_N,travel_mm',
        ROWS.map(([t, f, e]) => [t, f, e + f / 40_000]),
      ),
    );
    const blank = file(
      'blank.csv',
      lines(
        'time_s,force_N,travel_mm',
        Array.from({ length: 651 }, (_, i) => [i, i * 100, 0.3 + (i * 100) / 40_000]),
      ),
    );
    const fromTravel = ['--strain-from', 'travel'];
    // 1/(1/200 + 100/(50·40)) GPa in series, S0 = 100 mm², L0 = 50 mm.
    expect((await value('mE', travel, ...fromTravel)) / 1000).toBeCloseTo(1 / (1 / 200 + 100 / 2_000), 0);
    const one = await evaluated(travel, ...fromTravel, '--compliance', blank);
    expect((one.results.mE?.value ?? 0) / 200_000).toBeCloseTo(1, 3);
    expect(one.optionsApplied.map((o) => o.key)).toEqual(['frameCompliance', 'strainFromTravel']);
  });

  it('of the toe can be left out and asked for', async () => {
    const slack = file(
      'slack.csv',
      lines(
        HEADER,
        ROWS.map(([t, f, e]) => [t, f, e + 0.1]),
      ),
    );
    const own = await value('Agt', slack, '--no-toe');
    expect(own - (await value('Agt', slack, '--toe'))).toBeCloseTo(0.2, 2);
  });
});

describe('choices', () => {
  it('several offsets and extensions under load in one flag', async () => {
    const { results } = await evaluated(curve, '--offset', '0.1,1.0', '--extension-under-load', '0.5 %, 1');
    for (const symbol of ['Rp0.1', 'Rp1', 'Rt0.5', 'Rt1']) expect(results[symbol], symbol).toBeDefined();
    expect(results['Rp0.2']).toBeUndefined();
  });

  it('the slope from a window, in MPa or with its unit', async () => {
    const bounds = async (...args: string[]) =>
      ((await evaluated(curve, ...args)) as unknown as { slope: { lowerMpa: number; upperMpa: number } })
        .slope;
    expect(await bounds('--slope-from', '50..300')).toMatchObject({ lowerMpa: 50, upperMpa: 300 });
    // 10 ksi = 68.947 57 MPa (NIST SP 811, Appendix B).
    expect((await bounds('--slope-from', '10..40 ksi')).lowerMpa).toBeCloseTo(68.94757, 4);
  });

  it('the slope from an unloading loop', async () => {
    /** Back to a tenth of the force at 1 % strain along 200 GPa, and again to where it was. */
    const top = ROWS[100] ?? [0, 0, 0];
    const back = Array.from({ length: 101 }, (_, i) => 0.9 * (i <= 50 ? i / 50 : (100 - i) / 50));
    const looped = [
      ...ROWS.slice(0, 101),
      ...back.map((part) => [0, top[1] * (1 - part), top[2] - ((part * top[1]) / 100 / 200_000) * 50]),
      ...ROWS.slice(101),
    ].map(([, f = 0, e = 0], i) => [i / 10, f, e]);
    const one = await evaluated(file('loop.csv', lines(HEADER, looped)), '--slope-from', 'loop');
    expect((one.results.mE?.value ?? 0) / 200_000).toBeCloseTo(1, 4);
    expect(one.results.mE?.method).toMatch(/unloading loop/);
  });

  it('elongation on another gauge length by the rule for the kind of material', async () => {
    const one = await evaluated(curve, '--convert-elongation', '8 in', '--material-kind', 'austenitic');
    // ISO 2566-2, exponent 0.127 (from memory): 20 % on 50 mm of 100 mm².
    expect(one.results['A203.2mm (ISO 2566-2)']?.value).toBeCloseTo(20 * (50 / 203.2) ** 0.127, 9);
  });

  it('the area of a pipe strip by the arc or simplified', async () => {
    const strip = file(
      'strip.json',
      JSON.stringify({
        id: 'P',
        geometry: { kind: 'pipe-strip', width: '19.0 mm', wall: '8.0 mm', outerDiameter: '168.3 mm' },
      }),
    );
    const area = async (...args: string[]) =>
      (JSON.parse((await ran('evaluate', curve, '--specimen', strip, ...args, '--json')).out) as Evaluated)
        .results.S0;
    expect((await area('--section-form', 'arc'))?.working.formula).toMatch(/asin/);
    // ISO 6892-1, annex on tubes (from memory): T·W·(1 + W²/(6·D·(D − 2T))).
    expect((await area('--section-form', 'simplified'))?.value).toBeCloseTo(
      8 * 19 * (1 + 19 ** 2 / (6 * 168.3 * (168.3 - 16))),
      9,
    );
  });

  it('class and step of the readout in the uncertainty', async () => {
    const plain = await evaluated(curve);
    const fine = await evaluated(curve, '--readout-class', '0.5', '--readout-resolution', '10 N');
    const sources = fine.results.Rm?.uncertainty?.budget.map((line) => line.source).join('; ');
    expect(sources).toMatch(/class 0\.5 of ISO 7500-1;.*step of the force readout/);
    expect(fine.results.Rm?.uncertainty?.expanded).toBeLessThan(plain.results.Rm?.uncertainty?.expanded ?? 0);
  });

  it('all from a file in the form that --json shows, with flags above it', async () => {
    const args = ['--offset', '0.1', '--zero-load', '40 N', '--readout-class', '2'];
    const { options } = await evaluated(curve, ...args);
    const again = await evaluated(
      curve,
      ...[
        '--options',
        file('options.json', JSON.stringify(options)),
        '--readout-class',
        '0.5',
        '--offset',
        '1',
      ],
    );
    expect(again.options).toEqual({ ...options, measuring: { readoutClass: '0.5' }, offsetsPercent: [1] });
    expect(again.optionFiles[0]).toMatchObject({ what: 'options', name: 'options.json' });
  });
});

it('the terminal tells corrections and whether the calliper was fine enough', async () => {
  const coarse = file(
    'coarse.json',
    JSON.stringify({ id: 'C', geometry: { kind: 'flat', width: '20.0 mm', thickness: '5.00 mm' } }),
  );
  const { out } = await ran('evaluate', curve, '--specimen', coarse, '--zero-load', '40 N');
  expect(out).toMatch(/^Resolution of calliper or micrometer:\n {2}.*width of 20 mm; .*too coarse/m);
  expect(out).toMatch(/^Corrections and choices of this evaluation:\n {2}40 N is taken off every force/m);
  expect((await ran('evaluate', curve, '--specimen', coarse)).out).not.toContain('Corrections and choices');
});

describe('wrong options: exit code 2 and one sentence', () => {
  const table = (name: string, text: string) => ['--calibration', file(name, text)];
  it.each<readonly [string, readonly string[], RegExp]>([
    ['a zero without unit', ['--zero-load', '12'], /--zero-load: "12" has no unit/],
    ['a length for a force', ['--zero-load', '12 mm'], /a force is needed/],
    ['a window that falls', ['--slope-from', '300..50'], /must rise/],
    ['half a window', ['--slope-from', '300'], /needs both ends/],
    [
      'a conversion without material',
      ['--convert-elongation', '80 mm'],
      /--material-kind carbon or austenitic/,
    ],
    ['an unknown form', ['--section-form', 'round'], /use one of arc, simplified/],
    ['both of the toe', ['--toe', '--no-toe'], /the opposite of each other/],
    ['a table that falls', table('falls.csv', 'shown_kN,actual_kN\n2,2\n1,1\n'), /falls\.csv: .*at point 2/],
    ['a table of one point', table('one.csv', 'shown_kN,actual_kN\n2,2\n'), /needs 2 to 200/],
    [
      'two tables of force',
      [...table('x.csv', 'shown_N,actual_N\n0,0\n1,1\n'), ...table('y.csv', 'shown_N,actual_N\n0,0\n1,1\n')],
      /second calibration table of the force/,
    ],
    ['a blank run without travel', ['--compliance', curve, '--strain-from', 'travel'], /crosshead travel/],
    [
      'a blank run where strain is from an extensometer',
      ['--options', file('idle.json', JSON.stringify({ corrections: { travelZeroMm: 1 } }))],
      /would change nothing/,
    ],
    [
      'an options file with a misspelt field',
      ['--options', file('o.json', '{"offset":[0.1]}')],
      /o\.json: offset/,
    ],
    ['an options file that is not there', ['--options', '/nowhere/o.json'], /no such file/],
  ])('%s', async (_name, args, sentence) => {
    const { code, out, err } = await ran('evaluate', curve, ...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(sentence);
    expect(err.split('\n')).toHaveLength(1);
  });
});
