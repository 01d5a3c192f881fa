/** What the main process hands over to its page, counted where it is handed over. */
import { CHANNELS } from '../../../electron/main/channels.ts';
import type { GaugemarkWindow } from './gaugemark-window.ts';

type Counts = Readonly<Record<string, number>>;

/** Counts from now on; what it gives tells how many events of each name have gone since. */
export async function countSentToPage(window: GaugemarkWindow): Promise<() => Promise<Counts>> {
  await window.app.evaluate(({ BrowserWindow }, channel) => {
    const contents = BrowserWindow.getAllWindows()[0]?.webContents;
    if (contents === undefined) throw new Error('There is no window.');
    const counts: Record<string, number> = {};
    (globalThis as unknown as { sentToPage: Counts }).sentToPage = counts;
    const send = contents.send.bind(contents);
    contents.send = (on: string, ...given: unknown[]): void => {
      if (on === channel) counts[String(given[1])] = (counts[String(given[1])] ?? 0) + 1;
      send(on, ...given);
    };
  }, CHANNELS.event);
  return () => window.app.evaluate(() => (globalThis as unknown as { sentToPage: Counts }).sentToPage);
}
