/** A damaged archive is set aside only after a sentence that says what happens to the data, and a second press. */
import { giveUpMarks } from './marked-pulls.ts';
import { useSignal } from '@preact/signals';
import { Button } from '../design/button.tsx';
import { say } from '../design/said.tsx';
import { errand } from '../store/errand.ts';
import { giveUpTyping } from '../store/held-typing.ts';
import { archiveGeneration, request } from '../store/session-store.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';

const settingAside = errand();

export function SetArchiveAside() {
  const text = words.value.notices;
  const asked = useSignal(false);
  const setAside = async () => {
    const done = await settingAside.run(() => request('archive.set-aside', { confirmed: true }));
    if (done === null) return;
    asked.value = false;
    // Lists that were asked of the damaged archive are asked again of the fresh one.
    giveUpTyping();
    giveUpMarks();
    archiveGeneration.value++;
    say(text.setAsideDone(done.setAsideTo));
  };
  if (!asked.value)
    return (
      <Button
        kind="compact"
        id="set-aside"
        onPress={() => {
          settingAside.fault.value = null;
          asked.value = true;
        }}
      >
        {text.setAside}
      </Button>
    );
  return (
    <span class="notice-question" role="group" aria-label={text.setAside}>
      <span>
        <strong>{text.setAsideConfirm}:</strong> {text.setAsideMeans} <strong>{text.setAsideNot}:</strong>{' '}
        {text.setAsideNotMeans}
      </span>
      <Button kind="compact" id="set-aside-confirmed" onPress={() => void setAside()}>
        {text.setAsideConfirm}
      </Button>
      <Button kind="compact" onPress={() => (asked.value = false)}>
        {text.setAsideNot}
      </Button>
      {settingAside.fault.value === null ? null : (
        <span role="alert">▲ {told(settingAside.fault.value.sentence)}</span>
      )}
    </span>
  );
}
