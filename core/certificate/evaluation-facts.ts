/** What a certificate says of an evaluation that departs from the pull as recorded. */
import { statedOptions } from '../evaluation/stated-options.ts';
import type { EvaluatedFacts } from './certificate-input.ts';
import { momentOnPaper } from './paper/moment-on-paper.ts';

/** Each correction and choice in a sentence, then who decided so and why; none for a pull that went back to as recorded. */
export function evaluationDeviations({ options, kept, by, reason }: EvaluatedFacts): string[] {
  const stated = statedOptions(options);
  return stated.length === 0
    ? []
    : [
        ...stated.map(({ sentence }) => sentence),
        `Evaluated so by ${by ?? 'nobody named'}, ${momentOnPaper(kept)}: ${reason}`,
      ];
}

/** For the facts of the record: the number, and the files that tables came from. */
export function evaluationRecordFacts(
  evaluated: EvaluatedFacts | undefined,
): (readonly [string, string | undefined])[] {
  if (evaluated === undefined) return [];
  const { evaluationId, sources } = evaluated;
  return [
    ['evaluation', `no. ${String(evaluationId)} of the archive`],
    ...sources.map(({ what, name, sha256 }) => [what, `${name}, SHA-256 ${sha256}`] as const),
  ];
}
