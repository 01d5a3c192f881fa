/**
 * A plot with everything around it: a name, a line that reads out the point under the pointer or the keys, and for
 * those who can't see it a slider along the order of time whose value is spoken.
 */
import { type ReadonlySignal, useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { PlotRange } from '../../core/drawing/plot-input.ts';
import { PALETTES } from '../design/palette.ts';
import { theme } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import type { PlotPicture } from './picture.ts';
import { drawNoMore, drawSoon } from './plot-clock.ts';
import { type CursorKey, cursorKey } from './plot-keys.ts';
import { PlotView } from './plot-view.ts';
import { ZoomActions, usePlotZoom } from './plot-zoom.tsx';
import { redrawnWithPlace } from './redrawn-with-place.ts';
import { within } from './zoom.ts';
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
  readonly breakReading: () => number | null;
  readonly yieldReading?: number | null;
  /** Default: false. Zoomed and moved by wheel, drag and keys; another value shows everything again. */
  readonly zooms?: false | string;
  /** Default: true. False while no reading can be told by its number. */
  readonly readsOut?: boolean;
  readonly id?: string;
  /** Beside the name: what changes with the curve and is no point of it. */
  readonly aside?: ComponentChildren;
}

const BARE: PlotRange = { x: { min: 0, max: 1 }, y: { min: 0, max: 1 } };

export function CurvePlot(props: CurvePlotProps) {
  const {
    name,
    picture,
    changes,
    arrivals,
    pointText,
    peakReading,
    breakReading,
    yieldReading = null,
    zooms = false,
    readsOut = true,
    id,
  } = props;
  const host = useRef<HTMLDivElement>(null);
  const view = useRef<PlotView | null>(null);
  const cursor = useSignal(-1);
  const part = useSignal<{ readonly range: PlotRange; readonly of: string } | null>(null);
  const whole = useRef<PlotRange>(BARE);
  /** In other units, and of another stretch of the record, the axes are others. */
  const axes = zooms === false ? '' : zooms;
  /** Asked anew each time: two notches of the wheel may come before the next rendering. */
  const rangeNow = (): PlotRange | null => (part.value?.of === axes ? part.value.range : null);
  const pictured = (): PlotPicture => {
    const made = picture();
    whole.current = { x: made.xRange, y: made.yRange };
    const range = rangeNow();
    return range === null ? made : { ...made, xRange: range.x, yRange: range.y, isPart: true };
  };
  /** Functions of the newest rendering: the canvas outlives many of them. */
  const latest = useRef({ picture: pictured });
  latest.current = { picture: pictured };
  const text = words.value.plot;
  const show = (next: PlotRange | null): void => {
    part.value = next === null ? null : { range: next, of: axes };
  };
  const zoom = usePlotZoom({
    range: rangeNow,
    whole: () => whole.current,
    frame: () => view.current?.frame ?? null,
    show,
  });

  const draw = useRef(() => {
    const shown = view.current;
    if (shown === null || !shown.fit()) return;
    shown.show(latest.current.picture());
    shown.draw();
  }).current;
  const drawAnew = useRef(() => {
    view.current?.forgetDrawn();
    draw();
  }).current;
  const lengthen = useRef(() => view.current?.lengthen(latest.current.picture())).current;

  useEffect(() => {
    const place = host.current;
    if (place === null) return;
    const made = new PlotView(place, latest.current.picture(), PALETTES[theme.value]);
    view.current = made;
    const end = redrawnWithPlace(place, drawAnew);
    return () => {
      end();
      drawNoMore(draw);
      made.destroy();
      view.current = null;
    };
  }, []);
  useEffect(() => {
    view.current?.setPalette(PALETTES[theme.value]);
    drawSoon(drawAnew);
  }, [theme.value, rangeNow(), ...changes]);
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
    if (shown === null) return;
    if (zooms === false || !zoom.key(event)) {
      const next = readingOf(cursorKey(event), shown);
      if (next === null) return;
      stand(next);
      // The keys take the picture along; without a zoom everything is in it.
      const { x, y } = shown.placeOf(next);
      const range = rangeNow();
      if (next >= 0 && range !== null) show(within(range, x, y));
    }
    event.preventDefault();
    event.stopPropagation();
  };
  const readingOf = (asked: CursorKey | null, shown: PlotView): number | null => {
    switch (asked?.kind) {
      case 'walk':
        return shown.walk(cursor.value, asked.steps);
      case 'stand':
        return {
          first: shown.ends.first,
          last: shown.ends.last,
          peak: peakReading(),
          yield: yieldReading,
          break: breakReading(),
        }[asked.on];
      case 'away':
        return cursor.value < 0 ? null : -1;
      case undefined:
        return null;
    }
  };
  const spoken =
    cursor.value < 0
      ? zooms === false
        ? text.keysHint
        : `${text.keysHint} ${text.zoomKeysHint}`
      : pointText(cursor.value);
  return (
    <div class={zooms === false ? 'curve-plot' : 'curve-plot zooms'}>
      <div class="curve-plot-head">
        <h2>{name}</h2>
        {props.aside}
        <output>{cursor.value < 0 ? '' : pointText(cursor.value)}</output>
        {zooms === false ? null : (
          <div class="curve-plot-zoom">
            <ZoomActions zoom={zoom} named={name} />
          </div>
        )}
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
        onWheel={zooms === false ? undefined : zoom.onWheel}
        onPointerDown={zooms === false ? undefined : zoom.onPointerDown}
        onPointerMove={(event) => {
          if (!zoom.drag(event)) point(event);
        }}
        onPointerUp={() => zoom.letGo()}
        onDblClick={zooms === false ? undefined : zoom.showAll}
        onPointerLeave={(event) => {
          if (event.pointerType === 'mouse' && document.activeElement !== event.currentTarget) stand(-1);
        }}
        onBlur={() => stand(-1)}
        onKeyDown={key}
      />
    </div>
  );
}
