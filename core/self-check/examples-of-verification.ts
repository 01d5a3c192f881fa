/** Verification of the force: errors and repeatability as defined in print, limits of the classes from memory. */
import { verifyForce } from '../verification/verify-force.ts';
import { readWorksheet } from '../verification/worksheet.ts';
import { type ExampleFacts, exampleCase } from './example-facts.ts';
import type { SelfCheckCase } from './self-check-case.ts';

const FACTS: ExampleFacts = {
  group: 'verification of the force',
  source:
    'q and b by ISO 7500-1:1999 annex C as printed in IS 1828 (Part 1):2005; lower limit ASTM E4-16, 10.1; by hand. Limits of the classes from memory',
  status: 'derived',
};

/** Two and three runs at forces of our own: 50 kN shown as 50.25 kN is 0.5 %. */
function verified(runs: readonly string[], zeros?: readonly string[]) {
  const outcome = readWorksheet({
    unit: 'kN',
    resolution: '0.05',
    ...(zeros === undefined ? {} : { zeros: [...zeros] }),
    steps: [{ applied: '50', indicated: [...runs] }],
  });
  if (!outcome.ok) throw new Error(outcome.faults.map(({ sentence }) => sentence).join(' '));
  const found = verifyForce(outcome.read);
  const [step] = found.steps;
  if (step === undefined) throw new Error('the worksheet has a step');
  return { found, step };
}

export const examplesOfVerification: readonly SelfCheckCase[] = [
  exampleCase(FACTS, {
    what: 'q of 50.25 kN and 50.15 kN shown at 50 kN',
    unit: '%',
    expected: 0.4,
    run: () => verified(['50.25', '50.15']).step.error.percent,
  }),
  exampleCase(FACTS, {
    what: 'b of the same two runs',
    unit: '%',
    expected: 0.2,
    run: () => verified(['50.25', '50.15']).step.repeatability.percent,
  }),
  exampleCase(FACTS, {
    what: 'lowest force of ASTM E4 at a resolution of 0.05 kN',
    unit: 'kN',
    expected: 10,
    run: () => verified(['50', '50']).found.e4.lowerLimit.value,
  }),
  exampleCase(FACTS, {
    what: 'class at one force, three runs at 50.5 kN, 50.25 kN, 50 kN (ISO 7500-1)',
    unit: 'text',
    expected: '1',
    run: () => verified(['50.5', '50.25', '50'], ['0', '0', '0']).found.steps[0]?.isoClass ?? 'none',
  }),
];
