/**
 * Faults of a record that the program recognises, on a curve whose law is known in closed form: 200 GPa up to 400 MPa,
 * then 1 GPa up to 5 % strain, 60 readings at rest before it and 40 after its break.
 */
import type { Curve } from '../curve/curve.ts';
import { evaluate } from '../results/evaluate.ts';
import { type ExampleFacts, exampleCase } from './example-facts.ts';
import { specimenFrom } from './program-under-check.ts';
import type { SelfCheckCase } from './self-check-case.ts';

const FACTS: ExampleFacts = {
  group: 'faults recognised',
  source: 'bilinear law in closed form, no outside source',
  status: 'derived',
};
const REST = 60;
const READINGS = 2_000;
const AFTER = 40;
const LENGTH = REST + READINGS + AFTER;
const AREA_MM2 = 100;
const GAUGE_LENGTH_MM = 50;

/** What is done to the force (N) and the extension (mm) of a reading, and to the extension of all. */
interface Fault {
  readonly addedN?: (index: number) => number;
  readonly addedMm?: (index: number) => number;
  readonly extensionFactor?: number;
}

function faulty({ addedN = () => 0, addedMm = () => 0, extensionFactor = 1 }: Fault): Curve {
  const strainAt = (i: number): number => 0.05 * Math.min(1, Math.max(0, (i - REST) / (READINGS - 1)));
  const stressAt = (i: number): number => {
    const strain = strainAt(i);
    return i >= REST + READINGS ? 0 : strain <= 0.002 ? 200_000 * strain : 400 + 1_000 * (strain - 0.002);
  };
  return {
    length: LENGTH,
    timeS: Float64Array.from({ length: LENGTH }, (_, i) => i / 10),
    forceN: Float64Array.from({ length: LENGTH }, (_, i) => AREA_MM2 * stressAt(i) + addedN(i)),
    extensionMm: Float64Array.from(
      { length: LENGTH },
      (_, i) => GAUGE_LENGTH_MM * extensionFactor * strainAt(i) + addedMm(i),
    ),
  };
}

/** The figure in what the program remarks. Throws where it remarks nothing of the kind. */
function figureIn(words: RegExp, fault: Fault): number {
  const specimen = specimenFrom({
    geometry: { kind: 'flat', width: '20 mm', thickness: '5 mm' },
    gaugeLength: '50 mm',
  });
  const { remarks } = evaluate(faulty(fault), specimen);
  const figure = words.exec(remarks.join(' '))?.[1];
  if (figure === undefined) throw new Error('the program remarks nothing of it');
  return Number(figure);
}

export const examplesOfRecognitions: readonly SelfCheckCase[] = [
  exampleCase(FACTS, {
    what: 'steady load before the pull',
    unit: 'N',
    expected: 500,
    run: () => figureIn(/Before the pull the load stands at (\S+) N/, { addedN: () => 500 }),
  }),
  exampleCase(FACTS, {
    what: 'drift of the load from before the pull to after the break',
    unit: 'N',
    expected: 800,
    tolerance: 25,
    toleranceReason: 'the load drifts on during the readings at rest on either side',
    run: () => figureIn(/its zero has drifted by (\S+) N/, { addedN: (i) => (800 * i) / LENGTH }),
  }),
  exampleCase(FACTS, {
    what: 'slope where the extension is halved',
    unit: 'GPa',
    expected: 400,
    run: () => figureIn(/elastic part, (\S+) GPa, is no modulus/, { extensionFactor: 0.5 }),
  }),
  exampleCase(FACTS, {
    what: 'step of the load by −1 kN at 2.5 % strain',
    unit: 'MPa',
    expected: -10,
    run: () =>
      figureIn(/The load steps by (\S+) MPa/, {
        addedN: (i) => (i >= REST + READINGS / 2 && i < REST + READINGS ? -1_000 : 0),
      }),
  }),
  exampleCase(FACTS, {
    what: 'slip of the extensometer by 0.04 mm over ten readings, inside the elastic part',
    unit: '%',
    expected: 0.08,
    tolerance: 0.002,
    toleranceReason: 'the remark has two digits, and the ends of the slip are found to within a few readings',
    run: () =>
      figureIn(/The extension grew by (\S+) % more than the force explains/, {
        addedMm: (i) => 0.04 * Math.min(1, Math.max(0, (i - REST - 25) / 10)),
      }),
  }),
];
