/** Graphics that fail (remote desktops, virtual machines): Chromium tries again by itself; we see to the next start. */
import { BrowserWindow, app } from 'electron';
import type { SettingsFile } from './settings.ts';
import type { WindowLog } from './window-log.ts';

/** Once may be a driver's hiccup; from the third time on the next start draws without the graphics card. */
const FAILURES_MAX = 2;

/** After a graphics process has gone, and its successor has had time to begin. */
const DRAWN_AGAIN_MS = [500, 2_000, 8_000] as const;

/** On a busy machine a page may stay blank whose last picture was in the hands of the process that has gone. */
function drawAgain(): void {
  for (const ms of DRAWN_AGAIN_MS)
    setTimeout(() => {
      for (const { webContents } of BrowserWindow.getAllWindows())
        if (!webContents.isDestroyed()) webContents.invalidate();
    }, ms).unref();
}

export function watchGraphics(settings: SettingsFile, log: WindowLog): void {
  let failures = 0;
  app.on('child-process-gone', (_event, { type, reason, exitCode }) => {
    if (reason === 'clean-exit') return;
    log.note(`${type} process gone: ${reason} (${exitCode})`);
    if (type !== 'GPU') return;
    drawAgain();
    if (reason === 'killed') return;
    failures++;
    if (failures <= FAILURES_MAX) return;
    settings.change({ softwareDrawing: true });
    log.note('drawing without the graphics card from the next start on');
  });
}
