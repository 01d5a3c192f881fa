/** The plot itself: zoomed and moved by wheel, drag and keys; the chosen curve is read out in the order of time. */
import { useRef } from 'preact/hooks';
import type { TargetedPointerEvent } from 'preact';
import { type PlotLayout, curvePlot, plotLayout } from '../../core/drawing/curve-plot.ts';
import type { Drawing, Shape } from '../../core/drawing/drawing.ts';
import {
  type AlignedCurve,
  type OverlayPictureInput,
  type OverlayRange,
  overlayPlot,
} from '../../core/drawing/overlay-plot.ts';
import { INK } from '../../core/drawing/pens.ts';
import { PX_PER_MM } from '../../core/drawing/plot-area.ts';
import type { ThinnedTrace } from '../../core/curve/thinning.ts';
import { Button } from '../design/button.tsx';
import { DrawingCanvas, cssPxPerMm } from '../plot/drawing-canvas.tsx';
import { nearestCorner } from '../plot/trace.ts';
import { words } from '../words/words.ts';
import { chosen, cursor, hidden, range } from './overlay-choice.ts';
import { laid } from './laid-pulls.ts';
import { readOut } from './read-out.ts';
import { moved, within, zoomed } from './zoom.ts';

const LONG_STEP = 10;
/** A notch of the wheel and a press of a key zoom by this. */
const ZOOM = 1.25;
const WHEEL_NOTCH = 100;
const MOVE_PART = 0.15;
/** A press that moves less than this is no drag. */
const DRAG_PX_MIN = 4;

export interface OverlayPlotProps {
  readonly picture: Omit<OverlayPictureInput, 'widthMm' | 'heightMm' | 'onScreen'>;
  readonly whole: OverlayRange;
  /** The chosen one. */
  readonly curve: AlignedCurve | null;
}

/** The picture as it was drawn last. */
interface Drawn {
  readonly layout: PlotLayout;
  readonly thinned: ThinnedTrace | null;
}

export function OverlayPlot({ picture, whole, curve }: OverlayPlotProps) {
  const text = words.value.look;
  const drawn = useRef<Drawn | null>(null);
  const drag = useRef<{ x: number; y: number; from: OverlayRange; far: boolean } | null>(null);
  const at = cursor.value;

  const drawing = (widthMm: number, heightMm: number): Drawing | null => {
    if (picture.curves.length === 0) return null;
    const input = overlayPlot({ ...picture, widthMm, heightMm, onScreen: true });
    const layout = plotLayout(input);
    const trace = input.traces.at(-1);
    drawn.current = {
      layout,
      thinned: curve === null || trace === undefined ? null : layout.area.thinned(trace),
    };
    const made = curvePlot(input, layout);
    return { ...made, shapes: [...made.shapes, ...cursorShapes(layout, curve, at)] };
  };

  const zoom = (by: number, x: number | null = 0.5, y: number | null = 0.5): void => {
    range.value = zoomed(picture.range, whole, by, { x, y });
  };
  /** Part of the frame under the pointer, from the left and from the bottom. */
  const partAt = (event: { clientX: number; clientY: number; currentTarget: HTMLElement }) => {
    const box = event.currentTarget.getBoundingClientRect();
    const frame = drawn.current?.layout.frame;
    if (frame === undefined) return { x: 0.5, y: 0.5 };
    const perMm = cssPxPerMm();
    const part = (px: number, from: number, size: number): number =>
      Math.min(1, Math.max(0, (px / perMm - from) / size));
    return {
      x: part(event.clientX - box.left, frame.x, frame.width),
      y: 1 - part(event.clientY - box.top, frame.y, frame.height),
    };
  };
  const stand = (reading: number): void => {
    cursor.value = reading;
    if (curve === null || reading < 0) return;
    const { x, y } = curve.index.source;
    const [atX, atY] = [(x[reading] ?? Number.NaN) + curve.shift, y[reading] ?? Number.NaN];
    // The keys take the picture along; without a zoom everything is in it.
    if (range.value !== null) range.value = within(range.value, atX, atY);
  };
  const point = (event: TargetedPointerEvent<HTMLDivElement>): void => {
    const thinned = drawn.current?.thinned ?? null;
    if (thinned === null || curve === null) return;
    const box = event.currentTarget.getBoundingClientRect();
    const scale = PX_PER_MM / cssPxPerMm();
    const corner = nearestCorner(
      thinned,
      (event.clientX - box.left) * scale,
      (event.clientY - box.top) * scale,
    );
    if (corner >= 0) cursor.value = thinned.reading[corner] ?? -1;
  };
  const walk = (steps: number): number => {
    const thinned = drawn.current?.thinned ?? null;
    if (thinned === null || thinned.length === 0) return -1;
    const readings = thinned.reading.subarray(0, thinned.length);
    if (at < 0) return readings[steps < 0 ? readings.length - 1 : 0] ?? -1;
    let here = readings.findIndex((reading) => reading >= at);
    if (here < 0) here = readings.length - 1;
    return readings[Math.min(Math.max(here + steps, 0), readings.length - 1)] ?? -1;
  };
  const choose = (step: number): void => {
    const ids = laid.value.map(({ pullId }) => pullId).filter((id) => !hidden.value.has(id));
    const here = ids.indexOf(curve?.pullId ?? -1);
    const next = ids[Math.min(Math.max(here + step, 0), ids.length - 1)];
    if (next === undefined || next === curve?.pullId) return;
    chosen.value = next;
    cursor.value = -1;
  };
  const key = (event: KeyboardEvent): void => {
    if (event.altKey || event.metaKey) return;
    const act = event.ctrlKey ? CTRL_MOVES[event.key] : undefined;
    if (act !== undefined) range.value = moved(picture.range, whole, act[0] * MOVE_PART, act[1] * MOVE_PART);
    else if (event.ctrlKey || !pressed(event)) return;
    event.preventDefault();
    event.stopPropagation();
  };
  const pressed = (event: KeyboardEvent): boolean => {
    const step = event.shiftKey ? LONG_STEP : 1;
    const mark = (reading: number | undefined): void => {
      if (reading !== undefined) stand(reading);
    };
    switch (event.key) {
      case 'ArrowRight':
        stand(walk(step));
        return true;
      case 'ArrowLeft':
        stand(walk(-step));
        return true;
      case 'ArrowDown':
        choose(1);
        return true;
      case 'ArrowUp':
        choose(-1);
        return true;
      case 'PageUp':
        stand(walk(LONG_STEP));
        return true;
      case 'PageDown':
        stand(walk(-LONG_STEP));
        return true;
      case 'Home':
        stand(curve?.from ?? -1);
        return true;
      case 'End':
        stand((curve?.length ?? 0) - 1);
        return true;
      case 'p':
      case 'P':
        mark(curve?.marks.maximumForce);
        return true;
      case 'y':
      case 'Y':
        mark(curve?.marks.upperYield ?? curve?.marks.proof);
        return true;
      case 'b':
      case 'B':
        mark(curve?.marks.fracture);
        return true;
      case '+':
      case '=':
        zoom(ZOOM);
        return true;
      case '-':
        zoom(1 / ZOOM);
        return true;
      case '0':
        range.value = null;
        return true;
      case 'Escape':
        if (cursor.value < 0) return false;
        cursor.value = -1;
        return true;
      default:
        return false;
    }
  };
  const spoken = curve === null || at < 0 ? '' : readOut(curve, at);
  return (
    <div class="overlay-plot">
      <output class="overlay-read-out" aria-live="off">
        {spoken}
      </output>
      <DrawingCanvas
        id="overlay-plot"
        class="overlay-canvas"
        role="slider"
        tabIndex={0}
        aria-label={`${text.title}, ${picture.title}`}
        aria-valuemin={0}
        aria-valuemax={Math.max((curve?.length ?? 1) - 1, at, 0)}
        aria-valuenow={Math.max(at, 0)}
        aria-valuetext={spoken === '' ? text.plotKeys : spoken}
        drawing={drawing}
        changes={[picture, curve, at]}
        onKeyDown={key}
        onWheel={(event) => {
          event.preventDefault();
          const { x, y } = partAt(event);
          const by = ZOOM ** (-event.deltaY / WHEEL_NOTCH);
          zoom(by, x, event.shiftKey ? null : y);
        }}
        onPointerDown={(event) => {
          drag.current = { x: event.clientX, y: event.clientY, from: picture.range, far: false };
          event.currentTarget.setPointerCapture(event.pointerId);
        }}
        onPointerMove={(event) => {
          const begun = drag.current;
          const frame = drawn.current?.layout.frame;
          if (begun === null || frame === undefined) {
            point(event);
            return;
          }
          const [dx, dy] = [event.clientX - begun.x, event.clientY - begun.y];
          begun.far ||= Math.hypot(dx, dy) >= DRAG_PX_MIN;
          if (!begun.far) return;
          const perMm = cssPxPerMm();
          range.value = moved(begun.from, whole, -dx / perMm / frame.width, dy / perMm / frame.height);
        }}
        onPointerUp={(event) => {
          const wasDrag = drag.current?.far ?? false;
          drag.current = null;
          if (!wasDrag) point(event);
        }}
        onDblClick={() => (range.value = null)}
      />
      <div class="actions">
        <Button kind="compact" onPress={() => zoom(ZOOM)}>
          {text.zoomIn}
        </Button>
        <Button kind="compact" onPress={() => zoom(1 / ZOOM)}>
          {text.zoomOut}
        </Button>
        <Button kind="compact" onPress={() => (range.value = null)}>
          {text.showAll}
        </Button>
        <span class="pencil small">{text.wheel}</span>
      </div>
    </div>
  );
}

const CTRL_MOVES: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** Hair lines through the reading, and a ring about it. */
function cursorShapes({ frame, area }: PlotLayout, curve: AlignedCurve | null, reading: number): Shape[] {
  if (curve === null || reading < 0) return [];
  const { x: xs, y: ys } = curve.index.source;
  const x = area.atX((xs[reading] ?? Number.NaN) + curve.shift);
  const y = area.atY(ys[reading] ?? Number.NaN);
  if (!Number.isFinite(x) || !Number.isFinite(y)) return [];
  const stroke = { colour: INK, widthMm: 0.2 };
  return [
    { kind: 'line', x1: x, y1: frame.y, x2: x, y2: frame.y + frame.height, stroke, clip: frame },
    { kind: 'line', x1: frame.x, y1: y, x2: frame.x + frame.width, y2: y, stroke, clip: frame },
    {
      kind: 'marker',
      form: 'circle',
      x,
      y,
      sizeMm: 2.6,
      stroke: { colour: INK, widthMm: 0.5 },
      fill: 'none',
    },
  ];
}
