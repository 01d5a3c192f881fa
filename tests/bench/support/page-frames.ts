/** Times from frame to frame in the page, and how often its plots were drawn meanwhile. */
import type { Page } from 'playwright';

export interface Frames {
  /** Milliseconds from one frame to the next. */
  readonly frames: number[];
  readonly draws: number;
}

export async function framesDuring(page: Page, work: () => Promise<void>): Promise<Frames> {
  await page.evaluate(() => {
    const state = { frames: [] as number[], draws: 0, running: true };
    const count = (event: Event): void => {
      if ((event as CustomEvent<{ isWhole: boolean }>).detail.isWhole) state.draws++;
    };
    document.addEventListener('curve-drawn', count);
    let last = performance.now();
    const onFrame = (): void => {
      const now = performance.now();
      state.frames.push(now - last);
      last = now;
      if (state.running) requestAnimationFrame(onFrame);
      else document.removeEventListener('curve-drawn', count);
    };
    requestAnimationFrame(onFrame);
    Object.assign(globalThis, { benchFrames: state });
  });
  await work();
  return page.evaluate(() => {
    const { benchFrames } = globalThis as unknown as {
      benchFrames: { frames: number[]; draws: number; running: boolean };
    };
    benchFrames.running = false;
    // The first one began before there was anything to be seen.
    return { frames: benchFrames.frames.slice(1), draws: benchFrames.draws };
  });
}
