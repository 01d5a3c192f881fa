/** A plot is drawn on canvases side by side: here they are one. */
import type { ElementHandle, Locator } from 'playwright';

export interface WholePicture {
  readonly canvas: ElementHandle<HTMLCanvasElement>;
  /** Where it stands on the page, in CSS pixels. */
  readonly box: {
    readonly left: number;
    readonly top: number;
    readonly width: number;
    readonly height: number;
  };
}

/** As it is two frames on, so that what was called for is drawn. */
export async function wholePicture(plot: Locator): Promise<WholePicture> {
  const canvas = await plot.evaluateHandle(async (host) => {
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    const panes = host instanceof HTMLCanvasElement ? [host] : [...host.querySelectorAll('canvas')];
    const whole = document.createElement('canvas');
    whole.width = panes.reduce((sum, { width }) => sum + width, 0);
    whole.height = panes[0]?.height ?? 0;
    if (whole.width === 0 || whole.height === 0) throw new Error('there is no picture');
    let left = 0;
    for (const pane of panes) {
      whole.getContext('2d')?.drawImage(pane, left, 0);
      left += pane.width;
    }
    const boxes = panes.map((pane) => pane.getBoundingClientRect());
    const [first, last] = [boxes[0], boxes.at(-1)];
    whole.dataset['box'] = JSON.stringify({
      left: first?.left,
      top: first?.top,
      width: (last?.right ?? 0) - (first?.left ?? 0),
      height: first?.height,
    });
    return whole;
  });
  const box = await canvas.evaluate((whole) => JSON.parse(whole.dataset['box'] ?? '') as WholePicture['box']);
  return { canvas, box };
}
