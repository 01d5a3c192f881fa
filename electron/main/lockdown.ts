/** Nobody let in: what a page could ask of Electron beyond showing our own files is refused for every page there is. */
import { app, type Session, session, type WebContents } from 'electron';
import { isPageAddress } from './page-address.ts';
import type { WindowLog } from './window-log.ts';

/** Call before the application is ready. */
export function lockDown(log: WindowLog): void {
  app.on('web-contents-created', (_event, contents) => lockContents(contents, log));
  void app.whenReady().then(() => lockSession(session.defaultSession, log));
}

function lockContents(contents: WebContents, log: WindowLog): void {
  const refuse = (what: string) => (event: { preventDefault: () => void; url?: string }) => {
    event.preventDefault();
    log.note(`refused: ${what} ${event.url?.slice(0, 200) ?? ''}`);
  };
  contents.on('will-navigate', refuse('navigation'));
  contents.on('will-frame-navigate', refuse('navigation of a frame'));
  contents.on('will-redirect', refuse('redirection'));
  contents.on('will-attach-webview', refuse('a page within the page'));
  contents.on('select-bluetooth-device', refuse('a bluetooth device'));
  contents.setWindowOpenHandler(({ url }) => {
    log.note(`refused: a new window ${url.slice(0, 200)}`);
    return { action: 'deny' };
  });
}

function lockSession(pages: Session, log: WindowLog): void {
  pages.setPermissionRequestHandler((_contents, permission, answer) => {
    log.note(`refused: permission ${permission}`);
    answer(false);
  });
  pages.setPermissionCheckHandler(() => false);
  pages.setDevicePermissionHandler(() => false);
  pages.on('will-download', (event, item) => {
    event.preventDefault();
    log.note(`refused: download of ${item.getFilename().slice(0, 200)}`);
  });
  // No remote content: only our own scheme, and what the page makes in memory itself.
  pages.webRequest.onBeforeRequest(({ url }, answer) => {
    const ours = isPageAddress(url) || url.startsWith('data:') || url.startsWith('blob:');
    if (!ours) log.note(`refused: request for ${url.slice(0, 200)}`);
    answer({ cancel: !ours });
  });
  pages.setSpellCheckerEnabled(false);
}
