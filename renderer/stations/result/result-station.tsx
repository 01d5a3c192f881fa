/** Result: the verdict in a word, every value with its working, the verdict's grounds, then what was not given and why. */
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { goTo } from '../../store/place.ts';
import { words } from '../../words/words.ts';
import { endedPull } from '../opened-pull.ts';
import { EvaluationBlock } from '../evaluation/evaluation-block.tsx';
import { stationOnCall } from '../known.ts';
import { WayOn, kindOf } from '../marked-step.tsx';
import { NoPull } from '../no-pull.tsx';
import { nextSpecimen } from '../pull/pull-acts.ts';
import { BoardButton } from '../../board/board.tsx';
import { RunningRecord, goesOnFromHere } from '../pull/running-record.tsx';
import { PullVerdict, VerdictInShort, inOpenSet } from '../set/pull-verdict.tsx';
import { KeptPlots } from './kept-plots.tsx';
import { ResultNotes, ResultRows } from './result-list.tsx';
import '../station.css';

export function ResultStation() {
  const text = words.value.result;
  const opened = endedPull.value;
  if (opened === null)
    return (
      <div class="station">
        <NoPull none={text.none} stillRecording={text.stillRecording} />
      </div>
    );
  const evaluation = opened.evaluation.value;
  const next = stationOnCall();
  return (
    <div class="station split">
      <div class="block">
        <div class="result-head">
          <h2>{opened.kept.value?.specimenName ?? text.title}</h2>
          <VerdictInShort pullId={opened.pullId} />
        </div>
        <RunningRecord />
        <FaultBlock fault={opened.fault.value} />
        {evaluation === null ? (
          opened.fault.value === null ? (
            <p class="empty">{text.workingOut}</p>
          ) : null
        ) : (
          <ResultRows evaluation={evaluation} />
        )}
        <PullVerdict pullId={opened.pullId} />
        {evaluation === null ? null : (
          <>
            <ResultNotes evaluation={evaluation} />
            <EvaluationBlock opened={opened} />
          </>
        )}
        <p class="pencil">{text.keepsRecord}</p>
        <div class="actions next-step">
          {next === 'fracture' ? (
            <Button kind="call" id="to-fracture" onPress={() => goTo('fracture')}>
              {words.value.pull.toFracture}
            </Button>
          ) : null}
          {next === 'set' || inOpenSet(opened.pullId) ? (
            <Button kind={kindOf('set')} id="to-set" onPress={() => goTo('set')}>
              {words.value.set.toSet}
            </Button>
          ) : null}
          <Button kind={kindOf('specimen')} id="next-specimen" onPress={() => void nextSpecimen()}>
            {text.nextSpecimen}
          </Button>
          <WayOn beside={['fracture', 'set', 'specimen', ...(goesOnFromHere() ? (['pull'] as const) : [])]} />
          <BoardButton opened={opened} />
        </div>
      </div>
      <KeptPlots opened={opened} />
    </div>
  );
}
