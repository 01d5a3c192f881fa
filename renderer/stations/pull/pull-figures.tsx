/**
 * The figures that are read from two metres: load and peak, beneath them extension and rates. The time, which nobody at
 * the frame acts on, stands at the head of the plot over time.
 */
import { useRef } from 'preact/hooks';
import { Figure } from '../../design/figure.tsx';
import { digitFontSize, figureEms, sharedFontSize } from '../../design/theme.ts';
import type { Session } from '../../../core/contract/session.ts';
import { type ReadingsOrigin, originOfPull } from '../../../core/pull/readings-origin.ts';
import { convert } from '../../../core/quantity/units.ts';
import { displayUnit, loadUnit } from '../../numbers/display-unit.ts';
import { session } from '../../store/session-store.ts';
import { language, units, viewSettings } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';
import { suggestedAxes } from './pull-plan.ts';
import { RATE_ROOM, liveFigures, rateRoom, roomFor } from './live-figures.ts';
import './pull-figures.css';

/** Between figures; the sizes reckon with it. */
const GAP = 'var(--figure-gap)';

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
  const length = displayUnit('length', units.value);
  const lengthRoom = roomFor(
    convert(now.pull?.plannedExtensionMm ?? suggestedAxes.value.extensionMm, 'mm', length),
    length,
    language.value,
  );
  const loadSize = digitFontSize(digitsMm);
  const peakSize = sharedFontSize(digitsMm, {
    ems: figureEms(room, unit, false),
    taken: `${GAP} - ${figureEms(room, unit).toFixed(2)} * ${loadSize}`,
  });
  const beneath = sharedFontSize(digitsMm, {
    ems:
      figureEms(lengthRoom, length) +
      figureEms(rateRoom(unit), figures.loadRate.unit) +
      (figures.extensionRate === null ? 0 : figureEms(RATE_ROOM, figures.extensionRate.unit)),
    taken: `2 * ${GAP}`,
  });
  return (
    <div class="figures">
      <Figure
        name={text.load}
        {...figures.load}
        room={room}
        size={loadSize}
        stale={stale}
        readings={originNow(now)}
      />
      <Figure name={text.peak} {...figures.peak} room={room} size={peakSize} mark="peak" unsigned />
      <div class="beneath">
        {figures.extension === null ? null : (
          <Figure
            name={text.extension}
            {...figures.extension}
            room={lengthRoom}
            size={beneath}
            stale={stale}
          />
        )}
        {figures.extension === null && figures.travel !== null ? (
          <Figure name={text.travel} {...figures.travel} room={lengthRoom} size={beneath} stale={stale} />
        ) : null}
        <Figure name={text.rate} {...figures.loadRate} room={rateRoom(unit)} size={beneath} stale={stale} />
        {figures.extensionRate === null ? null : (
          <Figure
            name={figures.extension === null ? text.travelRate : text.extensionRate}
            {...figures.extensionRate}
            room={RATE_ROOM}
            size={beneath}
            stale={stale}
          />
        )}
      </div>
    </div>
  );
}
