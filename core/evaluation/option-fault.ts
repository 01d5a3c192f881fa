/** What is wrong with the options of an evaluation, wherever they come from: a caller's slip must not become a number. */
import { evaluationOptions } from '../contract/evaluation-options.ts';
import { type ShapeFault, shapeFaults } from '../shape-faults.ts';

/** The first fault, with its field; null where the options can be evaluated by. Never throws. */
export function optionFault(options: unknown): ShapeFault | null {
  const outcome = evaluationOptions.safeParse(options);
  if (outcome.success) return null;
  const [first] = shapeFaults(outcome.error.issues, options, { whole: 'The options' });
  return first ?? { field: '', sentence: 'The options are wrong.' };
}
