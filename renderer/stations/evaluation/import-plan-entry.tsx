/** By which plan the file of an imported pull is read: the one of the import, or another that is said here. */
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { ImportPlan } from '../../../core/exchange/import/import-plan.ts';
import { Choice } from '../../design/field.tsx';
import { PlanDraft } from '../../exchange/plan-draft.ts';
import { PlanEntries } from '../../exchange/plan-entries.tsx';
import { request } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import type { EvaluationDraft } from './evaluation-draft.ts';

export function ImportPlanEntry({
  pullId,
  ofThen,
  draft,
  onChange,
  onRead,
}: {
  readonly pullId: number;
  readonly ofThen: ImportPlan;
  readonly draft: EvaluationDraft;
  readonly onChange: (draft: EvaluationDraft) => void;
  /** The same plan as the file is read by it: no choice of its own. */
  readonly onRead: (draft: EvaluationDraft) => void;
}) {
  const text = words.value.evaluation;
  const said = useMemo(
    () => new PlanDraft((choices) => request('pull.preview-plan', { pullId, choices })),
    [pullId],
  );
  const now = useRef(draft);
  now.current = draft;
  // What came from the entries themselves is not put into them again.
  const given = useRef<EvaluationDraft['importPlan']>(null);
  const follows = useRef(false);
  useEffect(() => {
    const plan = draft.importPlan;
    if (plan === given.current) return;
    given.current = plan;
    if (plan === null || plan === 'open') return;
    follows.current = true;
    void said.startFrom(plan).finally(() => (follows.current = false));
  }, [draft.importPlan]);
  useEffect(
    () =>
      said.preview.subscribe((preview) => {
        if (now.current.importPlan === null || (preview === null && said.fault.peek() === null)) return;
        given.current = said.plan.peek() ?? 'open';
        (follows.current ? onRead : onChange)({ ...now.current, importPlan: given.current });
      }),
    [said],
  );
  return (
    <>
      <p class="pencil small">{text.importPlanMeans}</p>
      <Choice
        name={text.importPlan}
        showName
        value={draft.importPlan === null ? 'then' : 'otherwise'}
        options={(['then', 'otherwise'] as const).map((value) => ({
          value,
          label: text.importPlanWays[value],
        }))}
        onChoose={(way) => onChange({ ...draft, importPlan: way === 'then' ? null : ofThen })}
      />
      {draft.importPlan === null ? null : (
        <div class="exchange">
          <PlanEntries draft={said} />
        </div>
      )}
    </>
  );
}
