/**
 * The controls of the pull. Each act has a place of its own in every state; what ends something lies apart from
 * what doesn't, and has to be held.
 */
import { Button } from '../../design/button.tsx';
import { HoldButton } from '../../design/hold-button.tsx';
import { words } from '../../words/words.ts';
import { goOnWords } from './go-on-words.ts';
import { nextOfPull } from './next-of-pull.ts';
import { ACT_KEYS, type PullAct, doAct, heldByKeys, whyNot } from './pull-acts.ts';
import './pull-controls.css';

export function PullControls() {
  const text = words.value.pull;
  const next = nextOfPull();
  const kindOf = (act: PullAct) => (next.kind === 'act' && next.act === act ? 'call' : 'plain');
  return (
    <div class="pull-controls" role="group" aria-label={text.controls}>
      {(['ready', 'zero', 'start', 'markBreak', 'goOn'] as const).map((act) => (
        <Button
          key={act}
          id={`act-${act}`}
          kind={kindOf(act)}
          notNow={whyNot(act)}
          keys={ACT_KEYS[act]}
          onPress={() => void doAct(act)}
        >
          {act === 'goOn' ? goOnWords() : text[act]}
        </Button>
      ))}
      <div class="close-place">
        <HoldButton
          kind={kindOf('close')}
          id="act-close"
          label={text.close}
          holdingLabel={text.stopping}
          holdHint={text.closeHint}
          notNow={whyNot('close')}
          heldByKeys={heldByKeys.value === 'close'}
          onHeld={() => void doAct('close')}
        />
      </div>
      <div class="stop-place">
        <HoldButton
          id="act-stop"
          label={text.stop}
          holdingLabel={text.stopping}
          holdHint={text.stopHint}
          notNow={whyNot('stop')}
          heldByKeys={heldByKeys.value === 'stop'}
          onHeld={() => void doAct('stop')}
        />
      </div>
    </div>
  );
}
