/** The plot itself: zoomed and moved by wheel, drag and keys; the chosen curve is read out in the order of time. */
import { useRef } from 'preact/hooks';
import type { TargetedPointerEvent } from 'preact';
import { type PlotLayout, curvePlot, plotLayout } from '../../core/drawing/curve-plot.ts';
import type { Drawing, Shape } from '../../core/drawing/drawing.ts';
import { type AlignedCurve, type OverlayPictureInput, overlayPlot } from '../../core/drawing/overlay-plot.ts';
import type { PlotRange } from '../../core/drawing/plot-input.ts';
import { PX_PER_MM } from '../../core/drawing/plot-area.ts';
import type { ThinnedTrace } from '../../core/curve/thinning.ts';
import { cursorAt } from '../plot/cursor-shapes.ts';
import { DrawingCanvas, cssPxPerMm } from '../plot/drawing-canvas.tsx';
import { type CursorKey, cursorKey, walkedTo } from '../plot/plot-keys.ts';
import { ZoomActions, usePlotZoom } from '../plot/plot-zoom.tsx';
import { nearestCorner } from '../plot/trace.ts';
import { words } from '../words/words.ts';
import { chosen, cursor, hidden, range } from './overlay-choice.ts';
import { laid, stillRead } from './laid-pulls.ts';
import { readOut } from './read-out.ts';
import { within } from '../plot/zoom.ts';

export interface OverlayPlotProps {
  readonly picture: Omit<OverlayPictureInput, 'widthMm' | 'heightMm' | 'onScreen'>;
  readonly whole: PlotRange;
  /** The chosen one. */
  readonly curve: AlignedCurve | null;
}

/** The picture as it was drawn last. */
interface Drawn {
  readonly layout: PlotLayout;
  readonly thinned: ThinnedTrace | null;
}

export function OverlayPlot({ picture, whole, curve: first }: OverlayPlotProps) {
  const text = words.value.look;
  // The readings of an outline have other numbers: none is read out.
  const curve = first?.isOutline === true ? null : first;
  const drawn = useRef<Drawn | null>(null);
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

  const zoom = usePlotZoom({
    range: () => range.value,
    whole: () => whole,
    frame: () => {
      const frame = drawn.current?.layout.frame;
      if (frame === undefined) return null;
      const perMm = cssPxPerMm();
      return {
        left: frame.x * perMm,
        top: frame.y * perMm,
        width: frame.width * perMm,
        height: frame.height * perMm,
      };
    },
    show: (next) => (range.value = next),
  });
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
    let here = at < 0 ? -1 : readings.findIndex((reading) => reading >= at);
    if (at >= 0 && here < 0) here = readings.length - 1;
    return readings[walkedTo(here, steps, readings.length)] ?? -1;
  };
  const choose = (step: number): void => {
    const ids = laid.value.map(({ pullId }) => pullId).filter((id) => !hidden.value.has(id));
    const here = ids.indexOf(first?.pullId ?? -1);
    const next = ids[Math.min(Math.max(here + step, 0), ids.length - 1)];
    if (next === undefined || next === first?.pullId) return;
    chosen.value = next;
    cursor.value = -1;
  };
  const key = (event: KeyboardEvent): void => {
    if (!zoom.key(event) && !pressed(event)) return;
    event.preventDefault();
    event.stopPropagation();
  };
  const pressed = (event: KeyboardEvent): boolean => {
    const asked = cursorKey(event);
    if (asked === null) return false;
    // Up and Down go from curve to curve here.
    if (event.key === 'ArrowDown') choose(1);
    else if (event.key === 'ArrowUp') choose(-1);
    else if (asked.kind === 'walk') stand(walk(asked.steps));
    else if (asked.kind === 'away') {
      if (cursor.value < 0) return false;
      cursor.value = -1;
    } else {
      const reading = standing(curve, asked.on);
      if (reading !== undefined) stand(reading);
    }
    return true;
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
        onWheel={zoom.onWheel}
        onPointerDown={zoom.onPointerDown}
        onPointerMove={(event) => {
          if (!zoom.drag(event)) point(event);
        }}
        onPointerUp={(event) => {
          if (!zoom.letGo()) point(event);
        }}
        onDblClick={zoom.showAll}
      />
      <div class="actions">
        <ZoomActions zoom={zoom} />
        <span class="pencil small" id="overlay-still-read">
          {stillRead.value === 0 ? text.wheel : text.stillRead(String(stillRead.value))}
        </span>
      </div>
    </div>
  );
}

/** Where a key stands the cursor of a curve; nothing where it has no such place. */
function standing(
  curve: AlignedCurve | null,
  on: Extract<CursorKey, { kind: 'stand' }>['on'],
): number | undefined {
  if (curve === null) return undefined;
  switch (on) {
    case 'first':
      return curve.from;
    case 'last':
      return curve.length - 1;
    case 'peak':
      return curve.marks.maximumForce;
    case 'yield':
      return curve.marks.upperYield ?? curve.marks.proof;
    case 'break':
      return curve.marks.fracture;
  }
}

function cursorShapes(layout: PlotLayout, curve: AlignedCurve | null, reading: number): Shape[] {
  if (curve === null || reading < 0) return [];
  const { x, y } = curve.index.source;
  return cursorAt(layout, (x[reading] ?? Number.NaN) + curve.shift, y[reading] ?? Number.NaN);
}
