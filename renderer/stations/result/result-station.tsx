/** Result: every value with its working, what was not given and why, and the curve with its marks. */
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { goTo } from '../../store/place.ts';
import { recording } from '../../store/session-store.ts';
import { words } from '../../words/words.ts';
import { endedPull } from '../opened-pull.ts';
import { EvaluationBlock } from '../evaluation/evaluation-block.tsx';
import { nextSpecimen } from '../pull/pull-acts.ts';
import { BoardButton } from '../../board/board.tsx';
import { RunningRecord } from '../pull/running-record.tsx';
import { PullVerdict, inOpenSet } from '../set/pull-verdict.tsx';
import { KeptPlots } from './kept-plots.tsx';
import { ResultList } from './result-list.tsx';
import '../station.css';

export function ResultStation() {
  const text = words.value.result;
  const opened = endedPull.value;
  if (opened === null)
    return (
      <div class="station">
        <p class="empty">{recording.value ? text.stillRecording : text.none}</p>
      </div>
    );
  const evaluation = opened.evaluation.value;
  return (
    <div class="station split">
      <div class="block">
        <h2>{opened.kept.value?.specimenName ?? text.title}</h2>
        <RunningRecord />
        <FaultBlock fault={opened.fault.value} />
        {evaluation === null ? (
          opened.fault.value === null ? (
            <p class="empty">{text.workingOut}</p>
          ) : null
        ) : (
          <>
            <ResultList evaluation={evaluation} />
            <EvaluationBlock opened={opened} />
          </>
        )}
        <PullVerdict pullId={opened.pullId} />
        <div class="actions">
          {inOpenSet(opened.pullId) ? (
            <Button kind="call" id="to-set" onPress={() => goTo('set')}>
              {words.value.set.toSet}
            </Button>
          ) : null}
          <Button
            kind={inOpenSet(opened.pullId) ? 'plain' : 'call'}
            id="next-specimen"
            onPress={() => void nextSpecimen()}
          >
            {text.nextSpecimen}
          </Button>
          <BoardButton opened={opened} />
          <span class="pencil">{text.keepsRecord}</span>
        </div>
      </div>
      <KeptPlots opened={opened} />
    </div>
  );
}
