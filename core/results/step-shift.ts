/** What a small slip of the extensometer does to a strength that is read off at a strain. */
import { numberText } from '../quantity/number-text.ts';
import { type ExtensionStep, stepClause } from './extension-steps.ts';
import { type Crossing, type CrossingInput, findCrossing } from './strain-crossing.ts';

/** A strength that a slip moves by no more than this part is given, with the slip beside it. */
const MOVED_MAX = 0.002;

/**
 * Null without a slip. The strength is read once as recorded and once with the slip taken off: where the two differ,
 * none of them is sure enough to be given.
 */
export function stepsMoved(
  input: CrossingInput,
  { stressMpa }: Crossing,
  steps: readonly ExtensionStep[],
): { readonly tooFar: boolean; readonly sentence: string } | null {
  if (steps.length === 0) return null;
  const total = steps.reduce((sum, step) => sum + step.strain, 0);
  const without = findCrossing({ ...input, target: input.target + total });
  const clause = `Before it, the extension ${stepClause(steps)}`;
  if (!without.found)
    return { tooFar: true, sentence: `${clause}; without that the curve doesn’t reach it.` };
  const other = without.crossing.stressMpa;
  return Math.abs(other - stressMpa) > MOVED_MAX * stressMpa
    ? {
        tooFar: true,
        sentence: `${clause}: as recorded it would be ${numberText(stressMpa, 4)} MPa, with the step taken off ${numberText(other, 4)} MPa, and neither is sure. A pull with the extensometer firmly set would give it.`,
      }
    : {
        tooFar: false,
        sentence: `${clause}; taken off, the value would be ${numberText(other, 4)} MPa.`,
      };
}
