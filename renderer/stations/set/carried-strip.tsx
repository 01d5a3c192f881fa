/** Says that the specimen being entered goes into a set, and lets it be left out. */
import { useSignal } from '@preact/signals';
import type { Fault } from '../../../core/contract/index.ts';
import { Button } from '../../design/button.tsx';
import { FaultBlock } from '../../design/field.tsx';
import { say } from '../../design/said.tsx';
import { draft, draftIsKept } from '../../store/specimen-draft.ts';
import { words } from '../../words/words.ts';
import { carried, joinCarried } from './open-set.ts';
import './carried-strip.css';

export function CarriedStrip() {
  const text = words.value.set.carried;
  const fault = useSignal<Fault | null>(null);
  const into = carried.value;
  if (into === null) return null;
  const { specimenId, id } = draft.value;
  const putIn = async (kept: number) => {
    fault.value = await joinCarried(kept);
    if (fault.value === null) say(text.joined(id, into.setName));
  };
  return (
    <div class="carried-strip">
      <p>{into.retest === null ? text.forSet(into.setName) : text.retest(into.setName, into.retest.name)}</p>
      {draftIsKept.value && specimenId !== null ? (
        <Button kind="compact" onPress={() => void putIn(specimenId)}>
          {text.putIn}
        </Button>
      ) : null}
      <Button kind="compact" onPress={() => (carried.value = null)}>
        {text.leave}
      </Button>
      <FaultBlock fault={fault.value} />
    </div>
  );
}
