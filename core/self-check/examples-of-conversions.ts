/**
 * What is converted or corrected on request: elongation on another gauge length, travel without what the frame gave.
 * From memory and in closed form, so not among the worked examples of published pages.
 */
import { type ExampleFacts, exampleCase } from './example-facts.ts';
import { curveToPeak, resultOf, specimenFrom } from './program-under-check.ts';
import type { SelfCheckCase } from './self-check-case.ts';

const ISO_2566: ExampleFacts = {
  group: 'conversion and correction',
  source:
    'ISO 2566-1 and 2566-2, factors between proportional gauge lengths (from memory), closed form (k₁/k₂)^m',
  status: 'derived',
};

/** From 20 % on 5.65·√S0 of 400 mm², 113 mm, to other lengths. */
const onOther = (gaugeLengthMm: number, materialKind: 'carbon' | 'austenitic', title: string): number =>
  resultOf(
    `A${String(gaugeLengthMm)}mm (${title})`,
    '%',
    curveToPeak(200_000, 'N'),
    specimenFrom({
      geometry: { kind: 'flat', width: '40 mm', thickness: '10 mm' },
      gaugeLength: '113 mm',
      finalGaugeLength: '135.6 mm',
    }),
    { convertElongation: { gaugeLengthMm, materialKind } },
  );

const E_MPA = 205_000;
const STIFFNESS_N_PER_MM = 40_000;
const LENGTH_MM = 60;
const AREA_MM2 = 100;

export const examplesOfConversions: readonly SelfCheckCase[] = [
  exampleCase(ISO_2566, {
    what: 'A of 20 % on 5.65·√S0, on 11.3·√S0, carbon steel (factor 0.758)',
    unit: '%',
    expected: 15.16,
    tolerance: 0.01,
    toleranceReason: 'half of the last digit of the factor',
    run: () => onOther(226, 'carbon', 'ISO 2566-1'),
  }),
  exampleCase(ISO_2566, {
    what: 'A of 20 % on 5.65·√S0, on 4·√S0, austenitic steel (factor 1.045)',
    unit: '%',
    expected: 20.9,
    tolerance: 0.01,
    toleranceReason: 'half of the last digit of the factor',
    run: () => onOther(80, 'austenitic', 'ISO 2566-2'),
  }),
  exampleCase(
    {
      group: 'conversion and correction',
      source: 'springs in series, closed form, no outside source',
      status: 'derived',
    },
    {
      what: 'slope from crosshead travel with the frame’s 40 kN/mm taken off by a blank run',
      unit: 'MPa',
      expected: E_MPA,
      tolerance: 1,
      toleranceReason: 'arithmetic only',
      run: () => {
        const forceN = Float64Array.from({ length: 400 }, (_, i) => 75 * i);
        return resultOf(
          'mE',
          'MPa',
          {
            length: forceN.length,
            forceN,
            travelMm: forceN.map((f) => f / STIFFNESS_N_PER_MM + (f * LENGTH_MM) / (E_MPA * AREA_MM2)),
          },
          specimenFrom({
            geometry: { kind: 'flat', width: '20 mm', thickness: '5 mm' },
            parallelLength: `${String(LENGTH_MM)} mm`,
          }),
          {
            strainFrom: 'travel',
            corrections: {
              frameCompliance: [0, 10_000, 40_000].map((f) => ({
                forceN: f,
                travelMm: f / STIFFNESS_N_PER_MM,
              })),
            },
          },
        );
      },
    },
  ),
];
