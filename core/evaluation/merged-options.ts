/** Options laid over others: what the upper ones say counts, the rest stays. */
import type { EvaluationOptions } from '../results/evaluation.ts';

/** Corrections and measuring systems are merged one by one; a slope asked for anew takes the place of the old one. */
export function mergedOptions(under: EvaluationOptions, over: EvaluationOptions): EvaluationOptions {
  const { slopeWindow, slopeFrom, ...rest } = under;
  const slopeAnew = over.slopeWindow !== undefined || over.slopeFrom !== undefined;
  const corrections = { ...under.corrections, ...over.corrections };
  const measuring = { ...under.measuring, ...over.measuring };
  return {
    ...rest,
    ...(slopeAnew || slopeWindow === undefined ? {} : { slopeWindow }),
    ...(slopeAnew || slopeFrom === undefined ? {} : { slopeFrom }),
    ...over,
    ...(Object.keys(corrections).length === 0 ? {} : { corrections }),
    ...(Object.keys(measuring).length === 0 ? {} : { measuring }),
  };
}
