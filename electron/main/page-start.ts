/**
 * Between a page that is there already and a program that is still being read: what the page says waits, in its order, for
 * the relay that checks who says it and what. The program is read once the page's first picture is on the screen: both would
 * otherwise wait for this process's one thread.
 */
import { ipcMain, type IpcMainEvent, type IpcMainInvokeEvent, type WebContents } from 'electron';
import { CHANNELS } from './channels.ts';

/** A page that has shown nothing by then has a trouble of its own, of which the rest of the program must hear. */
const SHOWN_MS_MAX = 2_000;

/** What becomes of each message of the page; who sends it is checked in every one. */
export interface PageRelay {
  readonly request: (event: IpcMainInvokeEvent, name: unknown, payload: unknown) => Promise<unknown>;
  readonly taken: (event: IpcMainEvent, number: unknown) => void;
  readonly listens: (event: IpcMainEvent, name: unknown) => void;
  readonly pong: (event: IpcMainEvent) => void;
}

/** Hears the page from now on, and hands over what it says once the relay is there. */
export function hearPage(relay: Promise<PageRelay>): void {
  ipcMain.handle(CHANNELS.request, async (event, name: unknown, payload: unknown) =>
    (await relay).request(event, name, payload),
  );
  ipcMain.on(CHANNELS.taken, (event, number: unknown) => void relay.then((its) => its.taken(event, number)));
  ipcMain.on(CHANNELS.listens, (event, name: unknown) => void relay.then((its) => its.listens(event, name)));
  ipcMain.on(CHANNELS.pong, (event) => void relay.then((its) => its.pong(event)));
}

/** Settles when the page's first picture is on the screen, when it is gone, or is late. */
export function firstPicture(page: WebContents): Promise<void> {
  return new Promise((shown) => {
    const limit = setTimeout(shown, SHOWN_MS_MAX);
    const done = (): void => {
      clearTimeout(limit);
      shown();
    };
    page.ipc.once(CHANNELS.shown, done);
    page.once('render-process-gone', done);
    page.once('destroyed', done);
  });
}
