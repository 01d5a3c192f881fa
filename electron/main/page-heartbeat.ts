/** Notices a page that loops or is frozen: the process is there, but nothing that is sent is taken any more. */
import type { WebContents } from 'electron';
import { CHANNELS } from './channels.ts';
import { isPageAddress } from './page-address.ts';
import type { WindowLog } from './window-log.ts';

const PING_MS = 5_000;
/** Asked three times and not answered: counted in questions, so that a computer that slept is not a page that hangs. */
const MISSED_MAX = 3;

export interface PageHeartbeat {
  /** The page has answered. */
  readonly heard: () => void;
  readonly end: () => void;
}

/** A page that hangs is ended, which makes it load again. Questions begin when a page is there and end with it. */
export function watchPage(contents: WebContents, log: WindowLog): PageHeartbeat {
  let missed = 0;
  // It may have come before anybody asked.
  let isThere = isPageAddress(contents.mainFrame.url);
  contents.on('did-navigate', () => {
    isThere = true;
    missed = 0;
  });
  contents.on('render-process-gone', () => {
    isThere = false;
  });
  const timer = setInterval(() => {
    if (!isThere || contents.isDestroyed()) return;
    if (missed >= MISSED_MAX) {
      log.note('page does not answer and is ended');
      isThere = false;
      contents.forcefullyCrashRenderer();
      return;
    }
    missed++;
    contents.send(CHANNELS.ping);
  }, PING_MS);
  return {
    heard: () => {
      missed = 0;
    },
    end: () => clearInterval(timer),
  };
}
