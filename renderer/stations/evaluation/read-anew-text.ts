/** That results are of lines or rows that were read again, beside a curve that is drawn as it was kept. */
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';

/** Null where the curve is what the results are of. */
export function readAnewText({ readBy, readFromFile }: Evaluation): string | null {
  if (readBy === undefined) return null;
  const text = words.value.evaluation;
  return readFromFile === true ? text.fileReadAnew(told(readBy)) : text.readAnew(readBy);
}
