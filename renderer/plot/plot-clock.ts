/** One clock for all plots of the page: whatever is due is drawn together, once a frame. */
import { FrameClock } from './frame-clock.ts';

type Draw = () => void;

/** What is due, with what makes it longer until then. */
const due = new Map<Draw, Draw | null>();
const clock = new FrameClock(
  () => {
    const now = [...due.keys()];
    due.clear();
    for (const draw of now) draw();
  },
  () => {
    for (const lengthen of due.values()) lengthen?.();
  },
);

/** Draws this at the next frame that is due, asking twice before then draws once; `lengthen` in frames that come sooner. */
export function drawSoon(draw: Draw, lengthen: Draw | null = null): void {
  due.set(draw, lengthen ?? due.get(draw) ?? null);
  clock.wake();
}

export function drawNoMore(draw: Draw): void {
  due.delete(draw);
}
