/**
 * Bias and spread of results on curves whose law is known, over noise, resolution, sampling, toe and slope.
 * `node tests/bench/accuracy.ts` prints the table that stands in DEVELOPERS.md. Seeded: it prints the same each time.
 */
import { evaluate } from '../../core/results/evaluate.ts';
import {
  type Disturbance,
  type Law,
  bilinear,
  rambergOsgood,
  record,
  voce,
  yieldPointLaw,
} from '../unit/results/synthetic-curve.ts';

const RUNS = Number(process.argv[2] ?? 100);

const LAWS: readonly (() => Law)[] = [bilinear, rambergOsgood, voce, yieldPointLaw];

const DISTURBANCES: readonly (readonly [string, Disturbance])[] = [
  ['none, 3 000 readings', {}],
  ['none, 300 readings', { readings: 300 }],
  ['stress noise 1 MPa, strain noise 5 µε', { stressNoiseMpa: 1, strainNoise: 5e-6 }],
  ['stress noise 3 MPa, strain noise 30 µε', { stressNoiseMpa: 3, strainNoise: 3e-5 }],
  ['strain step 100 µε, stress step 1 MPa', { strainStep: 1e-4, stressStepMpa: 1, readings: 20_000 }],
  ['30 000 readings, stress noise 2 MPa', { readings: 30_000, stressNoiseMpa: 2, strainNoise: 1e-5 }],
  ['toe 0.05 % dying over 30 MPa, zero off 0.1 %', { toeStrain: 5e-4, toeStressMpa: 30, strainZero: 1e-3 }],
  ['toe 0.1 % over 60 MPa, noise 1 MPa', { toeStrain: 1e-3, toeStressMpa: 60, stressNoiseMpa: 1 }],
  ['200 readings of slack, loop at 220 MPa', { slackReadings: 200, loopAtMpa: 220, stressNoiseMpa: 0.5 }],
];

interface Column {
  readonly symbol: string;
  readonly known: (law: Law) => number | undefined;
  readonly unit: string;
  /** Error in percent of the value, or in the value's own unit. */
  readonly relative: boolean;
}

const COLUMNS: readonly Column[] = [
  { symbol: 'mE', known: (l) => l.known.slopeMpa, unit: '%', relative: true },
  { symbol: 'Rp0.2', known: (l) => l.known.proofMpa, unit: 'MPa', relative: false },
  { symbol: 'Rm', known: (l) => l.known.strengthMpa, unit: 'MPa', relative: false },
  { symbol: 'ReH', known: (l) => l.known.upperYieldMpa, unit: 'MPa', relative: false },
  { symbol: 'ReL', known: (l) => l.known.lowerYieldMpa, unit: 'MPa', relative: false },
  { symbol: 'Ae', known: (l) => l.known.yieldPointExtensionPercent, unit: '%', relative: false },
  { symbol: 'Ag', known: (l) => l.known.uniformPercent, unit: '%', relative: false },
  { symbol: 'A', known: (l) => l.known.elongationPercent, unit: '%', relative: false },
];

console.log(
  `| law | disturbance | ${COLUMNS.map((c) => `${c.symbol}, ${c.relative ? '% of it' : c.unit}`).join(' | ')} |`,
);
console.log(`| --- | --- | ${COLUMNS.map(() => '---').join(' | ')} |`);
for (const make of LAWS) {
  const law = make();
  for (const [name, disturbance] of DISTURBANCES) {
    const random = (disturbance.stressNoiseMpa ?? 0) > 0;
    const runs = random ? RUNS : 1;
    const errors = COLUMNS.map((): number[] => []);
    for (let seed = 1; seed <= runs; seed++) {
      const { results } = evaluate(record(law, { ...disturbance, seed }), null);
      for (const [k, column] of COLUMNS.entries()) {
        const known = column.known(law);
        const value = results.find((r) => r.symbol === column.symbol)?.value;
        if (known !== undefined && value !== undefined)
          errors[k]?.push(column.relative ? (100 * (value - known)) / known : value - known);
      }
    }
    const cells = COLUMNS.map((column, k) => cell(errors[k] ?? [], runs, column.known(law) === undefined));
    console.log(`| ${law.name} | ${name} | ${cells.join(' | ')} |`);
  }
}

/** "bias ± standard deviation", with how often a value was given where that is not always. */
function cell(errors: readonly number[], runs: number, none: boolean): string {
  if (none) return '–';
  if (errors.length === 0) return 'withheld';
  const mean = errors.reduce((s, e) => s + e, 0) / errors.length;
  const spread = Math.sqrt(errors.reduce((s, e) => s + (e - mean) ** 2, 0) / errors.length);
  const signed = `${mean < 0 ? '−' : '+'}${digits(Math.abs(mean))}`;
  const text = runs > 1 ? `${signed} ± ${digits(spread)}` : signed;
  return errors.length === runs ? text : `${text} (${String(errors.length)} of ${String(runs)})`;
}

function digits(value: number): string {
  return value >= 10 ? value.toFixed(1) : value >= 1 ? value.toFixed(2) : value.toFixed(3);
}
