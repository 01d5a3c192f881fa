/** How long a press waits in the page: from the moment the browser dates it to when the page takes it up, and to when its frame is made. */
import type { Page } from 'playwright';

export interface InputDelay {
  /** A key, or "press" for the mouse. */
  readonly what: string;
  readonly takenUpMs: number;
  /** The frame after it, with everything that the press changed, is handed over to be put on the screen. */
  readonly paintedMs: number;
}

/** The event's own moment is that at which the browser's process took the input, so waiting for a busy page counts. */
export async function watchInputs(page: Page): Promise<void> {
  await page.evaluate(() => {
    const seen: { what: string; takenUpMs: number; paintedMs: number }[] = [];
    const watch = (event: Event): void => {
      if (event instanceof KeyboardEvent && event.key === 'Control') return;
      const what = event instanceof KeyboardEvent ? event.key : 'press';
      const takenUpMs = performance.now() - event.timeStamp;
      requestAnimationFrame(() => {
        // A message is taken after the frame whose callbacks run now has been made.
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => {
          seen.push({ what, takenUpMs, paintedMs: performance.now() - event.timeStamp });
          port1.close();
        };
        port2.postMessage(null);
      });
    };
    // Before whoever handles it, who may keep it from others.
    addEventListener('keydown', watch, { capture: true });
    addEventListener('click', watch, { capture: true });
    Object.assign(globalThis, { benchInputs: seen });
  });
}

/** Those since the last time. */
export function takeInputs(page: Page): Promise<InputDelay[]> {
  return page.evaluate(() =>
    (
      globalThis as unknown as { benchInputs: { what: string; takenUpMs: number; paintedMs: number }[] }
    ).benchInputs.splice(0),
  );
}
