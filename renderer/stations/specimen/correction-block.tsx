/** Who corrects a kept specimen and why, and what the correction changes, before it is kept. */
import { signal } from '@preact/signals';
import { useLayoutEffect } from 'preact/hooks';
import type { SpecimenFile } from '../../../core/specimen/specimen-file.ts';
import { focusFirstFault } from '../../design/focus-fault.ts';
import { ReasonAndName } from '../../people/reason-and-name.tsx';
import { useHeldTyping } from '../../store/held-typing.ts';
import { draftAsFile, draft, readDraft } from '../../store/specimen-draft.ts';
import { words } from '../../words/words.ts';
import { CorrectedPulls } from './corrected-pulls.tsx';
import { type Correction, heldReason } from './correction.ts';

export function CorrectionBlock({
  correction,
  specimenId,
}: {
  readonly correction: Correction;
  readonly specimenId: number;
}) {
  const text = words.value.specimen;
  const { reason } = useHeldTyping(heldReason, specimenId, () => ({ reason: signal('') }));
  // At once: what is typed while the page still paints must not be taken away again.
  useLayoutEffect(() => {
    correction.begin(reason);
    void correction.work.run(() => correction.lookUp(specimenId));
  }, [reason]);
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
      <CorrectedPulls
        id="show-correction"
        correction={correction}
        specimen={draftAsFile(draft.value) as SpecimenFile}
        onShow={show}
      />
      <ReasonAndName
        id="correction"
        words={text}
        reason={reason}
        by={correction.by}
        tried={correction.tried.value}
      />
      <p class="pencil small">{text.reasonHint}</p>
    </div>
  );
}
