/** Pull: before it the cautions and the plan, during it the instrument. The controls never move. */
import { useEffect } from 'preact/hooks';
import { CautionLine, Cautions } from '../../design/cautions.tsx';
import { SoundControl } from '../../design/sound-control.tsx';
import { session } from '../../store/session-store.ts';
import { freshness, watchFreshness } from './freshness.ts';
import { PlanCard } from './plan-card.tsx';
import { PullControls } from './pull-controls.tsx';
import { PullFigures } from './pull-figures.tsx';
import { PullPlots } from './pull-plots.tsx';
import { PullState } from './pull-state.tsx';
import { TypedPull } from './typed-pull.tsx';
import '../station.css';
import { RateStrip } from './rate-strip.tsx';
import './pull-station.css';

export function PullStation() {
  useEffect(() => watchFreshness(() => session.peek()), []);
  const now = session.value;
  if (now === null) return null;
  const fresh = freshness(now);
  const before = now.pull === null;
  return (
    <div class="pull">
      <PullFigures stale={!fresh.fresh && now.state !== 'ended'} />
      <div class="pull-middle">
        {before ? (
          <div class="pull-before">
            <PlanCard />
            <div class="block">
              <TypedPull />
              <SoundControl />
              <Cautions />
            </div>
          </div>
        ) : now.pull === null ? null : (
          <PullPlots pull={now.pull} />
        )}
      </div>
      <div>
        {before || now.state === 'ended' ? null : (
          <>
            <RateStrip />
            <CautionLine />
          </>
        )}
      </div>
      <div class="pull-foot">
        <PullState session={now} fresh={fresh} />
        <PullControls />
      </div>
    </div>
  );
}
