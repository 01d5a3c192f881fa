/**
 * A picture of points that is gone through one by one: a cursor by arrow keys and pointer, its point read out above the
 * picture, and for those who can't see it a slider whose value is spoken.
 */
import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import { type PlotLayout, curvePlot, plotLayout } from '../../core/drawing/curve-plot.ts';
import type { Drawing } from '../../core/drawing/drawing.ts';
import type { CurvePlotInput } from '../../core/drawing/plot-input.ts';
import { cursorAt } from './cursor-shapes.ts';
import { DrawingCanvas, cssPxPerMm } from './drawing-canvas.tsx';
import { type CursorKey, cursorKey, walkedTo } from './plot-keys.ts';
import './walked-plot.css';

/** In the units of the axes; `key` tells the point apart from others for as long as it is there. */
export interface WalkedPlace {
  readonly key: number;
  readonly x: number;
  readonly y: number;
}

export interface WalkedPlotProps {
  readonly id: string;
  readonly name: string;
  readonly canvasClass: string;
  readonly keysHint: string;
  /** Called once for each drawing; null leaves the paper bare. */
  readonly plot: (widthMm: number, heightMm: number) => CurvePlotInput | null;
  /** Whatever makes another picture. */
  readonly changes: readonly unknown[];
  /** Points of the picture in the order in which they are walked through. */
  readonly places: readonly WalkedPlace[];
  /** Blank where there is no such point any more. */
  readonly said: (key: number) => string;
  /** What Enter and two clicks do with the point that is read out. */
  readonly onEnter?: (key: number) => void;
  /** The point that P stands on. */
  readonly peak?: () => number | undefined;
  /** Beside what is read out. */
  readonly children?: ComponentChildren;
}

interface Drawn {
  readonly of: readonly unknown[];
  readonly layout: PlotLayout;
  readonly drawing: Drawing;
}

const isSame = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((one, i) => Object.is(one, b[i]));

export function WalkedPlot({
  id,
  name,
  canvasClass,
  keysHint,
  plot,
  changes,
  places,
  said,
  onEnter,
  peak,
  children,
}: WalkedPlotProps) {
  const cursor = useSignal<number | null>(null);
  /** The picture as it was drawn last, without the cursor: that alone moves while one walks. */
  const drawn = useRef<Drawn | null>(null);
  const spoken = cursor.value === null ? '' : said(cursor.value);
  /** Of a point that is no longer there nothing is left. */
  const here = spoken === '' ? null : cursor.value;
  const at = places.findIndex(({ key }) => key === here);

  const stand = (place: WalkedPlace | undefined): void => {
    if (place !== undefined) cursor.value = place.key;
  };
  const standOn = (on: Extract<CursorKey, { kind: 'stand' }>['on']): boolean => {
    if (on === 'first') stand(places[0]);
    else if (on === 'last') stand(places.at(-1));
    else if (on === 'peak' && peak !== undefined) stand(places.find(({ key }) => key === peak()));
    else return false;
    return true;
  };
  const pressed = (event: KeyboardEvent): boolean => {
    const asked = cursorKey(event);
    switch (asked?.kind) {
      case 'walk':
        stand(places[walkedTo(at, asked.steps, places.length)]);
        return true;
      case 'stand':
        return standOn(asked.on);
      case 'away':
        if (here === null) return false;
        cursor.value = null;
        return true;
      case undefined:
        if (event.key !== 'Enter' || event.ctrlKey || here === null || onEnter === undefined) return false;
        onEnter(here);
        return true;
    }
  };
  const point = (event: { clientX: number; clientY: number; currentTarget: HTMLElement }): void => {
    if (drawn.current === null) return;
    const { area } = drawn.current.layout;
    const box = event.currentTarget.getBoundingClientRect();
    const perMm = cssPxPerMm();
    const [x, y] = [(event.clientX - box.left) / perMm, (event.clientY - box.top) / perMm];
    let best: WalkedPlace | undefined;
    let least = Infinity;
    for (const place of places) {
      const away = Math.hypot(area.atX(place.x) - x, area.atY(place.y) - y);
      if (away < least) [best, least] = [place, away];
    }
    stand(best);
  };
  return (
    <div class="walked-plot">
      <div class="walked-plot-head">
        <output aria-live="off" id={`${id}-read-out`}>
          {spoken}
        </output>
        {children}
      </div>
      <DrawingCanvas
        class={canvasClass}
        id={id}
        role="slider"
        tabIndex={0}
        aria-label={name}
        aria-valuemin={0}
        aria-valuemax={Math.max(places.length - 1, 0)}
        aria-valuenow={Math.max(at, 0)}
        aria-valuetext={spoken === '' ? keysHint : spoken}
        changes={[...changes, here]}
        onKeyDown={(event) => {
          if (!pressed(event)) return;
          event.preventDefault();
          event.stopPropagation();
        }}
        onPointerMove={point}
        onPointerUp={point}
        onDblClick={() => {
          if (here !== null) onEnter?.(here);
        }}
        drawing={(widthMm, heightMm) => {
          const of = [widthMm, heightMm, ...changes];
          if (drawn.current === null || !isSame(drawn.current.of, of)) {
            const input = plot(widthMm, heightMm);
            drawn.current = null;
            if (input === null) return null;
            const layout = plotLayout(input);
            drawn.current = { of, layout, drawing: curvePlot(input, layout) };
          }
          const { layout, drawing } = drawn.current;
          const place = places.find(({ key }) => key === here);
          return place === undefined
            ? drawing
            : { ...drawing, shapes: [...drawing.shapes, ...cursorAt(layout, place.x, place.y)] };
        }}
      />
    </div>
  );
}
