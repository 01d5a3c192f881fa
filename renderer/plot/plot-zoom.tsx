/** A plot zoomed and moved by wheel, drag, keys and buttons: one way for every plot that can be. */
import { useRef } from 'preact/hooks';
import type { TargetedPointerEvent, TargetedWheelEvent } from 'preact';
import type { PlotRange } from '../../core/drawing/plot-input.ts';
import { Button } from '../design/button.tsx';
import { words } from '../words/words.ts';
import { isScrolledFromElsewhere } from './wheel-owner.ts';
import { isAsWide, moved, zoomed } from './zoom.ts';

/** A notch of the wheel and a press of a key zoom by this. */
const ZOOM = 1.25;
const WHEEL_NOTCH = 100;
const MOVE_PART = 0.15;
/** A press that moves less than this is no drag. */
const DRAG_PX_MIN = 4;

const CTRL_MOVES: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** In CSS pixels from the corner of the plot's element. */
export interface FrameOnPage {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export interface Zoomable {
  /** Null: everything is shown. */
  readonly range: () => PlotRange | null;
  readonly whole: () => PlotRange;
  /** Null before the first drawing. */
  readonly frame: () => FrameOnPage | null;
  readonly show: (range: PlotRange | null) => void;
}

export interface PlotZoom {
  readonly zoomIn: () => void;
  readonly zoomOut: () => void;
  readonly showAll: () => void;
  /** True where the key was one of these. */
  readonly key: (event: KeyboardEvent) => boolean;
  readonly onWheel: (event: TargetedWheelEvent<HTMLElement>) => void;
  readonly onPointerDown: (event: TargetedPointerEvent<HTMLElement>) => void;
  /** True while the picture is dragged: nothing is read out then. */
  readonly drag: (event: TargetedPointerEvent<HTMLElement>) => boolean;
  /** True where a drag ends. */
  readonly letGo: () => boolean;
}

export function usePlotZoom({ range, whole, frame, show }: Zoomable): PlotZoom {
  const drag = useRef<{ x: number; y: number; from: PlotRange; far: boolean } | null>(null);
  const shown = (): PlotRange => range() ?? whole();
  const zoom = (by: number, x: number | null = 0.5, y: number | null = 0.5): void => {
    const next = zoomed(shown(), whole(), by, { x, y });
    show(by < 1 && isAsWide(next, whole()) ? null : next);
  };
  const showAll = (): void => show(null);
  return {
    zoomIn: () => zoom(ZOOM),
    zoomOut: () => zoom(1 / ZOOM),
    showAll,
    key: (event) => {
      if (event.altKey || event.metaKey) return false;
      if (event.ctrlKey) {
        const by = CTRL_MOVES[event.key];
        if (by !== undefined) show(moved(shown(), whole(), by[0] * MOVE_PART, by[1] * MOVE_PART));
        return by !== undefined;
      }
      if (event.key === '+' || event.key === '=') zoom(ZOOM);
      else if (event.key === '-') zoom(1 / ZOOM);
      else if (event.key === '0') showAll();
      else return false;
      return true;
    },
    onWheel: (event) => {
      const place = frame();
      // What scrolls the page goes on scrolling it; so does a turn that could only show more than everything.
      if (place === null || isScrolledFromElsewhere(event.currentTarget)) return;
      if (range() === null && event.deltaY > 0) return;
      event.preventDefault();
      const box = event.currentTarget.getBoundingClientRect();
      const part = (at: number, size: number): number => Math.min(1, Math.max(0, at / size));
      const x = part(event.clientX - box.left - place.left, place.width);
      const y = 1 - part(event.clientY - box.top - place.top, place.height);
      zoom(ZOOM ** (-event.deltaY / WHEEL_NOTCH), x, event.shiftKey ? null : y);
    },
    onPointerDown: (event) => {
      if (event.button !== 0) return;
      drag.current = { x: event.clientX, y: event.clientY, from: shown(), far: false };
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    drag: (event) => {
      // A finger that the page took for scrolling never comes up here.
      if (event.buttons === 0) drag.current = null;
      const begun = drag.current;
      const place = frame();
      if (begun === null || place === null) return false;
      const [dx, dy] = [event.clientX - begun.x, event.clientY - begun.y];
      begun.far ||= Math.hypot(dx, dy) >= DRAG_PX_MIN;
      if (begun.far) show(moved(begun.from, whole(), -dx / place.width, dy / place.height));
      return true;
    },
    letGo: () => {
      const wasDrag = drag.current?.far ?? false;
      drag.current = null;
      return wasDrag;
    },
  };
}

/** For those who have neither wheel nor keys at hand. */
export function ZoomActions({ zoom, named }: { readonly zoom: PlotZoom; readonly named?: string }) {
  const text = words.value.look;
  if (named !== undefined)
    // Of several plots, in a narrow place: the name says which one it is.
    return (
      <>
        <Button kind="compact" name={`${text.zoomIn}: ${named}`} onPress={zoom.zoomIn}>
          +
        </Button>
        <Button kind="compact" name={`${text.zoomOut}: ${named}`} onPress={zoom.zoomOut}>
          −
        </Button>
        <Button kind="compact" name={text.allOf(named)} onPress={zoom.showAll}>
          {text.all}
        </Button>
      </>
    );
  return (
    <>
      <Button kind="compact" onPress={zoom.zoomIn}>
        {text.zoomIn}
      </Button>
      <Button kind="compact" onPress={zoom.zoomOut}>
        {text.zoomOut}
      </Button>
      <Button kind="compact" onPress={zoom.showAll}>
        {text.showAll}
      </Button>
    </>
  );
}
