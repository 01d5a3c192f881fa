/**
 * How often faults of a record are told where there are none, and seen where there are some, on curves whose law is
 * known. `node tests/bench/recognitions.ts 10` prints what stands in DEVELOPERS.md. Seeded: it prints the same each time.
 */
import type { Curve } from '../../core/curve/curve.ts';
import { evaluate } from '../../core/results/evaluate.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import {
  type Disturbance,
  type Law,
  bilinear,
  rambergOsgood,
  record,
  voce,
  yieldPointLaw,
} from '../unit/results/synthetic-curve.ts';

const RUNS = Number(process.argv[2] ?? 10);
const AREA_MM2 = 25 * Math.PI;
const SLACK = 60;

const read = readSpecimen({
  id: 'T-1',
  geometry: { kind: 'round', diameter: '10 mm' },
  gaugeLength: '50 mm',
});
if (!read.ok) throw new Error('specimen');
const { specimen } = read;

const STEEL = rambergOsgood({ E: 200_000, R: 500, n: 14 });
const LAWS: readonly Law[] = [
  bilinear(),
  rambergOsgood(),
  STEEL,
  rambergOsgood({ E: 200_000, R: 250, n: 5, end: 0.3 }),
  voce(),
  voce({ S: 200, Q: 400, b: 10, end: 0.4 }),
  yieldPointLaw(),
  yieldPointLaw({ upper: 400, lower: 380, transient: 12 }),
];
const READINGS = [600, 3_000, 20_000] as const;
const NOISES: readonly Disturbance[] = [
  {},
  { stressNoiseMpa: 0.3, strainNoise: 2e-6 },
  { stressNoiseMpa: 1, strainNoise: 5e-6 },
  { stressNoiseMpa: 3, strainNoise: 3e-5 },
  { strainNoise: 3e-5 },
];
const OTHERS: readonly Disturbance[] = [
  {},
  { toeStrain: 5e-4, toeStressMpa: 30, strainZero: 1e-3 },
  { toeStrain: 1e-3, toeStressMpa: 60 },
  { loopAtMpa: 150 },
  { loopAtMpa: 220 },
  { strainStep: 1e-4, stressStepMpa: 1 },
  { strainStep: 2e-5 },
  { stressStepMpa: 4 },
];

const TOLD: readonly (readonly [string, RegExp])[] = [
  ['slip over many readings', /more than the force explains/],
  ['single jump of the extension', /extension (?:jumped|slipped back) by/],
  ['step of the load', /load steps by/],
];

interface Pull extends Curve {
  readonly forceN: Float64Array;
  readonly extensionMm: Float64Array;
}

function pull(law: Law, disturbance: Disturbance): Pull {
  const made = record(law, { slackReadings: SLACK, ...disturbance });
  const { stressMpa = new Float64Array(), strainRatio = new Float64Array() } = made;
  return {
    length: made.length,
    ...(made.timeS === undefined ? {} : { timeS: made.timeS }),
    forceN: stressMpa.map((s) => s * AREA_MM2),
    extensionMm: strainRatio.map((e) => e * 50),
  };
}

/** The points of the law made once: making them costs more than evaluating them. */
function frozen(law: Law, readings: number): Law {
  const points = law.points(readings);
  return { ...law, points: () => points };
}

const said = (curve: Curve): string => evaluate(curve, specimen).remarks.join(' ');

function falseAlarms(): void {
  let total = 0;
  const told = TOLD.map(() => 0);
  for (const law of LAWS)
    for (const readings of READINGS) {
      const made = frozen(law, readings);
      for (const noise of NOISES)
        for (const other of OTHERS)
          for (let seed = 1; seed <= (noise === NOISES[0] ? 1 : RUNS); seed++) {
            const words = said(pull(made, { readings, ...noise, ...other, seed }));
            total += 1;
            for (const [k, [, pattern]] of TOLD.entries())
              if (pattern.test(words)) told[k] = (told[k] ?? 0) + 1;
          }
    }
  for (const [k, [name]] of TOLD.entries())
    console.log(`false alarms, ${name}: ${String(told[k])} of ${String(total)} clean records`);
}

function stepsSeen(): void {
  for (const stressNoiseMpa of [1, 2, 3, 4]) {
    let seen = 0;
    let total = 0;
    for (const law of [voce(), yieldPointLaw()])
      for (const readings of [3_000, 10_000]) {
        const made = frozen(law, readings);
        for (const part of [0.3, 0.6])
          for (let seed = 1; seed <= RUNS; seed++) {
            const clean = pull(made, { readings, stressNoiseMpa, strainNoise: 5e-6, seed });
            const from = SLACK + Math.floor(part * readings);
            const forceN = clean.forceN.map((f, i) => (i < from || i >= SLACK + readings ? f : f - 1_000));
            total += 1;
            if (/load steps by/.test(said({ ...clean, forceN }))) seen += 1;
          }
      }
    console.log(
      `step of the load by -12.7 MPa, noise ${String(stressNoiseMpa)} MPa: ${String(seen)} of ${String(total)} seen`,
    );
  }
}

function slipsSeen(): void {
  const laws = [STEEL, voce(), rambergOsgood()].map((law) => frozen(law, 30_000));
  for (const slipPercent of [0.02, 0.04, 0.08])
    for (const stressNoiseMpa of [0.5, 1, 3]) {
      let seen = 0;
      let total = 0;
      let worst = 0;
      for (const law of laws)
        for (const part of [0.16, 0.24, 0.36])
          for (let seed = 1; seed <= RUNS; seed++) {
            const clean = pull(law, { readings: 30_000, stressNoiseMpa, strainNoise: 5e-6, seed });
            const from = clean.forceN.findIndex((f) => f > part * law.known.proofMpa * AREA_MM2);
            const slip = (slipPercent / 100) * 50;
            const extensionMm = clean.extensionMm.map(
              (x, i) => x + slip * Math.min(1, Math.max(0, (i - from) / 40)),
            );
            const { remarks, results } = evaluate({ ...clean, extensionMm }, specimen);
            total += 1;
            if (remarks.some((remark) => remark.includes('more than the force explains'))) seen += 1;
            const proof = results.find((r) => r.symbol === 'Rp0.2')?.value ?? law.known.proofMpa;
            worst = Math.max(worst, Math.abs(proof - law.known.proofMpa));
          }
      console.log(
        `slip of ${String(slipPercent)} % over 40 readings in the elastic part, noise ${String(stressNoiseMpa)} MPa: ${String(seen)} of ${String(total)} seen, Rp0.2 off by ${worst.toFixed(1)} MPa at most`,
      );
    }
}

falseAlarms();
stepsSeen();
slipsSeen();
