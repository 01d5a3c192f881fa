/**
 * The sheet on which the camera's picture is shown: a window of its own over the program's, in a session of its own that
 * is kept nowhere. The picture of the camera is granted to it alone and ends with it, so that whatever runs in the
 * program's page never has a camera.
 */
import { BrowserWindow, session } from 'electron';
import { join } from 'node:path';
import {
  type CameraFailure,
  type CameraLooks,
  cameraMessage,
} from '../../../core/contract/camera-messages.ts';
import { CAMERA_OPEN_MS_MAX, CAMERA_START_MS_MAX } from '../../../core/limits.ts';
import { CHANNELS } from '../channels.ts';
import { lockSession } from '../lockdown.ts';
import { CAMERA_ADDRESS, PAGE_SCHEME } from '../page-address.ts';
import { servePageFiles } from '../page-files.ts';
import { answerPageScheme } from '../page-scheme.ts';
import type { WindowLog } from '../window-log.ts';
import { addressWithoutQuery, isCameraPicture } from './camera-permission.ts';

/** What became of it; `late`: it gave no picture, or stayed open, for longer than it may. */
export type CameraOutcome =
  | { readonly what: 'taken'; readonly bytes: Uint8Array }
  | { readonly what: 'closed' }
  | { readonly what: 'late'; readonly shown: boolean }
  | { readonly what: 'failed'; readonly why: CameraFailure; readonly detail: string };

export interface CameraSheetMeans {
  readonly over: BrowserWindow;
  readonly buildFolder: string;
  readonly looks: CameraLooks;
  readonly log: WindowLog;
}

const SHEET_PX = { width: 960, height: 760 } as const;
/** Without "persist:" it lives in memory. */
const PARTITION = 'camera';

/** Settles once, whatever happens; the sheet and its camera are gone by then. */
export async function showCameraSheet(means: CameraSheetMeans): Promise<CameraOutcome> {
  const { over, buildFolder, log } = means;
  const sheets = session.fromPartition(PARTITION);
  if (!sheets.protocol.isProtocolHandled(PAGE_SCHEME))
    answerPageScheme(sheets.protocol, servePageFiles(join(buildFolder, 'renderer')));
  const sheet = new BrowserWindow({
    ...SHEET_PX,
    parent: over,
    modal: true,
    show: false,
    minimizable: false,
    title: 'Gaugemark',
    webPreferences: {
      session: sheets,
      preload: join(buildFolder, 'camera-preload.cjs'),
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
      navigateOnDragDrop: false,
      spellcheck: false,
      devTools: false,
    },
  });
  sheet.setMenu(null);
  sheet.on('page-title-updated', (event) => event.preventDefault());
  const its = sheet.webContents;
  lockSession(sheets, log, (contents, asked) => isCameraPicture({ ...asked, bySheet: contents === its }));
  try {
    return await outcomeOf(sheet, means);
  } finally {
    lockSession(sheets, log);
    if (!sheet.isDestroyed()) sheet.destroy();
    if (!over.isDestroyed()) over.focus();
  }
}

function outcomeOf(sheet: BrowserWindow, { over, looks, log }: CameraSheetMeans): Promise<CameraOutcome> {
  const its = sheet.webContents;
  return new Promise((settle) => {
    let shown = false;
    const leave = (): void => done({ what: 'closed' });
    const late = (): void => done({ what: 'late', shown });
    const start = setTimeout(late, CAMERA_START_MS_MAX);
    const open = setTimeout(late, CAMERA_OPEN_MS_MAX);
    const done = (outcome: CameraOutcome): void => {
      clearTimeout(start);
      clearTimeout(open);
      if (!over.isDestroyed()) over.webContents.off('did-start-loading', leave);
      settle(outcome);
    };
    its.ipc.on(CHANNELS.camera, (event, message: unknown) => {
      const frame = event.senderFrame;
      if (frame === null || frame !== its.mainFrame || addressWithoutQuery(frame.url) !== CAMERA_ADDRESS)
        return;
      const said = cameraMessage.safeParse(message);
      if (!said.success) {
        log.note(`refused: a message of the camera's sheet (${said.error.message})`);
        return;
      }
      if (said.data.what !== 'shown') {
        done(said.data);
        return;
      }
      shown = true;
      clearTimeout(start);
      sheet.show();
    });
    its.once('render-process-gone', (_event, { reason }) => {
      log.note(`camera's sheet gone: ${reason}`);
      done({ what: 'failed', why: 'other', detail: reason });
    });
    sheet.once('closed', leave);
    // Whoever asked is there no more.
    over.webContents.once('did-start-loading', leave);
    sheet.loadURL(`${CAMERA_ADDRESS}?${new URLSearchParams(looks).toString()}`).catch((error: unknown) => {
      done({ what: 'failed', why: 'other', detail: error instanceof Error ? error.message : String(error) });
    });
  });
}
