/** Graphics that fail (remote desktops, virtual machines): Chromium tries again by itself; we see to the next start. */
import { app } from 'electron';
import type { SettingsFile } from './settings.ts';
import type { WindowLog } from './window-log.ts';

/** Once may be a driver's hiccup; from the third time on the next start draws without the graphics card. */
const FAILURES_MAX = 2;

export function watchGraphics(settings: SettingsFile, log: WindowLog): void {
  let failures = 0;
  app.on('child-process-gone', (_event, { type, reason, exitCode }) => {
    if (reason === 'clean-exit') return;
    log.note(`${type} process gone: ${reason} (${exitCode})`);
    if (type !== 'GPU' || reason === 'killed') return;
    failures++;
    if (failures <= FAILURES_MAX) return;
    settings.change({ softwareDrawing: true });
    log.note('drawing without the graphics card from the next start on');
  });
}
