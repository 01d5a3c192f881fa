/** What a certificate says of an evaluation that departs from the pull as recorded. */
import { statedOptions } from '../evaluation/stated-options.ts';
import type { PaperWords } from '../words/paper-words.ts';
import type { Fact } from './certificate-content.ts';
import type { EvaluatedFacts } from './certificate-input.ts';
import { momentOnPaper } from './paper/moment-on-paper.ts';

/** Each correction and choice in a sentence, then who decided so and why; none for a pull that went back to as recorded. */
export function evaluationDeviations(
  { options, kept, by, reason }: EvaluatedFacts,
  words: PaperWords,
): string[] {
  const stated = statedOptions(options);
  return stated.length === 0
    ? []
    : [
        ...stated.map(({ sentence }) => words.said(sentence)),
        words.text(
          'Evaluated so by {1}, {2}: {3}',
          by ?? words.text('nobody named'),
          momentOnPaper(kept),
          reason,
        ),
      ];
}

/** For the facts of the record: the number, and the files that tables came from. */
export function evaluationRecordFacts(
  evaluated: EvaluatedFacts | undefined,
  { text, said }: PaperWords,
): Fact[] {
  if (evaluated === undefined) return [];
  const { evaluationId, sources } = evaluated;
  return [
    { label: text('evaluation'), value: text('no. {1} of the archive', String(evaluationId)) },
    ...sources.map(({ what, name, sha256 }) => ({ label: said(what), value: `${name}, SHA-256 ${sha256}` })),
  ];
}
