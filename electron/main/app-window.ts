/** The window: sandboxed page, remembered place, always reachable. */
import { BrowserWindow, screen } from 'electron';
import { join } from 'node:path';
import type { Ground } from './frame-theme.ts';
import { PAGE_ADDRESS } from './page-address.ts';
import type { SettingsFile } from './settings.ts';
import { placeWindow, type Rectangle, WINDOW_SIZE_MIN } from './window-place.ts';

/** The sheets of the page's grounds: the window is shown at once, and its ground is right before the first paint. */
const GROUND: Readonly<Record<Ground, string>> = { light: '#f1f3ef', dark: '#16191c', contrast: '#000000' };

export interface AppWindowOptions {
  readonly buildFolder: string;
  readonly settings: SettingsFile;
  readonly ground: Ground;
}

export function openAppWindow({ buildFolder, settings, ground }: AppWindowOptions): BrowserWindow {
  const window = new BrowserWindow({
    ...placeWindow(settings.now.place, workAreas()),
    minWidth: WINDOW_SIZE_MIN.width,
    minHeight: WINDOW_SIZE_MIN.height,
    title: 'Gaugemark',
    backgroundColor: GROUND[ground],
    webPreferences: {
      preload: join(buildFolder, 'preload.cjs'),
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
      navigateOnDragDrop: false,
      spellcheck: false,
      devTools: false,
    },
  });
  if (settings.now.maximized) window.maximize();
  window.on('page-title-updated', (event) => event.preventDefault());
  rememberPlace(window, settings);
  stayReachable(window);
  return window;
}

export function loadPage(window: BrowserWindow): void {
  // A failure shows as render-process-gone or in the log of refused requests; there is nothing else to do about it.
  window.loadURL(PAGE_ADDRESS).catch(() => undefined);
}

const workAreas = (): Rectangle[] =>
  [screen.getPrimaryDisplay(), ...screen.getAllDisplays()].map((display) => display.workArea);

function rememberPlace(window: BrowserWindow, settings: SettingsFile): void {
  const remember = (): void => {
    settings.change({ place: window.getNormalBounds(), maximized: window.isMaximized() });
  };
  window.on('resized', remember);
  window.on('moved', remember);
  window.on('maximize', remember);
  window.on('unmaximize', remember);
  window.on('close', remember);
}

/** A display that goes, or changes its size, must not take the window with it. */
function stayReachable(window: BrowserWindow): void {
  const look = (): void => {
    if (window.isDestroyed() || window.isMaximized() || window.isFullScreen()) return;
    const now = window.getBounds();
    const place = placeWindow(now, workAreas());
    if (place.x !== now.x || place.y !== now.y) window.setBounds(place);
  };
  screen.on('display-removed', look);
  screen.on('display-metrics-changed', look);
  window.once('closed', () => {
    screen.off('display-removed', look);
    screen.off('display-metrics-changed', look);
  });
}
