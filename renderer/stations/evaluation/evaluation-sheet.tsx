/**
 * Evaluating a pull anew: options set, old and new values seen side by side, then kept with a reason. Also the way back
 * to as recorded, which is one more evaluation without any options.
 */
import { useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import type { KeptEvaluation } from '../../../core/contract/evaluation-requests.ts';
import type { KeptPull } from '../../../core/contract/pull-requests.ts';
import { NAME_LENGTH_MAX, TEXT_LENGTH_MAX } from '../../../core/limits.ts';
import type { Evaluation, EvaluationOptions } from '../../../core/results/evaluation.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock, Field, FieldFault } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { SheetDialog } from '../../keys/sheet-dialog.tsx';
import { errand } from '../../store/errand.ts';
import type { OpenedPull } from '../../store/kept-pull.ts';
import { request } from '../../store/session-store.ts';
import { units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { endedPull } from '../opened-pull.ts';
import { keepPerson, person } from '../set/person.ts';
import { type DraftFaults, draftOf, optionsOf } from './evaluation-draft.ts';
import { OptionEntries } from './option-entries.tsx';
import { StatedList } from './stated-list.tsx';
import { ValueComparison } from './value-comparison.tsx';
import './evaluation.css';

export interface EvaluationSheetProps {
  readonly opened: OpenedPull;
  readonly kept: KeptPull;
  readonly standing: KeptEvaluation | null;
  /** `back`: no options at all, worked out at once. */
  readonly way: 'anew' | 'back';
  readonly onClose: () => void;
}

interface WorkedOut {
  readonly options: EvaluationOptions;
  readonly evaluation: Evaluation;
}

const NO_FAULTS: DraftFaults = new Map();

export function EvaluationSheet({ opened, kept, standing, way, onClose }: EvaluationSheetProps) {
  const text = words.value.evaluation;
  const work = useMemo(errand, []);
  const draft = useSignal(draftOf(way === 'back' ? {} : (standing?.options ?? {}), standing?.sources));
  const faults = useSignal<DraftFaults>(NO_FAULTS);
  const worked = useSignal<WorkedOut | null>(null);
  const reason = useSignal('');
  const by = useSignal(kept.operator ?? person.value);
  const tried = useSignal(false);
  const before = opened.evaluation.value;

  const workOut = async () => {
    const outcome = optionsOf(draft.value, units.value, text);
    faults.value = outcome.ok ? NO_FAULTS : outcome.faults;
    worked.value = null;
    if (!outcome.ok) {
      focusFault();
      return;
    }
    const { options } = outcome;
    const evaluation = await work.run(() => request('pull.evaluate', { pullId: opened.pullId, options }));
    if (evaluation !== null) worked.value = { options, evaluation };
  };
  useEffect(() => {
    if (way === 'back') void workOut();
  }, []);

  const keep = async () => {
    tried.value = true;
    const done = worked.value;
    if (done === null || reason.value.trim() === '') {
      focusFault();
      return;
    }
    const given = by.value.trim();
    const answer = await work.run(() =>
      request('evaluation.keep', {
        pullId: opened.pullId,
        options: done.options,
        sources: way === 'back' ? [] : [...draft.value.sources],
        supersedes: standing?.evaluationId ?? null,
        reason: reason.value.trim(),
        ...(given === '' ? {} : { by: given }),
      }),
    );
    if (answer === null) return;
    if (given !== '') {
      person.value = given;
      keepPerson();
    }
    await opened.refresh();
    // The same pull may stand open in its station while it is evaluated anew in the archive.
    const station = endedPull.value;
    if (station !== null && station !== opened && station.pullId === opened.pullId) await station.refresh();
    say(text.kept(String(answer.evaluationId)));
    onClose();
  };

  return (
    <SheetDialog title={way === 'back' ? text.sheetBackTitle : text.sheetTitle} onClose={onClose}>
      <div class="evaluation-sheet">
        <p class="pencil">{text.means}</p>
        {way === 'back' ? null : (
          <>
            <OptionEntries
              draft={draft.value}
              faults={faults.value}
              kind={kept.specimen.specimen.geometry.kind}
              hasTravel={kept.channels.some(({ quantity }) => quantity === 'travel')}
              onChange={(changed) => {
                draft.value = changed;
                faults.value = NO_FAULTS;
                worked.value = null;
              }}
            />
            <FieldFault id="evaluation-whole-fault" sentence={faults.value.get('whole')} />
            <div class="actions">
              <Button id="work-out" onPress={() => void workOut()}>
                {text.workOut}
              </Button>
              {work.busy.value ? <span class="pencil">{text.workingOut}</span> : null}
            </div>
          </>
        )}
        {worked.value === null || before === null ? null : (
          <>
            <ValueComparison before={before} after={worked.value.evaluation} />
            <StatedList options={worked.value.options} sources={way === 'back' ? [] : draft.value.sources} />
          </>
        )}
        <div class="evaluation-reason">
          <Field
            id="evaluation-reason"
            label={text.reason}
            value={reason.value}
            required
            lengthMax={TEXT_LENGTH_MAX}
            fault={tried.value && reason.value.trim() === '' ? text.reasonNeeded : null}
            onInput={(value) => (reason.value = value)}
          />
          <Field
            id="evaluation-by"
            label={text.by}
            value={by.value}
            lengthMax={NAME_LENGTH_MAX}
            onInput={(value) => (by.value = value)}
          />
        </div>
        <FaultBlock fault={work.fault.value} />
        <div class="actions">
          <Button
            kind="call"
            id="keep-evaluation"
            notNow={worked.value === null ? text.workOutFirst : undefined}
            onPress={() => void keep()}
          >
            {way === 'back' ? text.keepBack : text.keep}
          </Button>
        </div>
      </div>
    </SheetDialog>
  );
}

/** A group that is folded over a fault is opened, so that the fault can be seen. */
function focusFault(): void {
  requestAnimationFrame(() => {
    const wrong = document.querySelector<HTMLElement>('.evaluation-sheet [aria-invalid="true"]');
    wrong?.closest('details')?.setAttribute('open', '');
    wrong?.focus();
  });
}
