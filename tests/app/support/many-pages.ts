/** A page that the real engine takes its time to print, to be stopped in the midst of it. */
import type { GaugemarkWindow } from './gaugemark-window.ts';

/** What takes the engine seconds: it is stopped within a moment. */
const MANY_PAGES = 600;
const PAGE_PX = 1_000;

/** Makes the next page that is printed as long as that. The engine prints it as it prints any. */
export async function printsManyPages(window: GaugemarkWindow): Promise<void> {
  await window.app.evaluate(({ app }, px) => {
    const its: { page: string | null; bytes: number | null } = { page: null, bytes: null };
    Object.assign(globalThis, { printing: its });
    app.once('web-contents-created', (_event, contents) => {
      const print = contents.printToPDF.bind(contents);
      contents.printToPDF = async (options) => {
        await contents.insertCSS(`body::after { content: ''; display: block; height: ${String(px)}px; }`);
        its.page = contents.getURL();
        const pdf = await print(options);
        its.bytes = pdf.length;
        return pdf;
      };
    });
  }, MANY_PAGES * PAGE_PX);
}
export const printing = (window: GaugemarkWindow): Promise<{ page: string | null; bytes: number | null }> =>
  window.app.evaluate(
    () => (globalThis as unknown as { printing: { page: string | null; bytes: number | null } }).printing,
  );
