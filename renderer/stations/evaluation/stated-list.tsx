/** What an evaluation corrects or chooses, a line each, and the files that its tables came from. */
import type { OptionSource } from '../../../core/contract/evaluation-requests.ts';
import { statedOptions } from '../../../core/evaluation/stated-options.ts';
import type { EvaluationOptions } from '../../../core/results/evaluation.ts';
import { prose } from '../../numbers/prose.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { packSaid } from '../set/pack-choices.ts';

/** Enough of a hash to find the file by; the whole one is in the archive. */
const HASH_LETTERS = 12;

/** What the program itself says of a choice; anything else stays as it was written. */
const saidAs: Partial<Record<string, (value: string) => string>> = { importPlan: told, judgedBy: packSaid };

export function StatedList({
  options,
  sources = [],
}: {
  readonly options: EvaluationOptions;
  readonly sources?: readonly OptionSource[];
}) {
  const text = words.value.evaluation;
  const stated = statedOptions(options);
  if (stated.length === 0) return <p class="pencil">{text.backAsRecorded}</p>;
  return (
    <ul class="stated">
      {stated.map(({ key, value, correction }) => (
        <li key={key} data-stated={key} class={correction ? 'correction' : undefined}>
          {prose(text.stated[key](saidAs[key]?.(value) ?? value))}
        </li>
      ))}
      {sources.map(({ what, name, sha256 }) => (
        <li key={what} class="pencil small">
          {text.from(what, name, sha256.slice(0, HASH_LETTERS))}
        </li>
      ))}
    </ul>
  );
}
