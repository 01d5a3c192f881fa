/** Worked examples of units and of rounding (examples 11, 12 and 16). */
import { exactFromDecimal } from '../quantity/exact.ts';
import { type TieRule, roundExact, stepFromText } from '../quantity/round-exact.ts';
import { type UnitSymbol, convert } from '../quantity/units.ts';
import { roundByRule } from '../results/rounding.ts';
import { exampleCase } from './example-facts.ts';
import type { SelfCheckCase } from './self-check-case.ts';

const TABLE = 'NIST SP 811, Appendix B; the 1959 definitions of inch and pound';

const UNITS: readonly (readonly [number, UnitSymbol, number, UnitSymbol, 'printed' | 'derived'])[] = [
  [1, 'lbf', 4.4482216152605, 'N', 'derived'],
  [1, 'psi', 0.006894757293168, 'MPa', 'printed'],
  [1, 'kip', 4448.222, 'N', 'printed'],
  [1, 'ksi', 6.894757, 'MPa', 'printed'],
  [70, 'ksi', 482.633, 'MPa', 'derived'],
  [58, 'ksi', 399.896, 'MPa', 'derived'],
  [65, 'ksi', 448.159, 'MPa', 'derived'],
  [24, 'ksi', 165.474, 'MPa', 'derived'],
  [485, 'MPa', 70.343, 'ksi', 'derived'],
  [415, 'MPa', 60.191, 'ksi', 'derived'],
  [460, 'MPa', 66.717, 'ksi', 'derived'],
  [360, 'MPa', 52.214, 'ksi', 'derived'],
];

const units: readonly SelfCheckCase[] = UNITS.map(([value, from, expected, to, status]) =>
  exampleCase(
    { group: 'worked example 16', source: TABLE, status },
    { what: `${String(value)} ${from} in ${to}`, unit: to, expected, run: () => convert(value, from, to) },
  ),
);

const POLICY = 'laboratory rounding policy, smtl.co.uk, rounding of test results';
const IS_2 = 'IS 2:1960, rules for rounding off numerical values';
const BY_HAND = 'multiples of a step other than a power of ten, by hand';

/** Input, step, half-even, half-up, source. */
const ROUNDINGS: readonly (readonly [string, string, string, string, string])[] = [
  ['3.967', '0.01', '3.97', '3.97', POLICY],
  ['3.943', '0.01', '3.94', '3.94', POLICY],
  ['3.965', '0.01', '3.96', '3.97', POLICY],
  ['3.955', '0.01', '3.96', '3.96', POLICY],
  ['127.5', '1', '128', '128', POLICY],
  ['126.5', '1', '126', '127', POLICY],
  ['125.5', '1', '126', '126', POLICY],
  ['2.15', '0.1', '2.2', '2.2', POLICY],
  ['4.36', '1', '4', '4', IS_2],
  ['15.205', '0.1', '15.2', '15.2', IS_2],
  ['9.625', '1', '10', '10', IS_2],
  ['2.651', '0.1', '2.7', '2.7', IS_2],
  ['0.3552', '0.01', '0.36', '0.36', IS_2],
  ['12.545001', '0.01', '12.55', '12.55', IS_2],
  ['28.25', '0.5', '28.0', '28.5', BY_HAND],
  ['28.24', '0.5', '28.0', '28.0', BY_HAND],
  ['28.26', '0.5', '28.5', '28.5', BY_HAND],
  ['66250', '500', '66000', '66500', BY_HAND],
  ['502.5', '5', '500', '505', BY_HAND],
];

function rounded(value: string, step: string, ties: TieRule): string {
  const exact = exactFromDecimal(value);
  if (exact === null) throw new Error(`"${value}" is not a decimal`);
  return roundExact(exact, stepFromText(step), ties).text;
}

const roundings: readonly SelfCheckCase[] = ROUNDINGS.flatMap(([value, step, even, up, source]) => [
  exampleCase(
    { group: 'worked example 11', source, status: source === BY_HAND ? 'derived' : 'printed' },
    {
      what: `${value} to ${step}, a tie to the even digit`,
      unit: 'text',
      expected: even,
      run: () => rounded(value, step, 'half-even'),
    },
  ),
  exampleCase(
    { group: 'worked example 11', source, status: 'derived' },
    {
      what: `${value} to ${step}, a tie upwards`,
      unit: 'text',
      expected: up,
      run: () => rounded(value, step, 'half-up'),
    },
  ),
]);

const FILLER = 'AWS A5.1/A5.1M:2012 clause 6 (convert first, round last); cases by arithmetic';

const beforeJudging: readonly SelfCheckCase[] = (
  [
    ['69500', 'psi', 'US', '70'],
    ['69499', 'psi', 'US', '69'],
    ['57500', 'psi', 'US', '58'],
    ['60500', 'psi', 'US', '60'],
    ['482', 'MPa', 'US', '70'],
    ['482', 'MPa', 'SI', '480'],
  ] as const
).map(([value, unit, system, expected]) =>
  exampleCase(
    { group: 'worked example 12', source: FILLER, status: 'derived' },
    {
      what: `${value} ${unit} as reported in ${system === 'US' ? 'ksi' : 'MPa'}`,
      unit: 'text',
      expected,
      run: () =>
        roundByRule(
          { value: convert(Number(value), unit, 'MPa'), unit: 'MPa' },
          'strength',
          'aws-a5.1',
          system,
        )?.text ?? 'not rounded',
    },
  ),
);

const elongations: readonly SelfCheckCase[] = (
  [
    [16.5, '16'],
    [21.5, '22'],
  ] as const
).map(([value, expected]) =>
  exampleCase(
    { group: 'worked example 12', source: FILLER, status: 'derived' },
    {
      what: `elongation of ${String(value)} % as reported`,
      unit: 'text',
      expected,
      run: () => roundByRule({ value, unit: '%' }, 'elongation', 'aws-a5.1', 'SI')?.text ?? 'not rounded',
    },
  ),
);

export const examplesOfUnits: readonly SelfCheckCase[] = [
  ...units,
  ...roundings,
  ...beforeJudging,
  ...elongations,
];
