/**
 * The figures that are read from two metres. Where the window is wide enough the load is as high as the two rows of the
 * others beside it; else load and peak, beneath them extension and rates. The time, which nobody at
 * the frame acts on, stands at the head of the plot over time.
 */
import type { ComponentChild } from 'preact';
import { useRef } from 'preact/hooks';
import { Figure } from '../../design/figure.tsx';
import { pageWidth } from '../../design/page-width.ts';
import {
  besideFontSizes,
  digitFontSize,
  figureEms,
  leastBesidePx,
  sharedFontSize,
} from '../../design/theme.ts';
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
/** Both gaps and the margins at their widest. */
const GAPS_PX_MAX = 176;

interface SizedFigure {
  /** Width in ems of its size. */
  readonly ems: number;
  readonly figure: (size: string) => ComponentChild;
}

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
  const load = {
    ems: figureEms(room, unit),
    figure: (size: string) => (
      <Figure
        name={text.load}
        {...figures.load}
        room={room}
        size={size}
        stale={stale}
        readings={originNow(now)}
      />
    ),
  };
  const others: readonly SizedFigure[] = [
    {
      ems: figureEms(room, unit, false),
      figure: (size) => (
        <Figure key="peak" name={text.peak} {...figures.peak} room={room} size={size} mark="peak" unsigned />
      ),
    },
    ...[
      { name: text.extension, shown: figures.extension, room: lengthRoom },
      { name: text.travel, shown: figures.extension === null ? figures.travel : null, room: lengthRoom },
      { name: text.rate, shown: figures.loadRate, room: rateRoom(unit) },
      {
        name: figures.extension === null ? text.travelRate : text.extensionRate,
        shown: figures.extensionRate,
        room: RATE_ROOM,
      },
    ].flatMap(({ name, shown, room: its }) =>
      shown === null
        ? []
        : {
            ems: figureEms(its, shown.unit),
            figure: (size: string) => (
              <Figure key={name} name={name} {...shown} room={its} size={size} stale={stale} />
            ),
          },
    ),
  ];
  const widest = (column: number): number =>
    Math.max(...others.filter((_, i) => i % 2 === column).map(({ ems }) => ems));
  const beside = { loadEms: load.ems, othersEms: widest(0) + widest(1), gaps: `2 * ${GAP}` };
  if (digitsMm === 'fit' && leastBesidePx(beside) + GAPS_PX_MAX <= pageWidth.value) {
    const sizes = besideFontSizes(beside);
    return (
      <div class="figures" data-beside>
        {load.figure(sizes.load)}
        <div class="beneath">{others.map(({ figure }) => figure(sizes.others))}</div>
      </div>
    );
  }
  const loadSize = digitFontSize(digitsMm);
  const [peak, ...beneath] = others;
  const peakSize = sharedFontSize(digitsMm, {
    ems: peak?.ems ?? 0,
    taken: `${GAP} - ${load.ems.toFixed(2)} * ${loadSize}`,
  });
  const beneathSize = sharedFontSize(digitsMm, {
    ems: beneath.reduce((sum, { ems }) => sum + ems, 0),
    taken: `2 * ${GAP}`,
  });
  return (
    <div class="figures">
      {load.figure(loadSize)}
      {peak?.figure(peakSize)}
      <div class="beneath">{beneath.map(({ figure }) => figure(beneathSize))}</div>
    </div>
  );
}
