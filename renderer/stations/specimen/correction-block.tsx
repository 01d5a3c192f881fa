/** What a correction changes: old and new results of each pull that rests on the specimen, before it is kept. */
import { useLayoutEffect } from 'preact/hooks';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { focusFirstFault } from '../../design/focus-fault.ts';
import { ReasonAndName } from '../../people/reason-and-name.tsx';
import { draftAsFile, draft, readDraft } from '../../store/specimen-draft.ts';
import { words } from '../../words/words.ts';
import { ValueComparison } from '../evaluation/value-comparison.tsx';
import type { CorrectedPull, Correction } from './correction.ts';
import '../evaluation/evaluation.css';

export function CorrectionBlock({
  correction,
  specimenId,
}: {
  readonly correction: Correction;
  readonly specimenId: number;
}) {
  const text = words.value.specimen;
  const { work, pulls } = correction;
  // At once: what is typed while the page still paints must not be taken away again.
  useLayoutEffect(() => {
    correction.begin();
    void work.run(() => correction.lookUp(specimenId));
  }, [specimenId]);
  const shown = correction.shown(draftAsFile(draft.value) as SpecimenFile);
  const show = () => {
    if (!readDraft.value.ok) {
      correction.tried.value = true;
      focusFirstFault('.station');
      return;
    }
    void correction.workOut(specimenId, draftAsFile(draft.value) as SpecimenFile);
  };
  return (
    <div class="correction">
      {(pulls.value?.length ?? 0) === 0 ? null : (
        <>
          <p class="pencil">{text.correctionRests}</p>
          <div class="actions">
            <Button id="show-correction" onPress={show}>
              {words.value.evaluation.workOut}
            </Button>
            {work.busy.value ? <span class="pencil">{words.value.evaluation.workingOut}</span> : null}
          </div>
          {shown?.map((one) => (
            <OnePull key={one.pullId} one={one} />
          ))}
        </>
      )}
      <FaultBlock fault={work.fault.value} />
      <ReasonAndName
        id="correction"
        words={text}
        reason={correction.reason}
        by={correction.by}
        tried={correction.tried.value}
      />
      <p class="pencil small">{text.reasonHint}</p>
    </div>
  );
}

function OnePull({ one }: { readonly one: CorrectedPull }) {
  const text = words.value.specimen;
  const pull = String(one.pullId);
  return (
    <section class="corrected-pull" data-corrected-pull={one.pullId}>
      <h2>
        {one.standing === null
          ? text.pullAsRecorded(pull)
          : text.pullEvaluatedAnew(pull, String(one.standing))}
      </h2>
      <ValueComparison before={one.before} after={one.after} />
    </section>
  );
}
