/** Every case that the program checks itself by: worked examples first, then published curves. */
import { examplesOfArea } from './examples-of-area.ts';
import { examplesOfConversions } from './examples-of-conversions.ts';
import { examplesOfCurves } from './examples-of-curves.ts';
import { examplesOfRecognitions } from './examples-of-recognitions.ts';
import { examplesOfResults } from './examples-of-results.ts';
import { examplesOfUnits } from './examples-of-units.ts';
import { examplesOfVerification } from './examples-of-verification.ts';
import bundle from './published-curves.json' with { type: 'json' };
import { type PublishedCurve, publishedCurveCases } from './published-curves.ts';
import type { SelfCheckCase } from './self-check-case.ts';

export const workedExamples: readonly SelfCheckCase[] = [
  ...examplesOfArea,
  ...examplesOfResults,
  ...examplesOfCurves,
  ...examplesOfUnits,
];

/** The data is our own file, checked by a test against `fixtures/curves/`. */
export const publishedCurves = bundle.curves as readonly PublishedCurve[];

export const allCases: readonly SelfCheckCase[] = [
  ...workedExamples,
  ...publishedCurveCases(publishedCurves),
  // Closed form, from no published page, so not among the worked examples.
  ...examplesOfConversions,
  ...examplesOfRecognitions,
  ...examplesOfVerification,
];
