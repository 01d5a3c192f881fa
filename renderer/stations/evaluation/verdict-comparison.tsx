/** What the rules say of the pull now, and by what is tried: side by side, also where nothing changes. */
import type { RuledVerdict } from '../../../core/contract/evaluation-requests.ts';
import type { ReplyOf } from '../../../core/contract/index.ts';
import { unbroken } from '../../numbers/prose.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { OutcomeWord } from '../set/outcome-word.tsx';
import { packSaid } from '../set/pack-choices.ts';
import { Questionable, clauseOrigin } from '../set/verdict-block.tsx';

export function VerdictComparison({
  judged: { before, after },
}: {
  readonly judged: ReplyOf<'evaluation.judge'>;
}) {
  const text = words.value.evaluation;
  if (before === null || after === null) return null;
  return (
    <div class="comparison verdicts" role="status" data-verdicts>
      <h3>{text.verdicts}</h3>
      <div class="verdict-pair">
        <section>
          <h4>{text.before}</h4>
          <RuledSentence said={before} />
        </section>
        <section>
          <h4>{text.after}</h4>
          <RuledSentence said={after} />
        </section>
      </div>
    </div>
  );
}

/** Outcome, sentence, clause and what is missing, by one rule pack. */
export function RuledSentence({ said: { rules, verdict, faults } }: { readonly said: RuledVerdict }) {
  const text = words.value.evaluation;
  return (
    <div class="ruled">
      <p class="pencil small">{text.byRules(packSaid(rules))}</p>
      {verdict === null ? (
        faults.map((fault) => <p key={fault}>{told(fault)}</p>)
      ) : (
        <>
          <p class="ruled-head">
            <OutcomeWord outcome={verdict.outcome} />
            {verdict.validity.state === 'questionable' ? <Questionable /> : null}
          </p>
          <p>{unbroken(told(verdict.sentence))}</p>
          {verdict.clause === null ? null : (
            <p class="pencil small">
              {told(verdict.clause)} {clauseOrigin(verdict)}
            </p>
          )}
          {verdict.missing.map(({ sentence }) => (
            <p key={sentence} class="pencil small">
              {told(sentence)}
            </p>
          ))}
        </>
      )}
    </div>
  );
}
