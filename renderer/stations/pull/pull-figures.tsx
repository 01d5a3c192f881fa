/** The figures that are read from two metres: load and peak large, the rest beside them. */
import { useRef } from 'preact/hooks';
import { Figure } from '../../design/figure.tsx';
import { digitFontSize, fontSizeForDigitMm } from '../../design/theme.ts';
import type { Session } from '../../../core/contract/session.ts';
import { type ReadingsOrigin, originOfPull } from '../../../core/pull/readings-origin.ts';
import { convert } from '../../../core/quantity/units.ts';
import { loadUnit } from '../../numbers/display-unit.ts';
import { session } from '../../store/session-store.ts';
import { language, units, viewSettings } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { suggestedAxes } from './pull-plan.ts';
import { liveFigures, roomFor } from './live-figures.ts';
import './pull-figures.css';

/** The peak's digits beside those of the load. */
const PEAK_PART = 0.66;
/** Read from one metre; on a narrow window a little smaller, so that all stand in one row. */
const MINOR_SIZE = `clamp(${fontSizeForDigitMm(5.4).toFixed(1)}px, 2.3vw, ${fontSizeForDigitMm(10).toFixed(1)}px)`;

/** Said while it happens too, not only where the result stands. */
function originNow({ readout, second }: Session): ReadingsOrigin | undefined {
  if (readout === null) return undefined;
  const { source } = readout;
  return originOfPull({ source, second: second === null ? null : second.readout }) ?? undefined;
}

export function PullFigures({ stale }: { readonly stale: boolean }) {
  const now = session.value;
  // Held while nothing is shown: load and peak must not change their places because a reading failed to come.
  const resolutionN = useRef<number | null>(null);
  const fresh = now?.live.find((l) => l.quantity === 'force')?.resolution ?? null;
  if (fresh !== null) resolutionN.current = fresh;
  if (now === null) return null;
  const text = words.value.figures;
  const { digitsMm } = viewSettings.value;
  const figures = liveFigures(
    now,
    suggestedAxes.value.forceN,
    units.value,
    language.value,
    words.value,
    resolutionN.current,
  );
  // Room for the end of the load axis and a fifth more; a larger load takes more room when it comes.
  const largestN = Math.max(
    (now.pull?.plannedForceN ?? suggestedAxes.value.forceN) * 1.2,
    now.pull?.peak?.forceN ?? 0,
  );
  const unit = loadUnit(largestN, units.value);
  const room = roomFor(
    convert(largestN, 'N', unit),
    unit,
    language.value,
    resolutionN.current === null ? null : convert(resolutionN.current, 'N', unit),
  );
  return (
    <div class="figures">
      <Figure
        name={text.load}
        {...figures.load}
        room={room}
        size={digitFontSize(digitsMm)}
        stale={stale}
        readings={originNow(now)}
      />
      <Figure
        name={text.peak}
        {...figures.peak}
        room={room}
        size={digitFontSize(digitsMm, PEAK_PART)}
        mark="peak"
        unsigned
      />
      <div class="minors">
        <div class="minor">
          {figures.extension === null ? null : (
            <Figure name={text.extension} {...figures.extension} room={6.5} size={MINOR_SIZE} stale={stale} />
          )}
          {figures.extension === null && figures.travel !== null ? (
            <Figure name={text.travel} {...figures.travel} room={7} size={MINOR_SIZE} stale={stale} />
          ) : null}
          <Figure name={text.elapsed} {...figures.elapsed} room={7} size={MINOR_SIZE} />
        </div>
        <div class="minor">
          <Figure name={text.rate} {...figures.loadRate} room={6} size={MINOR_SIZE} stale={stale} />
          {figures.extensionRate === null ? null : (
            <Figure
              name={figures.extension === null ? text.travelRate : text.extensionRate}
              {...figures.extensionRate}
              room={6}
              size={MINOR_SIZE}
              stale={stale}
            />
          )}
        </div>
      </div>
    </div>
  );
}
