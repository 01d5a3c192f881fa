/** A small Electron program with one page: a place for drawing without the rest, and the floor for starting. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { type ElectronApplication, type Page, _electron } from 'playwright';
import { isRoot, projectFolder } from '../../../electron/setup/places.mjs';

const MAIN = `'use strict';
const { app, BrowserWindow } = require('electron');
const { join } = require('node:path');
void app.whenReady().then(() => {
  const window = new BrowserWindow({ width: 1280, height: 860, show: false, webPreferences: { sandbox: true, contextIsolation: true } });
  window.once('ready-to-show', () => window.show());
  void window.loadFile(join(__dirname, 'index.html'));
});
app.on('window-all-closed', () => app.quit());
`;

/** Writes the program; gives its folder. `script` is bundled into the page. */
export async function writeSmallPage(folder: string, script: string | null): Promise<string> {
  const place = join(folder, 'small-page');
  mkdirSync(place, { recursive: true });
  writeFileSync(
    join(place, 'package.json'),
    '{ "name": "small-page", "version": "1.0.0", "main": "main.cjs" }\n',
  );
  writeFileSync(join(place, 'main.cjs'), MAIN);
  writeFileSync(
    join(place, 'index.html'),
    `<!doctype html><html lang="en"><meta charset="utf-8"><title>small page</title>${
      script === null ? '' : '<link rel="stylesheet" href="page.css"><script defer src="page.js"></script>'
    }<body><p>A small page.</p></body></html>\n`,
  );
  if (script !== null)
    await build({
      entryPoints: { page: script },
      outdir: place,
      absWorkingDir: projectFolder,
      bundle: true,
      minify: true,
      format: 'iife',
      platform: 'browser',
      target: 'chrome130',
      logLevel: 'warning',
      define: { 'process.env.NODE_ENV': '"production"' },
    });
  return place;
}

export async function openSmallPage(
  place: string,
  settings: string,
): Promise<{ readonly app: ElectronApplication; readonly page: Page }> {
  const app = await _electron.launch({
    executablePath: electronPath(),
    chromiumSandbox: !isRoot,
    args: [`--user-data-dir=${settings}`, place],
    env: process.env as Record<string, string>,
  });
  const page = await app.firstWindow();
  await page.waitForLoadState('domcontentloaded');
  return { app, page };
}

export function electronPath(): string {
  const path = process.env['GAUGEMARK_ELECTRON'];
  if (path === undefined)
    throw new Error('There is no Electron named; start this by npm test or npm run bench.');
  return path;
}
