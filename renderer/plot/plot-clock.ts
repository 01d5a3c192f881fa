/** One clock for all plots of the page: whatever is due is drawn together, once a frame. */
import { FrameClock } from './frame-clock.ts';

type Draw = () => void;

const due = new Set<Draw>();
const clock = new FrameClock(() => {
  const now = [...due];
  due.clear();
  for (const draw of now) draw();
});

/** Draws this at the next frame that is due; asking twice before then draws once. */
export function drawSoon(draw: Draw): void {
  due.add(draw);
  clock.wake();
}

export function drawNoMore(draw: Draw): void {
  due.delete(draw);
}
