/** The window: sandboxed page, remembered place, reload by itself when its page dies or hangs. */
import { BrowserWindow, dialog, screen } from 'electron';
import { join } from 'node:path';
import { WINDOW_RELOAD_WINDOW_MS, WINDOW_RELOADS_MAX } from '../../core/limits.ts';
import { PAGE_ADDRESS } from './page-address.ts';
import { RestartBudget } from './restart-budget.ts';
import type { SettingsFile } from './settings.ts';
import type { WindowLog } from './window-log.ts';
import { shellWords } from './words/shell-words.ts';
import { placeWindow, type Rectangle, WINDOW_SIZE_MIN } from './window-place.ts';

/** The sheets of the page's grounds: the window is shown at once, and its ground is right before the first paint. */
const GROUND = { light: '#f1f3ef', dark: '#16191c', contrast: '#000000' } as const;

export interface AppWindowOptions {
  readonly buildFolder: string;
  readonly settings: SettingsFile;
  readonly log: WindowLog;
  readonly ground: keyof typeof GROUND;
  /** The page is being loaded, for the first time or again. */
  readonly onPageBegins: () => void;
}

export function openAppWindow({
  buildFolder,
  settings,
  log,
  ground,
  onPageBegins,
}: AppWindowOptions): BrowserWindow {
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
  window.webContents.on('did-start-loading', onPageBegins);
  rememberPlace(window, settings);
  stayReachable(window);
  keepPageAlive(window, log);
  return window;
}

/** Call when everything that the page may ask for is there. */
export function loadPage(window: BrowserWindow): void {
  // A failure shows as render-process-gone or in the log of refused requests; there is nothing else to do about it.
  window.loadURL(PAGE_ADDRESS).catch(() => undefined);
}

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

const workAreas = (): Rectangle[] =>
  [screen.getPrimaryDisplay(), ...screen.getAllDisplays()].map((display) => display.workArea);

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

/** A page that has died is loaded again, so many times; then a person is asked. Recording does not depend on it. */
function keepPageAlive(window: BrowserWindow, log: WindowLog): void {
  const budget = new RestartBudget({ max: WINDOW_RELOADS_MAX, windowMs: WINDOW_RELOAD_WINDOW_MS });
  window.webContents.on('render-process-gone', (_event, { reason, exitCode }) => {
    log.note(`page gone: ${reason} (${exitCode})`);
    if (window.isDestroyed()) return;
    if (budget.spend(process.uptime() * 1000)) loadPage(window);
    else void askForAnotherLoad(window, budget);
  });
}

async function askForAnotherLoad(window: BrowserWindow, budget: RestartBudget): Promise<void> {
  const { message, detail, buttons } = shellWords().pageGone;
  const { response } = await dialog.showMessageBox(window, {
    type: 'warning',
    title: 'Gaugemark',
    message: message(WINDOW_RELOADS_MAX),
    detail,
    buttons: [...buttons],
    defaultId: 0,
    cancelId: 0,
    noLink: true,
  });
  if (window.isDestroyed()) return;
  if (response === 1) {
    window.destroy();
    return;
  }
  budget.refill();
  loadPage(window);
}
