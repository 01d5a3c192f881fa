/** The page of the window is loaded again when it dies or hangs. */
import { type BrowserWindow, dialog } from 'electron';
import { WINDOW_RELOAD_WINDOW_MS, WINDOW_RELOADS_MAX } from '../../core/limits.ts';
import { loadPage } from './app-window.ts';
import { RestartBudget } from './restart-budget.ts';
import type { WindowLog } from './window-log.ts';
import { shellWords } from './words/shell-words.ts';

/** A page that has died is loaded again, so many times; then a person is asked. Recording does not depend on it. */
export function keepPageAlive(window: BrowserWindow, log: WindowLog): void {
  const budget = new RestartBudget({ max: WINDOW_RELOADS_MAX, windowMs: WINDOW_RELOAD_WINDOW_MS });
  window.webContents.on('render-process-gone', (_event, { reason, exitCode }) => {
    log.note(`page gone: ${reason} (${exitCode})`);
    if (window.isDestroyed()) return;
    if (budget.spend(process.uptime() * 1000)) loadPage(window);
    else void askForAnotherLoad(window, budget);
  });
  // It may have died before anybody watched.
  if (window.webContents.isCrashed()) loadPage(window);
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
