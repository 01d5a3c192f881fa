/** What is drawn into a place of the page, drawn again whenever the place has another size or other pixels. */
import { onPixelDensity } from './pixel-density.ts';
import { drawNoMore, drawSoon } from './plot-clock.ts';

/** Hands back what ends it; nothing that is due then is drawn any more. */
export function redrawnWithPlace(place: Element, draw: () => void): () => void {
  const observer = new ResizeObserver(() => drawSoon(draw));
  observer.observe(place);
  const endDensity = onPixelDensity(() => drawSoon(draw));
  // Fonts that arrive late would leave the axes in another face.
  void document.fonts.ready.then(() => drawSoon(draw));
  return () => {
    observer.disconnect();
    endDensity();
    drawNoMore(draw);
  };
}
