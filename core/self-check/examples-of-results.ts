/** Worked examples of strength, elongation, reduction of area, statistics and uncertainty (examples 3 to 6, 17 to 19). */
import { proportionalGaugeLengthMm } from '../results/proportional-gauge-length.ts';
import { roundByRule } from '../results/rounding.ts';
import { summarise } from '../statistics/summary.ts';
import { type UncertaintyInput, combinedUncertainty, rectangular } from '../results/uncertainty.ts';
import { type ExampleFacts, exampleCase } from './example-facts.ts';
import { areaIn, curveFromTable, curveToPeak, resultOf, specimenFrom } from './program-under-check.ts';
import type { SelfCheckCase } from './self-check-case.ts';

const COURSE: ExampleFacts = {
  group: 'worked example 3',
  source: 'training notes WIS10',
  status: 'derived',
};
const courseSpecimen = {
  geometry: { kind: 'flat', width: '25 mm', thickness: '12 mm' },
  gaugeLength: '50 mm',
  finalGaugeLength: '64 mm',
};
const courseRm = (): number => resultOf('Rm', 'MPa', curveToPeak(220_000, 'N'), specimenFrom(courseSpecimen));

const trainingNote: readonly SelfCheckCase[] = [
  exampleCase(COURSE, { what: 'Rm, 220 000 N on 25 × 12 mm', unit: 'MPa', expected: 733.3, run: courseRm }),
  exampleCase(COURSE, {
    what: 'the same, reported to 1 MPa',
    unit: 'text',
    expected: '733',
    run: () => roundByRule({ value: courseRm(), unit: 'MPa' }, 'strength', 'iso-6892-1', 'SI')?.text ?? '',
  }),
  exampleCase(COURSE, {
    what: 'A, 50 mm to 64 mm',
    unit: '%',
    expected: 28,
    status: 'printed',
    tolerance: 1e-9,
    toleranceReason: 'exact',
    run: () => resultOf('A', '%', curveToPeak(220_000, 'N'), specimenFrom(courseSpecimen)),
  }),
];

const TEXTBOOK = 'Materials Science and Engineering (university textbook)';
const BRASS: ExampleFacts = {
  group: 'worked example 4',
  source: `${TEXTBOOK}, example 6.3, copy at digilib.universitaspertamina.ac.id`,
  status: 'printed',
};
/** The straight part to 150 MPa at 0.0016, then a smooth bend to a maximum of 450 MPa. */
const brass = curveFromTable(
  Array.from({ length: 400 }, (_, i) => {
    const strain = i * 0.0002;
    return strain <= 0.0016
      ? ([strain, (150 / 0.0016) * strain] as const)
      : ([strain, 150 + 300 * (1 - Math.exp(-(strain - 0.0016) * (93_750 / 300)))] as const);
  }),
  'MPa',
);

const textbookBrass: readonly SelfCheckCase[] = [
  exampleCase(BRASS, {
    what: 'slope through (0, 0) and (150 MPa, 0.0016)',
    unit: 'GPa',
    expected: 93.8,
    run: () => resultOf('mE', 'GPa', brass, null, { slopeWindow: { lowerMpa: 0, upperMpa: 150 } }),
  }),
  exampleCase(BRASS, {
    what: 'area of a 12.8 mm bar',
    unit: 'mm²',
    expected: 128.68,
    status: 'derived',
    tolerance: 5e-4,
    run: () => areaIn('mm²', { kind: 'round', diameter: '12.8 mm' }),
  }),
  exampleCase(BRASS, {
    what: 'Rm of the force printed for 450 MPa (57 900 N)',
    unit: 'MPa',
    expected: 450,
    tolerance: 0.5,
    run: () =>
      resultOf(
        'Rm',
        'MPa',
        curveToPeak(57_900, 'N'),
        specimenFrom({ geometry: { kind: 'round', diameter: '12.8 mm' } }),
      ),
  }),
  exampleCase(BRASS, {
    what: 'elongation of a 250 mm length stretched by 15 mm',
    unit: '%',
    expected: 6,
    tolerance: 1e-9,
    toleranceReason: 'exact',
    run: () =>
      resultOf(
        'A',
        '%',
        curveToPeak(57_900, 'N'),
        specimenFrom({
          geometry: { kind: 'round', diameter: '12.8 mm' },
          gaugeLength: '250 mm',
          finalGaugeLength: '265 mm',
        }),
      ),
  }),
];

const FULL: ExampleFacts = {
  group: 'worked example 5',
  source: 'a problem as set to students; answers by one operation each',
  status: 'derived',
};
const SLOPE_MPA = 480 / (0.0046 - 0.002);
/** Straight to 400 MPa, through the stated offset point (0.0046, 480 MPa), to the stated maximum of 870 MPa. */
const fullCurve = curveFromTable(
  [
    ...Array.from({ length: 41 }, (_, i) => [(i * 10) / SLOPE_MPA, i * 10] as const),
    ...line([400 / SLOPE_MPA, 400], [0.0046, 480], 40),
    ...line([0.0046, 480], [0.2, 870], 200),
    ...line([0.2, 870], [0.346, 700], 60),
  ],
  'MPa',
);
const fullSpecimen = {
  geometry: { kind: 'flat', width: '10 mm', thickness: '10 mm' },
  gaugeLength: '50 mm',
  finalGaugeLength: '67.3 mm',
  finalWidth: '10 mm',
  finalThickness: '5.3 mm',
};

function line(from: readonly [number, number], to: readonly [number, number], steps: number) {
  return Array.from({ length: steps }, (_, i) => {
    const part = (i + 1) / steps;
    return [from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])] as const;
  });
}

const fullSet: readonly SelfCheckCase[] = [
  exampleCase(FULL, {
    what: 'Rp0.2, the line with 0.2 % offset meets the curve at 480 MPa',
    unit: 'MPa',
    expected: 480,
    run: () => resultOf('Rp0.2', 'MPa', fullCurve, null),
  }),
  exampleCase(FULL, {
    what: 'slope, 480 / (0.0046 − 0.002)',
    unit: 'GPa',
    expected: 184.6,
    run: () => resultOf('mE', 'GPa', fullCurve, null),
  }),
  exampleCase(FULL, {
    what: 'Rm, 87 000 N on 100 mm²',
    unit: 'MPa',
    expected: 870,
    tolerance: 1e-9,
    toleranceReason: 'exact',
    run: () => resultOf('Rm', 'MPa', curveToPeak(87_000, 'N'), specimenFrom(fullSpecimen)),
  }),
  exampleCase(FULL, {
    what: 'A, 50 mm to 67.3 mm',
    unit: '%',
    expected: 34.6,
    run: () => resultOf('A', '%', curveToPeak(87_000, 'N'), specimenFrom(fullSpecimen)),
  }),
  exampleCase(FULL, {
    what: 'Z, 100 mm² to 53 mm²',
    unit: '%',
    expected: 47,
    tolerance: 1e-9,
    toleranceReason: 'exact',
    run: () => resultOf('Z', '%', curveToPeak(87_000, 'N'), specimenFrom(fullSpecimen)),
  }),
];

const after = (symbol: 'A' | 'Z', file: object): number =>
  resultOf(symbol, '%', curveToPeak(50_000, 'N'), specimenFrom(file));

const NECK: ExampleFacts = {
  group: 'worked example 6',
  source: `${TEXTBOOK}, problem 6.35, copies at vaia and indextestingapp 15409539`,
  status: 'printed',
};
const neck = {
  geometry: { kind: 'round', diameter: '12.8 mm' },
  gaugeLength: '50.80 mm',
  finalGaugeLength: '72.14 mm',
  finalDiameter: '6.60 mm',
};
const MISFIT: ExampleFacts = {
  group: 'worked example 17',
  source: 'a problem as set to students; its printed 37.9 % does not follow from its own diameters',
  status: 'derived',
};
const misfit = {
  geometry: { kind: 'round', diameter: '0.500 in' },
  gaugeLength: '2.000 in',
  finalGaugeLength: '2.195 in',
  finalDiameter: '0.398 in',
};

const ductility: readonly SelfCheckCase[] = [
  exampleCase(NECK, {
    what: 'Z, 12.8 mm to 6.60 mm',
    unit: '%',
    expected: 73.4,
    run: () => after('Z', neck),
  }),
  exampleCase(NECK, {
    what: 'A, 50.80 mm to 72.14 mm',
    unit: '%',
    expected: 42,
    run: () => after('A', neck),
  }),
  exampleCase(MISFIT, {
    what: 'A, 2.000 in to 2.195 in',
    unit: '%',
    expected: 9.75,
    status: 'printed',
    run: () => after('A', misfit),
  }),
  exampleCase(MISFIT, {
    what: 'Z, 0.500 in to 0.398 in',
    unit: '%',
    expected: 36.64,
    run: () => after('Z', misfit),
  }),
];

const relative = (source: string, standard: number): UncertaintyInput => ({
  source,
  standard,
  unit: '%',
  sensitivity: 1,
  distribution: 'rectangular',
});
const ANNEX: ExampleFacts = {
  group: 'worked example 18',
  source: 'ISO 6892-1:2009 Annex J (from memory; arithmetic verified)',
  status: 'derived',
};
const annex = () => combinedUncertainty([relative('force', 1.4 / 2), relative('area', rectangular(1))]);
const roundBar = () =>
  combinedUncertainty([
    relative('force', rectangular(1)),
    relative('area', (2 * 100 * rectangular(0.01)) / 12.5),
  ]);

const uncertainty: readonly SelfCheckCase[] = [
  exampleCase(ANNEX, {
    what: 'u(Rm), force 1.4 % (k = 2), area 1 %',
    unit: '%',
    expected: 0.907,
    run: () => annex().standard,
  }),
  exampleCase(ANNEX, { what: 'U(Rm), k = 2', unit: '%', expected: 1.815, run: () => annex().expanded }),
  exampleCase(
    { ...ANNEX, source: 'round bar 12.5 mm ± 0.01 mm, force ± 1 %, by hand' },
    { what: 'u(Rm)', unit: '%', expected: 0.585, run: () => roundBar().standard },
  ),
  exampleCase(
    { ...ANNEX, source: 'round bar 12.5 mm ± 0.01 mm, force ± 1 %, by hand' },
    { what: 'U(Rm), k = 2', unit: '%', expected: 1.17, run: () => roundBar().expanded },
  ),
  ...(
    [
      ['d = 10 mm', { kind: 'round', diameter: '10 mm' }, 50.07],
      ['d = 12.5 mm', { kind: 'round', diameter: '12.5 mm' }, 62.59],
      ['25 × 10 mm', { kind: 'flat', width: '25 mm', thickness: '10 mm' }, 89.33],
    ] as const
  ).map(([what, geometry, expected]) =>
    exampleCase(
      { ...ANNEX, source: 'L0 = 5.65·√S0, international value of k' },
      {
        what: `proportional gauge length, ${what}`,
        unit: 'mm',
        expected,
        run: () => proportionalGaugeLengthMm(areaIn('mm²', geometry)),
      },
    ),
  ),
];

const SHEET: ExampleFacts = {
  group: 'worked example 19',
  source: 'a laboratory’s uncertainty worksheet',
  status: 'printed',
};
/** Force kN, width, thickness in mm, printed strength MPa. The sheet carries unrounded sizes, so 0.1 % is allowed. */
const PULLS = [
  [81.0, '18.96', '12.51', 341.5],
  [82.0, '19.03', '12.49', 344.99],
  [82.0, '19.36', '12.50', 338.87],
  [82.0, '19.13', '12.51', 342.64],
  [81.0, '19.35', '12.48', 335.42],
] as const;
const pulled = ([force, width, thickness]: (typeof PULLS)[number]): number =>
  resultOf(
    'Rm',
    'MPa',
    curveToPeak(force, 'kN'),
    specimenFrom({ geometry: { kind: 'flat', width: `${width} mm`, thickness: `${thickness} mm` } }),
  );
const loose = { toleranceReason: 'the sheet holds unrounded sizes: 0.1 %' };

const fivePulls: readonly SelfCheckCase[] = [
  ...PULLS.map((pull) =>
    exampleCase(SHEET, {
      what: `Rm, ${String(pull[0])} kN on ${pull[1]} × ${pull[2]} mm`,
      unit: 'MPa',
      expected: pull[3],
      tolerance: pull[3] / 1000,
      ...loose,
      run: () => pulled(pull),
    }),
  ),
  exampleCase(SHEET, {
    what: 'mean of the five',
    unit: 'MPa',
    expected: 340.685,
    tolerance: 0.34,
    ...loose,
    run: () => summarise(PULLS.map(pulled)).mean,
  }),
  exampleCase(SHEET, {
    what: 'standard deviation of the five (n − 1)',
    unit: 'MPa',
    expected: 3.677,
    tolerance: 0.02,
    toleranceReason: 'the third pull differs by 0.03 MPa from its own sizes',
    run: () => summarise(PULLS.map(pulled)).standardDeviation ?? Number.NaN,
  }),
];

export const examplesOfResults: readonly SelfCheckCase[] = [
  ...trainingNote,
  ...textbookBrass,
  ...fullSet,
  ...ductility,
  ...uncertainty,
  ...fivePulls,
];
