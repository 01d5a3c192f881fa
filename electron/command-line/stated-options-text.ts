/** Which options an evaluation was made by: as lines of text, and as data beside the results. */
import type { OptionSource } from '../../core/contract/evaluation-requests.ts';
import { statedOptions } from '../../core/evaluation/stated-options.ts';
import type { EvaluationOptions } from '../../core/results/evaluation.ts';

const HASH_LETTERS = 12;

/** A block of lines; null where nothing departs from the plain way. */
export function statedText(options: EvaluationOptions, sources: readonly OptionSource[]): string | null {
  const stated = statedOptions(options);
  if (stated.length === 0) return null;
  return [
    'Corrections and choices of this evaluation:',
    ...stated.map(({ sentence }) => `  ${sentence}`),
    ...sources.map(
      ({ what, name, sha256 }) =>
        `  ${what} read from ${name} (SHA-256 begins with ${sha256.slice(0, HASH_LETTERS)})`,
    ),
  ].join('\n');
}

/** `options` in the form that --options takes, `optionsApplied` in sentences, `optionFiles` with their hashes. */
export function optionsDocument(
  options: EvaluationOptions,
  sources: readonly OptionSource[],
): Readonly<Record<'options' | 'optionsApplied' | 'optionFiles', unknown>> {
  return {
    options,
    optionsApplied: statedOptions(options).map(({ key, correction, sentence }) => ({
      key,
      correction,
      sentence,
    })),
    optionFiles: sources,
  };
}
