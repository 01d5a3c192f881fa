/** Nobody let in: what a page could ask of Electron beyond showing our own files is refused for every page there is. */
import { app, type Session, session, type WebContents } from 'electron';
import type { AskedPermission } from './camera/camera-permission.ts';
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

const NOTHING = (): boolean => false;

/** Whether `contents` may have what it asks for; without it nothing is granted to anybody. */
export type Grant = (contents: WebContents | null, asked: Omit<AskedPermission, 'bySheet'>) => boolean;

export function lockSession(pages: Session, log: WindowLog, grant: Grant = NOTHING): void {
  pages.setPermissionRequestHandler((contents, permission, answer, details) => {
    const mediaTypes = 'mediaTypes' in details ? (details.mediaTypes ?? []) : [];
    const { requestingUrl: address, isMainFrame: isTopFrame } = details;
    const given = grant(contents, { permission, mediaTypes, address, isTopFrame });
    log.note(`${given ? 'granted' : 'refused'}: permission ${[permission, ...mediaTypes].join(' ')}`);
    answer(given);
  });
  pages.setPermissionCheckHandler((contents, permission, _origin, details) => {
    const { mediaType, requestingUrl: address = '', isMainFrame: isTopFrame } = details;
    return grant(contents, {
      permission,
      mediaTypes: mediaType === undefined ? [] : [mediaType],
      address,
      isTopFrame,
    });
  });
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
