/** The day on which an imported pull was made, stated or corrected by a person; its record has the moment of the import. */
import { type Signal, signal, useSignal } from '@preact/signals';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import { standingDay, statedText } from '../../core/pull/stated-day.ts';
import { Button } from '../design/button.tsx';
import { say } from '../design/said.tsx';
import { DayField } from '../exchange/day-field.tsx';
import { statedOf } from '../exchange/stated-of.ts';
import { momentText } from '../numbers/format.ts';
import { errand } from '../store/errand.ts';
import { HeldTyping, useHeldTyping } from '../store/held-typing.ts';
import type { OpenedPull } from '../store/kept-pull.ts';
import { archiveGeneration, request } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import { ReasonedAct } from './reasoned-act.tsx';

const stating = errand();
/** By the pull and the day that it corrects. */
const held = new HeldTyping<{ readonly day: Signal<string> }>('day');

export function StateDay({ opened, kept }: { readonly opened: OpenedPull; readonly kept: KeptPull }) {
  const text = words.value.trail;
  const asking = useSignal(false);
  const { pullId, statedDays } = kept;
  const standing = standingDay(kept);
  const stands = standing === null ? '' : statedText(standing.pulledOn);
  const { day: typed } = useHeldTyping(held, `${String(pullId)} ${stands}`, () => ({ day: signal(stands) }));
  return (
    <div class="actions">
      <Button id="state-day" onPress={() => (asking.value = true)}>
        {standing === null ? text.stateDay : text.correctDay}
      </Button>
      {statedDays.slice(0, -1).map(({ statedDayId, pulledOn, by, wallMs }) => (
        <span key={statedDayId} class="pencil small">
          {text.dayBefore(statedText(pulledOn), momentText(wallMs), by ?? text.nobody)}
        </span>
      ))}
      {asking.value ? (
        <ReasonedAct
          subject={`state-day ${String(pullId)}`}
          title={`${text.dayTitle}: ${kept.specimenName}`}
          means={text.dayMeans}
          act={text.dayAct}
          errand={stating}
          onClose={() => (asking.value = false)}
          onOver={() => (typed.value = stands)}
          isMoreTyped={typed.value !== stands}
          onAct={async (given) => {
            const day = statedOf(typed.value);
            if (day.pulledOn === null) return false;
            const pulledOn = day.pulledOn;
            const done = await stating.run(() => request('pull.state-day', { pullId, pulledOn, ...given }));
            if (done === null) return false;
            await opened.refresh();
            archiveGeneration.value++;
            say(text.dayDone);
            return true;
          }}
        >
          <DayField id="stated-day" value={typed.value} required onInput={(value) => (typed.value = value)} />
        </ReasonedAct>
      ) : null}
    </div>
  );
}
