/**
 * A plot with everything around it: a name, a line that reads out the point under the pointer or the keys, and for
 * those who can't see it a slider along the order of time whose value is spoken.
 */
import { type ReadonlySignal, useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { PALETTES } from '../design/palette.ts';
import { theme } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import type { PlotPicture } from './picture.ts';
import { drawSoon } from './plot-clock.ts';
import { PlotView } from './plot-view.ts';
import { redrawnWithPlace } from './redrawn-with-place.ts';
import './curve-plot.css';

export interface CurvePlotProps {
  readonly name: string;
  /** Called once for each drawing, so that a drawing shows what has arrived by then. */
  readonly picture: () => PlotPicture;
  /** Whatever makes another picture: the plot draws again when it changes. */
  readonly changes: readonly unknown[];
  /** Moves when readings have come: the curve grows without anything around it being made anew. */
  readonly arrivals?: ReadonlySignal<unknown> | undefined;
  /** Words for a reading: "Reading 812: 51.20 kN at 3.210 mm". */
  readonly pointText: (reading: number) => string;
  /** Readings that have a key of their own on the plot. */
  readonly peakReading: () => number;
  readonly breakReading: number | null;
  /** Default: true. False while no reading can be told by its number. */
  readonly readsOut?: boolean;
  readonly id?: string;
  /** Beside the name: what changes with the curve and is no point of it. */
  readonly aside?: ComponentChildren;
}

/** Corner points that Shift with an arrow key goes on by. */
const LONG_STEP = 10;

export function CurvePlot(props: CurvePlotProps) {
  const {
    name,
    picture,
    changes,
    arrivals,
    pointText,
    peakReading,
    breakReading,
    readsOut = true,
    id,
  } = props;
  const host = useRef<HTMLDivElement>(null);
  const view = useRef<PlotView | null>(null);
  const cursor = useSignal(-1);
  /** Functions of the newest rendering: the canvas outlives many of them. */
  const latest = useRef({ picture });
  latest.current = { picture };
  const text = words.value.plot;

  const draw = useRef(() => {
    const shown = view.current;
    if (shown === null || !shown.fit()) return;
    shown.show(latest.current.picture());
    shown.draw();
  }).current;
  const lengthen = useRef(() => view.current?.lengthen(latest.current.picture())).current;

  useEffect(() => {
    const place = host.current;
    if (place === null) return;
    const made = new PlotView(place, latest.current.picture(), PALETTES[theme.value]);
    view.current = made;
    const end = redrawnWithPlace(place, draw);
    return () => {
      end();
      made.destroy();
      view.current = null;
    };
  }, []);
  useEffect(() => {
    view.current?.setPalette(PALETTES[theme.value]);
    drawSoon(draw);
  }, [theme.value, ...changes]);
  useEffect(() => arrivals?.subscribe(() => drawSoon(draw, lengthen)), [arrivals]);

  const stand = (reading: number) => {
    if (!readsOut) return;
    cursor.value = reading;
    view.current?.setCursor(reading);
    drawSoon(draw);
  };
  const point = (event: PointerEvent) => {
    const box = host.current?.getBoundingClientRect();
    if (box === undefined || view.current === null) return;
    stand(view.current.readingAt(event.clientX - box.left, event.clientY - box.top));
  };
  const key = (event: KeyboardEvent) => {
    const shown = view.current;
    // With Ctrl, Alt or Cmd a key belongs to the page, not to the plot.
    if (shown === null || event.ctrlKey || event.altKey || event.metaKey) return;
    const here = cursor.value < 0 ? 0 : cursor.value;
    const step = event.shiftKey ? LONG_STEP : 1;
    const next = ((): number | null => {
      switch (event.key) {
        case 'ArrowRight':
        case 'ArrowUp':
          return shown.walk(here, cursor.value < 0 ? 0 : step);
        case 'ArrowLeft':
        case 'ArrowDown':
          return shown.walk(here, -step);
        case 'PageUp':
          return shown.walk(here, LONG_STEP);
        case 'PageDown':
          return shown.walk(here, -LONG_STEP);
        case 'Home':
          return shown.walk(0, 0);
        case 'End':
          return shown.lastDrawnReading;
        case 'p':
        case 'P':
          return peakReading();
        case 'b':
        case 'B':
          return breakReading ?? null;
        case 'Escape':
          return cursor.value < 0 ? null : -1;
        default:
          return null;
      }
    })();
    if (next === null) return;
    event.preventDefault();
    event.stopPropagation();
    stand(next);
  };
  const spoken = cursor.value < 0 ? text.keysHint : pointText(cursor.value);
  return (
    <div class="curve-plot">
      <div class="curve-plot-head">
        <h2>{name}</h2>
        {props.aside}
        <output>{cursor.value < 0 ? '' : pointText(cursor.value)}</output>
      </div>
      <div
        id={id}
        class="curve-plot-canvas"
        ref={host}
        tabIndex={0}
        role="slider"
        aria-label={name}
        aria-valuemin={0}
        aria-valuemax={Math.max(peakReading(), cursor.value, 0)}
        aria-valuenow={Math.max(cursor.value, 0)}
        aria-valuetext={spoken}
        onPointerMove={point}
        onPointerLeave={(event) => {
          if (event.pointerType === 'mouse' && document.activeElement !== event.currentTarget) stand(-1);
        }}
        onBlur={() => stand(-1)}
        onKeyDown={key}
      />
    </div>
  );
}
