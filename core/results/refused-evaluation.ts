/**
 * The answer to options or a specimen that no evaluation can be made by. Leaving out the wrong one would give numbers
 * that look like what was asked for and are not, so everything is withheld, with the sentence that names it.
 */
import { optionFault } from '../evaluation/option-fault.ts';
import { sizeFault } from '../specimen/size-fault.ts';
import type { Specimen } from '../specimen/specimen.ts';
import { type Evaluation, METHOD_VERSION } from './evaluation.ts';
import { CURVE_SYMBOLS } from './unusable-record.ts';

/** Symbols of the defaults and of the specimen; what the options ask for beside them can't be told. */
const SYMBOLS: readonly (readonly [string, string])[] = [
  ...CURVE_SYMBOLS,
  ['Rp0.2', 'proof strength, offset'],
  ['Rt0.5', 'proof strength, total extension'],
  ['A', 'percentage elongation after fracture'],
  ['S0', 'original cross-section area'],
  ['L0', 'original gauge length'],
  ['Z', 'percentage reduction of area'],
];

/** Null where nothing speaks against the evaluation. Takes anything for options, checked or not. */
export function refusedEvaluation(specimen: Specimen | null, options: unknown): Evaluation | null {
  const option = optionFault(options);
  if (option !== null)
    return refused('option-wrong', `Nothing is evaluated, since an option is wrong: ${option.sentence}`);
  const size = specimen === null ? null : sizeFault(specimen);
  return size === null
    ? null
    : refused('specimen-wrong', `Nothing is evaluated, since a size of the specimen is wrong: ${size}.`);
}

function refused(code: string, reason: string): Evaluation {
  return {
    results: [],
    withheld: SYMBOLS.map(([symbol, name]) => ({ symbol, name, code, reason })),
    proofs: [],
    marks: {},
    remarks: [],
    methodVersion: METHOD_VERSION,
  };
}
