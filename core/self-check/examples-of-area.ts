/** Worked examples of areas: round, flat, strip from pipe, tube, weighed (examples 1, 2, 15). */
import { ARC_FORMS } from '../results/pipe-strip-area.ts';
import { pipeStripAreaMm2 } from '../results/pipe-strip-area.ts';
import { exampleCase } from './example-facts.ts';
import { areaIn } from './program-under-check.ts';
import type { SelfCheckCase } from './self-check-case.ts';

const TEXTBOOK = 'Welding Inspection Technology, chapter 6, area examples';

const ROUND_BARS: readonly (readonly [diameterIn: string, areaIn2: number])[] = [
  ['0.500', 0.19635],
  ['0.350', 0.096211],
  ['0.250', 0.049087],
  ['0.160', 0.020106],
  ['0.113', 0.010029],
  ['0.353', 0.097868],
  ['0.252', 0.049876],
  ['0.188', 0.027759],
];

const roundBars: readonly SelfCheckCase[] = [
  exampleCase(
    { group: 'worked example 1', source: TEXTBOOK, status: 'printed' },
    {
      what: 'area of a round bar, 0.505 in',
      unit: 'in²',
      expected: 0.2,
      tolerance: 0.05,
      toleranceReason: 'printed with one digit',
      run: () => areaIn('in²', { kind: 'round', diameter: '0.505 in' }),
    },
  ),
  exampleCase(
    { group: 'worked example 1', source: TEXTBOOK, status: 'derived' },
    {
      what: 'area of a round bar, 0.505 in, five digits',
      unit: 'in²',
      expected: 0.2003,
      tolerance: 5e-6,
      run: () => areaIn('in²', { kind: 'round', diameter: '0.505 in' }),
    },
  ),
  ...ROUND_BARS.map(([diameter, expected]) =>
    exampleCase(
      { group: 'worked example 1', source: 'standard diameters of round bars; π·d²/4', status: 'derived' },
      {
        what: `area of a round bar, ${diameter} in`,
        unit: 'in²',
        expected,
        tolerance: 5e-7,
        run: () => areaIn('in²', { kind: 'round', diameter: `${diameter} in` }),
      },
    ),
  ),
];

const flat: SelfCheckCase = exampleCase(
  { group: 'worked example 2', source: TEXTBOOK, status: 'printed' },
  {
    what: 'area of a flat reduced section, 1.5 in × 0.5 in',
    unit: 'in²',
    expected: 0.75,
    tolerance: 1e-12,
    toleranceReason: 'exact',
    run: () => areaIn('in²', { kind: 'flat', width: '1.5 in', thickness: '0.5 in' }),
  },
);

/** D, T, W, then exact, simplified, mean-diameter and plain form. */
const STRIPS: readonly (readonly [string, string, string, 'mm' | 'in', number, number, number, number])[] = [
  ['168.3', '7.11', '38.1', 'mm', 273.484, 273.418, 273.479, 270.891],
  ['60.3', '3.91', '19.0', 'mm', 75.781, 75.702, 75.773, 74.29],
  ['6.625', '0.280', '0.750', 'in', 0.210493, 0.21049, 0.210492, 0.21],
  ['4.500', '0.237', '0.750', 'in', 0.178683, 0.17867, 0.17868, 0.17775],
  ['12.750', '0.375', '1.000', 'in', 0.37541, 0.375408, 0.375409, 0.375],
];

const strips: readonly SelfCheckCase[] = STRIPS.flatMap(([D, T, W, unit, ...areas]) =>
  ARC_FORMS.map((form, i) =>
    exampleCase(
      {
        group: 'worked example 15',
        source:
          form === 'mean-arc'
            ? 'Physical Testing and Chemical Analysis 2012 no. 10, pp. 672-673'
            : 'geometry of the arc, checked by numerical integration; ISO 6892-1, annex on tubes',
        status: 'derived',
      },
      {
        what: `strip of ${W} from pipe ${D} × ${T} ${unit}, ${form} form`,
        unit: unit === 'mm' ? 'mm²' : 'in²',
        expected: areas[i] ?? Number.NaN,
        tolerance: unit === 'mm' ? 5e-4 : 5e-7,
        run: () =>
          form === 'arc'
            ? areaIn(unit === 'mm' ? 'mm²' : 'in²', {
                kind: 'pipe-strip',
                outerDiameter: `${D} ${unit}`,
                wall: `${T} ${unit}`,
                width: `${W} ${unit}`,
              })
            : pipeStripAreaMm2({ outerDiameterMm: Number(D), wallMm: Number(T), widthMm: Number(W) }, form),
      },
    ),
  ),
);

const tubes: readonly SelfCheckCase[] = (
  [
    ['2.375', '0.154', 1.07453],
    ['1.315', '0.133', 0.49388],
  ] as const
).map(([D, T, expected]) =>
  exampleCase(
    { group: 'worked example 15', source: 'geometry, π·T·(D − T)', status: 'derived' },
    {
      what: `full section of a tube, ${D} × ${T} in`,
      unit: 'in²',
      expected,
      tolerance: 5e-6,
      run: () => areaIn('in²', { kind: 'tube', outerDiameter: `${D} in`, wall: `${T} in` }),
    },
  ),
);

export const examplesOfArea: readonly SelfCheckCase[] = [...roundBars, flat, ...strips, ...tubes];
