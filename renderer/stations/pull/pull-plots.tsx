/** The two live plots. They draw what has arrived, once a frame, and end at the last reading. */
import { DRAWN_BEFORE_START_S } from '../../../core/curve/drawn-length.ts';
import { useComputed } from '@preact/signals';
import type { SessionPull } from '../../../core/contract/session.ts';
import { elapsedText } from '../../numbers/format.ts';
import type { PlotMark } from '../../plot/picture.ts';
import { PullPlot } from '../../plot/pull-plot.tsx';
import type { FollowedPull } from '../../store/followed-pull.ts';
import { followedPull, readingsArrived, sessionState } from '../../store/session-store.ts';
import { language } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { LiveValues } from './live-values.tsx';
import { PLANNED_TIME_S, suggestedAxes } from './pull-plan.ts';

export function PullPlots({ pull }: { readonly pull: SessionPull }) {
  const text = words.value;
  const followed = followedPull.value;
  // Looked for with each arrival; the plots are made anew only when it changes.
  const abscissa = useComputed(() => abscissaOf(followedPull.value, readingsArrived.value)).value;
  if (followed === null) return null;
  const { columns } = followed;
  const waiting = sessionState.value === 'ready';
  const marks = (): readonly PlotMark[] => {
    const { plot } = text;
    const made: PlotMark[] = [];
    if (pull.triggerSeq !== null) made.push({ sign: 'start', reading: pull.triggerSeq, label: '' });
    // Before the trigger the largest reading is noise, not a peak.
    if (pull.triggerSeq !== null && columns.peakIndex >= 0)
      made.push({ sign: 'peak', reading: columns.peakIndex, label: plot.peak });
    if (pull.breakSeq !== null) made.push({ sign: 'break', reading: pull.breakSeq, label: plot.breakMarked });
    if (columns.length > 0 && sessionState.value !== 'ended')
      made.push({ sign: 'now', reading: columns.length - 1, label: '' });
    return made;
  };
  const shared = {
    columns,
    gaps: pull.gaps,
    triggerSeq: pull.triggerSeq,
    breakSeq: pull.breakSeq,
    marks,
    plannedForceN: pull.plannedForceN ?? suggestedAxes.value.forceN,
    waiting,
    whole: false,
    changes: [sessionState.value],
    arrivals: readingsArrived,
  };
  return (
    <div class="plots" data-one={abscissa === null}>
      {abscissa === null ? null : (
        <PullPlot
          {...shared}
          id="plot-load-extension"
          abscissa={abscissa}
          ink="blue"
          plannedX={pull.plannedExtensionMm ?? suggestedAxes.value.extensionMm}
        />
      )}
      <PullPlot
        {...shared}
        id="plot-load-time"
        abscissa="time"
        ink="blue"
        plannedX={PLANNED_TIME_S - DRAWN_BEFORE_START_S}
        aside={
          <>
            <Elapsed pull={pull} />
            <LiveValues pull={pull} columns={columns} abscissa={abscissa} marks={marks} />
          </>
        }
      />
    </div>
  );
}

/** Looked at from the desk: how long the pull has taken so far. */
function Elapsed({ pull }: { readonly pull: SessionPull }) {
  if (pull.pullS === null) return null;
  return (
    <span class="elapsed">
      {words.value.figures.elapsed} <b>{elapsedText(pull.pullS, language.value)}</b> min:s
    </span>
  );
}

/** What the load is drawn over beside the time; known once readings have arrived. */
function abscissaOf(followed: FollowedPull | null, arrivals: number): 'extension' | 'travel' | null {
  if (followed === null || arrivals === 0) return null;
  return followed.columns.has('extension') ? 'extension' : followed.columns.has('travel') ? 'travel' : null;
}
