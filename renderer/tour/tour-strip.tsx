/** The strip of the tour: what it is, what is to be done next, and the way out at any moment. */
import { Button } from '../design/button.tsx';
import { ReadingsMark } from '../design/readings-mark.tsx';
import { goTo, place } from '../store/place.ts';
import { recording } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import { TOUR_STEPS, leaveTour, tourOn, tourStep } from './tour.ts';
import './tour-strip.css';

export function TourStrip() {
  if (!tourOn.value) return null;
  const text = words.value.tour;
  const step = tourStep.value;
  const at = TOUR_STEPS.indexOf(step) + 1;
  // Having seen the result leads on to the archive.
  const leadsTo = step === 'result' && place.value === 'result' ? 'archive' : step;
  return (
    <section class="tour" aria-label={text.title}>
      <p class="tour-head">
        <ReadingsMark readings="simulated" />
        <strong>{text.title}</strong>
        <span class="pencil">{text.place(String(at), String(TOUR_STEPS.length))}</span>
      </p>
      <p class="tour-step" role="status">
        {step === 'pull' && recording.value ? text.pulling : text.steps[step]}
      </p>
      <div class="tour-ways">
        {place.value === leadsTo ? null : (
          <Button kind="compact" id="tour-on" onPress={() => goTo(leadsTo)}>
            {text.goOn(words.value.stations[leadsTo])}
          </Button>
        )}
        <Button kind="compact" id="leave-tour" onPress={() => void leaveTour()}>
          {text.leave}
        </Button>
      </div>
    </section>
  );
}
