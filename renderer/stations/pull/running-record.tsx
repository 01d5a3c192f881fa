/** Above what is assessed while its record still runs: how long it does, the way back to the pull, and its end. */
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { HoldButton } from '../../design/hold-button.tsx';
import { fixed } from '../../numbers/format.ts';
import { heldOpen, session } from '../../store/session-store.ts';
import { language } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { closesInText, goOnWords } from './go-on-words.ts';
import { ACT_KEYS, doAct, heldByKeys, pullErrand } from './pull-acts.ts';
import './running-record.css';

/** Load is back behind a marked break: what to do about it is decided above the sheet, wherever one assesses. */
export const goesOnFromHere = (): boolean => heldOpen.value && session.value?.pull?.loadIsBack === true;

export function RunningRecord() {
  const pull = session.value?.pull ?? null;
  if (pull === null || !heldOpen.value) return null;
  const text = words.value.heldOpen;
  return (
    <section class="running-record" aria-label={text.title}>
      <p>
        <strong>{text.title}</strong>{' '}
        {pull.loadIsBack
          ? text.loadIsBack
          : text.running(
              fixed(pull.readingCount, 0, language.value),
              pull.closesInS === null ? null : closesInText(pull.closesInS),
            )}
      </p>
      <Button
        kind={goesOnFromHere() ? 'call' : 'plain'}
        id="go-on-from-here"
        keys={ACT_KEYS.goOn}
        onPress={() => void doAct('goOn')}
      >
        {goOnWords()}
      </Button>
      <HoldButton
        id="put-record-away"
        label={text.putAway}
        holdingLabel={words.value.pull.stopping}
        holdHint={words.value.pull.closeHint}
        heldByKeys={heldByKeys.value === 'close'}
        onHeld={() => void doAct('close')}
      />
      <FaultBlock fault={pullErrand.fault.value} />
    </section>
  );
}
