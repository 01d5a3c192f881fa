/** One evaluation of one curve: composition only, each result has a file of its own. */
import type { Curve } from '../curve/curve.ts';
import type { Specimen } from '../specimen/specimen.ts';
import { type Evaluation, type EvaluationOptions, METHOD_VERSION } from './evaluation.ts';
import type { Result, Withheld } from './result.ts';

/**
 * Evaluates a curve with what was measured on the specimen. Pure; never throws on a curve that came from outside;
 * every symbol that can't be given is in `withheld` with a sentence that says why.
 */
export function evaluate(
  curve: Curve,
  /** null: a curve without its specimen (stress and strain from a file); what needs the specimen is withheld. */
  _specimen: Specimen | null,
  _options: EvaluationOptions = {},
): Evaluation {
  const results: Result[] = [];
  const withheld: Withheld[] = [];
  const force = curve.forceN;
  const peak = force === undefined ? -1 : indexOfLargest(force);
  const fm = force?.[peak];
  if (fm === undefined || !(fm > 0)) {
    withheld.push({
      symbol: 'Fm',
      name: 'maximum force',
      reason:
        'The curve holds no force above zero, so there is no maximum force; check the channel and its sign.',
      code: 'no-force',
    });
  } else {
    results.push({
      symbol: 'Fm',
      name: 'maximum force',
      value: fm,
      unit: 'N',
      rounded: [],
      method: 'largest reading of the force channel',
      working: {
        formula: 'Fm = max(F)',
        inputs: [],
        substituted: `Fm = ${String(fm)} N`,
        source: 'ISO 6892-1, definition of maximum force (from memory)',
      },
      atIndex: peak,
    });
  }
  return {
    results,
    withheld,
    marks: peak < 0 ? {} : { maximumForce: peak },
    remarks: [],
    methodVersion: METHOD_VERSION,
  };
}

function indexOfLargest(column: Float64Array): number {
  let best = -1;
  let largest = -Infinity;
  for (let i = 0; i < column.length; i++) {
    const value = column[i];
    if (value !== undefined && value > largest) {
      largest = value;
      best = i;
    }
  }
  return best;
}
