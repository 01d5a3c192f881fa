/** By which rules the pull is judged: those of its set, or another pack, with the metals and minima of the set. */
import type { KeptSet } from '../../../core/contract/set-requests.ts';
import { rulesBeside } from '../../../core/sets/set-faults.ts';
import { packsAtHand } from '../../store/own-rules.ts';
import { words } from '../../words/words.ts';
import { packChoices, packText } from '../set/pack-choices.ts';
import { SelectField } from '../set/select-field.tsx';
import type { EvaluationDraft } from './evaluation-draft.ts';

/** What the list's first entry is called among ids of packs, which are never empty. */
const OF_SET = '';

export function RulesEntry({
  draft,
  set,
  onChange,
}: {
  readonly draft: EvaluationDraft;
  /** Null: the pull is in none. */
  readonly set: KeptSet['set'] | null;
  readonly onChange: (draft: EvaluationDraft) => void;
}) {
  const text = words.value.evaluation;
  if (set === null) return <p class="pencil small">{text.rulesWithoutSet}</p>;
  const chosen = draft.judgedBy;
  const packs = packsAtHand.value;
  // One that was kept with an evaluation may be known no more.
  const gone = chosen === null || packs.some(({ file }) => file.id === chosen.pack.id) ? [] : [chosen.pack];
  return (
    <>
      <p class="pencil small">{text.rulesMean(set.form.name)}</p>
      <SelectField
        id="evaluation-rules"
        label={text.judgedBy}
        value={chosen?.pack.id ?? OF_SET}
        options={[
          { value: OF_SET, label: text.rulesOfSet(packText(set.pack)) },
          ...packChoices(packs),
          ...gone.map((pack) => ({ value: pack.id, label: packText(pack) })),
        ]}
        onChoose={(value) => {
          if (value === chosen?.pack.id) return;
          const pack = packs.find(({ file }) => file.id === value);
          onChange({ ...draft, judgedBy: pack === undefined ? null : rulesBeside(pack, set) });
        }}
      />
    </>
  );
}
