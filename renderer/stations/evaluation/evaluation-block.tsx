/** How the pull is evaluated: what stands and why, everything kept before it, and the way to another evaluation. */
import { useSignal } from '@preact/signals';
import type { KeptEvaluation } from '../../../core/contract/evaluation-requests.ts';
import { statedOptions } from '../../../core/evaluation/stated-options.ts';
import { Button } from '../../design/button.tsx';
import { momentText } from '../../numbers/format.ts';
import type { OpenedPull } from '../../store/kept-pull.ts';
import { goTo } from '../../store/place.ts';
import { takeUp } from '../../store/specimen-draft.ts';
import { words } from '../../words/words.ts';
import { OutdatedOfPull } from '../certificate/outdated-certificate.tsx';
import { EvaluationSheet } from './evaluation-sheet.tsx';
import { JudgedBeside } from './judged-beside.tsx';
import { StatedList } from './stated-list.tsx';
import './evaluation.css';

export function EvaluationBlock({ opened }: { readonly opened: OpenedPull }) {
  const text = words.value.evaluation;
  const sheet = useSignal<'anew' | 'back' | null>(null);
  const kept = opened.kept.value;
  const history = opened.history.value;
  const specimen = opened.specimen.value;
  if (kept === null || history === null) return null;
  const standing = history.at(-1) ?? null;
  const notNow = kept.state === 'ended' ? undefined : text.stillOpen;
  return (
    <section class="block evaluation-block" aria-labelledby="evaluation-title" data-block="evaluation">
      <h2 id="evaluation-title">{text.title}</h2>
      {standing === null ? <p class="pencil">{text.asRecorded}</p> : <Kept one={standing} />}
      {standing?.options.judgedBy === undefined ? null : <JudgedBeside standing={standing} />}
      <OutdatedOfPull pullId={kept.pullId} standing={standing?.evaluationId ?? null} />
      <div class="actions">
        <Button id="evaluate-again" notNow={notNow} onPress={() => (sheet.value = 'anew')}>
          {text.again}
        </Button>
        {specimen === null ? null : (
          <Button
            id="correct-dimensions"
            kind="quiet"
            onPress={() => {
              takeUp(specimen);
              goTo('specimen');
            }}
          >
            {text.correctDimensions}
          </Button>
        )}
        {standing === null || statedOptions(standing.options).length === 0 ? null : (
          <Button id="back-to-recorded" notNow={notNow} onPress={() => (sheet.value = 'back')}>
            {text.back}
          </Button>
        )}
      </div>
      {history.length < 2 ? null : (
        <details class="evaluation-history">
          <summary>{text.history(String(history.length))}</summary>
          <ol reversed>
            {[...history].reverse().map((one) => (
              <li key={one.evaluationId}>
                <Kept one={one} past={one !== standing} />
              </li>
            ))}
          </ol>
        </details>
      )}
      {sheet.value === null ? null : (
        <EvaluationSheet
          opened={opened}
          kept={kept}
          standing={standing}
          way={sheet.value}
          onClose={() => (sheet.value = null)}
        />
      )}
    </section>
  );
}

function Kept({ one, past = false }: { readonly one: KeptEvaluation; readonly past?: boolean }) {
  const text = words.value.evaluation;
  const said = past ? text.stood : text.stands;
  return (
    <div class="kept-evaluation">
      <p>
        {said(String(one.evaluationId), momentText(one.keptWallMs), one.by ?? text.nobody)}
        {'. '}
        {text.reasonGiven(one.reason)}
      </p>
      <StatedList options={one.options} sources={one.sources} />
    </div>
  );
}
