/**
 * One marked next step on the whole page: the one that the rail names. A station marks what leads to the station on call,
 * or is done there; where nothing of its own does, the way to it stands beside what can be done.
 */
import { signal } from '@preact/signals';
import { marked } from '../archive/marked-pulls.ts';
import { Button } from '../design/button.tsx';
import { exchangeView } from '../exchange/exchange-view.ts';
import { STATIONS, type Station, archivePullId, archiveView, goTo, place } from '../store/place.ts';
import { recording } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import { stationOnCall } from './known.ts';

/** How a button is drawn that leads to this station, or does what is to be done there. */
export const kindOf = (leadsTo: Station): 'call' | 'plain' =>
  stationOnCall() === leadsTo ? 'call' : 'plain';

/** A note of a pull in the archive has been begun there: to keep it comes before the rest of the job. */
export const noteBegunInArchive = signal(false);

/** In the archive's list pulls are marked to be looked at: that comes next there. Not while something is recorded. */
export const isMarkedNext = (): boolean =>
  !recording.value && archiveView.value === 'table' && marked.value.length > 0;

/** Beside the job there are steps that belong to no station; while one of them is marked, nothing of the job is called next. */
function hasOwnStep(): boolean {
  const here = place.value;
  if (here !== 'archive') return here === 'instruments' || here === 'people' || here === 'self-check';
  if (archivePullId.value !== null) return noteBegunInArchive.value;
  return exchangeView.value !== null || archiveView.value === 'again' || isMarkedNext();
}

/** What the rail names. While something is recorded that is said everywhere. */
export const stationNamed = (): Station | null => (!recording.value && hasOwnStep() ? null : stationOnCall());

/** True where the sheet is one of the job, which has one marked step in every state. */
export const isOfJob = (): boolean => (STATIONS as readonly string[]).includes(place.value);

/** The way to the station on call; nothing where the sheet has a way to it, or what is to be done, among its own buttons. */
export function WayOn({ beside }: { readonly beside: readonly Station[] }) {
  const next = stationOnCall();
  if (beside.includes(next) || next === place.value) return null;
  return (
    <Button kind="call" id="to-station-on-call" onPress={() => goTo(next)}>
      {words.value.stations.nextIs(words.value.stations[next])}
    </Button>
  );
}
