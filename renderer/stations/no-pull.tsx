/** Where a station has nothing to show before a pull has ended: what is missing, and the ways to it. */
import { Button } from '../design/button.tsx';
import { goTo } from '../store/place.ts';
import { recording } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import { stationOnCall } from './known.ts';

export function NoPull({ none, stillRecording }: { readonly none: string; readonly stillRecording: string }) {
  const text = words.value.stations;
  const next = stationOnCall();
  return (
    <>
      <p class="empty">{recording.value ? stillRecording : none}</p>
      <div class="actions">
        <Button kind="call" id="to-station-on-call" onPress={() => goTo(next)}>
          {text[next]}
        </Button>
        {recording.value ? null : <Button onPress={() => goTo('archive')}>{text.archive}</Button>}
      </div>
    </>
  );
}
