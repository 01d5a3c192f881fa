/** Worked examples that are whole curves: three gun steels of about 1900 and an aluminium to fracture (examples 7 to 10). */
import type { EvaluationOptions } from '../results/evaluation.ts';
import { convert } from '../quantity/units.ts';
import { type ExampleFacts, exampleCase } from './example-facts.ts';
import { curveFromTable, curveToPeak, resultOf, specimenFrom } from './program-under-check.ts';
import type { SelfCheckCase } from './self-check-case.ts';

interface ArsenalRecord {
  readonly number: string;
  readonly example: string;
  readonly image: string;
  /** Stress in psi and elongation in inch per inch, as printed. */
  readonly table: readonly (readonly [stressPsi: number, elongation: number])[];
  readonly slopePsi: number;
  readonly proofPsi: number;
  readonly underLoadPsi: number;
  readonly tensilePsi: number;
  /** Sum over the three inches. */
  readonly stretchIn: string;
  readonly elongationPercent: number;
  readonly neckIn: string;
  readonly reductionPercent: number;
}

const ARSENAL: readonly ArsenalRecord[] = [
  {
    number: '7283',
    example: 'worked example 7',
    image: '00000053',
    table: [
      [1_000, 0],
      [5_000, 0.000067],
      [10_000, 0.0003],
      [20_000, 0.000667],
      [30_000, 0.001033],
      [35_000, 0.001167],
      [40_000, 0.001367],
      [49_000, 0.0017],
      [50_000, 0.004333],
      [51_000, 0.004967],
      [52_000, 0.005933],
      [53_000, 0.006667],
      [54_000, 0.0076],
    ],
    slopePsi: 28.34e6,
    proofPsi: 49_763,
    underLoadPsi: 51_034,
    tensilePsi: 91_360,
    stretchIn: '3.63 in',
    elongationPercent: 21,
    neckIn: '0.430 in',
    reductionPercent: 41.87,
  },
  {
    number: '7363',
    example: 'worked example 8',
    image: '00000055',
    table: [
      [1_000, 0],
      [5_000, 0.0001],
      [10_000, 0.0003],
      [20_000, 0.000633],
      [30_000, 0.000967],
      [35_000, 0.0011],
      [40_000, 0.0013],
      [44_000, 0.001433],
      [45_000, 0.010667],
      [46_000, 0.011067],
      [47_000, 0.011667],
      [48_000, 0.012933],
      [49_000, 0.013733],
    ],
    slopePsi: 30.38e6,
    proofPsi: 44_216,
    underLoadPsi: 44_386,
    tensilePsi: 81_200,
    stretchIn: '3.74 in',
    elongationPercent: 24.67,
    neckIn: '0.410 in',
    reductionPercent: 47.15,
  },
  {
    number: '7402',
    example: 'worked example 9',
    image: '00000064',
    table: [
      [1_000, 0],
      [5_000, 0.0001],
      [10_000, 0.000333],
      [20_000, 0.000667],
      [30_000, 0.001],
      [35_000, 0.001167],
      [40_000, 0.001333],
      [50_000, 0.001667],
      [55_000, 0.001867],
      [56_000, 0.005333],
      [57_000, 0.006433],
      [58_000, 0.007833],
      [59_000, 0.008667],
      [60_000, 0.01],
    ],
    slopePsi: 30e6,
    proofPsi: 55_573,
    underLoadPsi: 55_904,
    tensilePsi: 92_400,
    stretchIn: '3.59 in',
    elongationPercent: 19.67,
    neckIn: '0.400 in',
    reductionPercent: 49.7,
  },
];

/** Readings from 10 000 to 40 000 psi inclusive carry the line of the reference; half a psi keeps both ends in. */
const WINDOW: EvaluationOptions = {
  slopeWindow: {
    lowerMpa: convert(9_999.5, 'psi', 'MPa'),
    upperMpa: convert(40_000.5, 'psi', 'MPa'),
  },
};
const SLOPE_SHARE = 0.02;
const PROOF_SHARE = 0.006;

function arsenalCases(record: ArsenalRecord): SelfCheckCase[] {
  const facts: ExampleFacts = {
    group: record.example,
    source: `Tests of Metals at Watertown Arsenal, about 1900 (H. Doc. 508), record ${record.number}, hathi.library.illinois.edu volume 99572512612205899v1900, image ${record.image}`,
    status: 'derived',
  };
  const curve = curveFromTable(
    record.table.map(([stress, elongation]) => [elongation, stress] as const),
    'psi',
  );
  const specimen = specimenFrom({
    geometry: { kind: 'round', diameter: '0.564 in' },
    gaugeLength: '3 in',
    finalGaugeLength: record.stretchIn,
    finalDiameter: record.neckIn,
  });
  const peak = curveToPeak(record.tensilePsi * 0.25, 'lbf');
  return [
    exampleCase(facts, {
      what: `slope of the elastic part, record ${record.number}`,
      unit: 'psi',
      expected: record.slopePsi,
      tolerance: SLOPE_SHARE * record.slopePsi,
      toleranceReason: 'sensible fits differ by up to 2 %',
      run: () => resultOf('mE', 'psi', curve, null, WINDOW),
    }),
    exampleCase(facts, {
      what: `0.2 % offset yield, record ${record.number}`,
      unit: 'psi',
      expected: record.proofPsi,
      tolerance: PROOF_SHARE * record.proofPsi,
      toleranceReason: 'sensible fits differ by up to 0.6 %',
      run: () => resultOf('Rp0.2', 'psi', curve, null, WINDOW),
    }),
    exampleCase(facts, {
      what: `0.5 % extension under load, record ${record.number}, from the table's own zero`,
      unit: 'psi',
      expected: record.underLoadPsi,
      tolerance: PROOF_SHARE * record.underLoadPsi,
      toleranceReason: 'sensible fits differ by up to 0.6 %',
      run: () => resultOf('Rt0.5', 'psi', curve, null, { ...WINDOW, corrections: { toe: false } }),
    }),
    exampleCase(facts, {
      what: `tensile strength, record ${record.number} (stem of 0.25 in²)`,
      unit: 'psi',
      expected: record.tensilePsi,
      status: 'printed',
      tolerance: 0.001 * record.tensilePsi,
      toleranceReason: 'the record takes the area of the 0.564 in stem as 0.25 in²',
      run: () => resultOf('Rm', 'psi', peak, specimen),
    }),
    exampleCase(facts, {
      what: `elongation over three inches, record ${record.number}`,
      unit: '%',
      expected: record.elongationPercent,
      status: 'printed',
      tolerance: 0.005,
      run: () => resultOf('A', '%', peak, specimen),
    }),
    exampleCase(facts, {
      what: `reduction of area, record ${record.number}`,
      unit: '%',
      expected: record.reductionPercent,
      tolerance: 0.01,
      toleranceReason: 'half of the last digit given, and its own rounding',
      run: () => resultOf('Z', '%', peak, specimen),
    }),
  ];
}

/** Force in N and length in mm, 50.800 mm gauge length, 12.8 mm bar; the last row is the fracture. */
const ALUMINIUM: readonly (readonly [forceN: number, lengthMm: number])[] = [
  [0, 50.8],
  [7_330, 50.851],
  [15_100, 50.902],
  [23_100, 50.952],
  [30_400, 51.003],
  [34_400, 51.054],
  [38_400, 51.308],
  [41_300, 51.816],
  [44_800, 52.832],
  [46_200, 53.848],
  [47_300, 54.864],
  [47_500, 55.88],
  [46_100, 56.896],
  [44_800, 57.658],
  [42_600, 58.42],
  [36_400, 59.182],
];

const textbook: ExampleFacts = {
  group: 'worked example 10',
  source: 'Materials Science and Engineering (university textbook), end-of-chapter problem on aluminium',
  status: 'derived',
};
const aluminium = {
  length: ALUMINIUM.length,
  forceN: Float64Array.from(ALUMINIUM, ([force]) => force),
  extensionMm: Float64Array.from(ALUMINIUM, ([, length]) => length - 50.8),
};
const bar = specimenFrom({ geometry: { kind: 'round', diameter: '12.8 mm' }, gaugeLength: '50.800 mm' });
/** The first four points, up to 23 100 N. */
const firstFour: EvaluationOptions = {
  slopeWindow: { lowerMpa: 0, upperMpa: 23_200 / 128.68 },
  fractureIndex: ALUMINIUM.length - 1,
};
const fromAluminium = (symbol: string, unit: 'MPa' | 'GPa' | '%'): number =>
  resultOf(symbol, unit, aluminium, bar, firstFour);

const SPARSE = { toleranceReason: 'points are sparse near yield: 5 %' };

const aluminiumCases: readonly SelfCheckCase[] = [
  exampleCase(textbook, {
    what: 'tensile strength',
    unit: 'MPa',
    expected: 369.1,
    run: () => fromAluminium('Rm', 'MPa'),
  }),
  exampleCase(textbook, {
    what: 'slope through the first four points',
    unit: 'GPa',
    expected: 60,
    tolerance: 1.2,
    toleranceReason: 'sensible fits differ by up to 2 %',
    run: () => fromAluminium('mE', 'GPa'),
  }),
  exampleCase(textbook, {
    what: 'Rp0.2, straight segments',
    unit: 'MPa',
    expected: 277.6,
    tolerance: 14,
    ...SPARSE,
    run: () => fromAluminium('Rp0.2', 'MPa'),
  }),
  exampleCase(textbook, {
    what: 'Rt0.5, straight segments',
    unit: 'MPa',
    expected: 267.3,
    tolerance: 13,
    ...SPARSE,
    run: () => fromAluminium('Rt0.5', 'MPa'),
  }),
  exampleCase(textbook, {
    what: 'total strain at fracture',
    unit: '%',
    expected: 16.5,
    run: () => fromAluminium('At', '%'),
  }),
  exampleCase(textbook, {
    what: 'plastic part of it',
    unit: '%',
    expected: 16,
    tolerance: 0.05,
    run: () => fromAluminium('A', '%'),
  }),
  exampleCase(textbook, {
    what: 'Agt',
    unit: '%',
    expected: 10,
    tolerance: 0.05,
    run: () => fromAluminium('Agt', '%'),
  }),
  exampleCase(textbook, {
    what: 'Ag',
    unit: '%',
    expected: 9.38,
    tolerance: 0.05,
    toleranceReason: 'foot of the line',
    run: () => fromAluminium('Ag', '%'),
  }),
];

export const examplesOfCurves: readonly SelfCheckCase[] = [
  ...ARSENAL.flatMap(arsenalCases),
  ...aluminiumCases,
];
