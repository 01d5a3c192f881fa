/** What the page's longest frames were made of, as the engine itself tells of every frame over 50 ms. */
import type { Page } from 'playwright';
import { short } from './statistics.ts';

export interface LongFrame {
  /** When it began, ms of the page's clock, and how long it took. */
  readonly atMs: number;
  readonly ms: number;
  /** From the beginning to its callbacks, and from them to styles and layout. */
  readonly untilCallbacksMs: number;
  readonly untilLayoutMs: number;
  /** Scripts over 5 ms in the order they ran: who called them, and their time. */
  readonly scripts: readonly { readonly by: string; readonly ms: number; readonly layoutMs: number }[];
}

/** Begins to note them; of more than this many the engine's own list keeps the first. */
export async function watchLongFrames(page: Page): Promise<void> {
  await page.evaluate(() => {
    interface Told extends PerformanceEntry {
      readonly renderStart: number;
      readonly styleAndLayoutStart: number;
      readonly scripts: readonly (PerformanceEntry & {
        readonly invoker: string;
        readonly sourceFunctionName: string;
        readonly forcedStyleAndLayoutDuration: number;
      })[];
    }
    const seen: unknown[] = [];
    new PerformanceObserver((list) => {
      for (const told of list.getEntries() as Told[])
        seen.push({
          atMs: told.startTime,
          ms: told.duration,
          untilCallbacksMs: told.renderStart - told.startTime,
          untilLayoutMs: told.styleAndLayoutStart - told.startTime,
          scripts: told.scripts.map((script) => ({
            by: `${script.invoker} ${script.sourceFunctionName}`.trim(),
            ms: script.duration,
            layoutMs: script.forcedStyleAndLayoutDuration,
          })),
        });
    }).observe({ type: 'long-animation-frame', buffered: false });
    Object.assign(globalThis, { benchLongFrames: seen });
  });
}

/** The longest since the last time, longest first. */
export async function takeLongFrames(page: Page, most: number): Promise<LongFrame[]> {
  const seen = await page.evaluate(() =>
    (globalThis as unknown as { benchLongFrames: LongFrame[] }).benchLongFrames.splice(0),
  );
  return seen.sort((a, b) => b.ms - a.ms).slice(0, most);
}

/** "96 ms: callbacks after 3, layout after 80; FrameRequestCallback 60 (layout 2)". */
export const longFrameText = (frame: LongFrame): string =>
  `${short(frame.ms)} ms at ${short(frame.atMs / 1000)} s: callbacks after ${short(frame.untilCallbacksMs)}, layout after ${short(frame.untilLayoutMs)}${frame.scripts
    .map(
      ({ by, ms, layoutMs }) => `; ${by} ${short(ms)}${layoutMs > 1 ? ` (layout ${short(layoutMs)})` : ''}`,
    )
    .join('')}`;
