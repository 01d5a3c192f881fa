/**
 * Evaluating a pull anew: options set, old and new values seen side by side, then kept with a reason. Also the way back
 * to as recorded, which is one more evaluation without any options.
 */
import { type Signal, signal, useSignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import type { KeptEvaluation } from '../../../core/contract/evaluation-requests.ts';
import type { ReplyOf } from '../../../core/contract/index.ts';
import type { KeptPull } from '../../../core/contract/pull-requests.ts';
import type { KeptSet } from '../../../core/contract/set-requests.ts';
import type { Evaluation, EvaluationOptions } from '../../../core/results/evaluation.ts';
import { Button } from '../../design/button.tsx';
import { focusFirstFault } from '../../design/focus-fault.ts';
import { FaultBlock, FieldFault } from '../../design/field.tsx';
import { LeaveForm } from '../../design/leave-form.tsx';
import { say } from '../../design/said.tsx';
import { SheetDialog } from '../../keys/sheet-dialog.tsx';
import { ReasonAndName } from '../../people/reason-and-name.tsx';
import { errand } from '../../store/errand.ts';
import type { OpenedPull } from '../../store/kept-pull.ts';
import { request } from '../../store/session-store.ts';
import { HeldTyping, useHeldTyping } from '../../store/held-typing.ts';
import { changeWithoutStep, rememberSteps } from '../../store/taken-back.ts';
import { units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { endedPull } from '../opened-pull.ts';
import { person } from '../set/person.ts';
import {
  type DraftFaults,
  type EvaluationDraft,
  draftOf,
  optionsOf,
  typedWindow,
  withWindow,
} from './evaluation-draft.ts';
import { ImportPlanEntry } from './import-plan-entry.tsx';
import { LineFormatEntry } from './line-format-entry.tsx';
import { OptionEntries } from './option-entries.tsx';
import { RulesEntry } from './rules-entry.tsx';
import { newestSetOfPull } from './set-of-pull.ts';
import { SlopeWindowPlot } from './slope-window-plot.tsx';
import { StatedList } from './stated-list.tsx';
import { ValueComparison } from './value-comparison.tsx';
import { VerdictComparison } from './verdict-comparison.tsx';
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
  readonly judged: ReplyOf<'evaluation.judge'>;
}

/** By pull, by the evaluation that stands, and by the way from it. What was worked out is worked out again. */
const held = new HeldTyping<{
  readonly draft: Signal<EvaluationDraft>;
  readonly reason: Signal<string>;
  readonly by: Signal<string>;
}>('evaluation');

const NO_FAULTS: DraftFaults = new Map();

export function EvaluationSheet({ opened, kept, standing, way, onClose }: EvaluationSheetProps) {
  const text = words.value.evaluation;
  const work = useMemo(errand, []);
  const subject = `${String(opened.pullId)} ${String(standing?.evaluationId ?? null)} ${way}`;
  const { draft, reason, by } = useHeldTyping(held, subject, () => ({
    draft: signal(draftOf(way === 'back' ? {} : (standing?.options ?? {}), standing?.sources)),
    reason: signal(''),
    by: signal(kept.operator ?? person.value),
  }));
  /** Options were asked for that the entries do not give: what is wrong is told beside them, in the language of then. */
  const isFaulty = useSignal(false);
  const worked = useSignal<WorkedOut | null>(null);
  /** Undefined until it is known. */
  const set = useSignal<KeptSet['set'] | null | undefined>(undefined);
  const tried = useSignal(false);
  const before = opened.evaluation.value;
  const hasLines = kept.typed === null && kept.source.kind !== 'imported';

  const change = (changed: typeof draft.value): void => {
    draft.value = changed;
  };
  const workOut = async () => {
    const outcome = optionsOf(draft.value, units.value, text);
    isFaulty.value = !outcome.ok;
    worked.value = null;
    if (!outcome.ok) {
      focusFirstFault('.evaluation-sheet');
      return;
    }
    const { options } = outcome;
    const evaluation = await work.run(() => request('pull.evaluate', { pullId: opened.pullId, options }));
    if (evaluation === null) return;
    const judged = await work.run(() => request('evaluation.judge', { pullId: opened.pullId, options }));
    if (judged !== null) worked.value = { options, evaluation, judged };
  };
  // What was worked out belongs to its options: taken back, it is worked out again.
  useEffect(() => {
    const changed = draft.subscribe(() => {
      isFaulty.value = false;
      worked.value = null;
    });
    const steps = rememberSteps({ evaluation: draft }, () => true);
    return () => {
      changed();
      steps();
    };
  }, []);
  useEffect(() => {
    void newestSetOfPull(opened.pullId).then((found) => (set.value = found));
    if (way === 'back') void workOut();
  }, []);

  const keep = async () => {
    tried.value = true;
    const done = worked.value;
    if (done === null || reason.value.trim() === '') {
      focusFirstFault('.evaluation-sheet');
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
    held.letGo(subject);
    if (given !== '') person.value = given;
    await opened.refresh();
    // The same pull may stand open in its station while it is evaluated anew in the archive.
    const station = endedPull.value;
    if (station !== null && station !== opened && station.pullId === opened.pullId) await station.refresh();
    say(text.kept(String(answer.evaluationId)));
    onClose();
  };

  const asked = isFaulty.value ? optionsOf(draft.value, units.value, text) : null;
  const faults = asked === null || asked.ok ? NO_FAULTS : asked.faults;

  return (
    <SheetDialog title={way === 'back' ? text.sheetBackTitle : text.sheetTitle} onClose={onClose}>
      <div class="evaluation-sheet">
        <p class="pencil">{text.means}</p>
        {way === 'back' ? null : (
          <>
            <OptionEntries
              draft={draft.value}
              faults={faults}
              kind={kept.specimen.specimen.geometry.kind}
              hasTravel={hasTravel(kept, draft.value)}
              onChange={change}
              lineFormats={hasLines ? <LineFormatEntry draft={draft.value} onChange={change} /> : undefined}
              filePlan={
                kept.source.kind === 'imported' ? (
                  <ImportPlanEntry
                    pullId={opened.pullId}
                    ofThen={kept.source.plan}
                    draft={draft.value}
                    onChange={change}
                    onRead={(read) => changeWithoutStep(draft, read)}
                  />
                ) : undefined
              }
              rules={
                set.value === undefined ? undefined : (
                  <RulesEntry draft={draft.value} set={set.value} onChange={change} />
                )
              }
              slopePlot={
                before === null || (worked.value?.evaluation ?? before).readBy !== undefined ? null : (
                  <SlopeWindowPlot
                    opened={opened}
                    evaluation={worked.value?.evaluation ?? before}
                    window={typedWindow(draft.value, units.value) ?? null}
                    onMove={(window) => change(withWindow(draft.value, window, units.value))}
                    onSettled={() => {
                      if (draft.value.chosen.slope === 'window') void workOut();
                    }}
                  />
                )
              }
            />
            <FieldFault id="evaluation-whole-fault" sentence={faults.get('whole')} />
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
            <VerdictComparison judged={worked.value.judged} />
            <StatedList options={worked.value.options} sources={way === 'back' ? [] : draft.value.sources} />
          </>
        )}
        <ReasonAndName id="evaluation" words={text} reason={reason} by={by} tried={tried.value} />
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
          <LeaveForm
            id="give-evaluation-up"
            isTyped={held.isTyped(subject)}
            onPress={() => {
              held.letGo(subject);
              onClose();
            }}
          />
        </div>
      </div>
    </SheetDialog>
  );
}

/** As it was recorded, or as the file is to be read now. */
const hasTravel = (kept: KeptPull, { importPlan }: EvaluationDraft): boolean =>
  (importPlan === null || importPlan === 'open' ? kept.channels : importPlan.columns).some(
    ({ quantity }) => quantity === 'travel',
  );
