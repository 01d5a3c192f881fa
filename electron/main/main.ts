/**
 * The window's own process. It shows and relays; it owns no port, no database and no native module, so that whatever
 * happens to it, a pull goes on being recorded by the recorder.
 */
import { Menu, app, nativeTheme, protocol } from 'electron';
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { defaultArchivePath } from '../../core/archive/place.ts';
import { printAndEnd } from '../print/print-and-end.ts';
import { readArguments } from './arguments.ts';
import { frameTheme } from './frame-theme.ts';
import { PAGE_SCHEME } from './page-address.ts';
import { lockDown } from './lockdown.ts';
import { ASKED_FIRST, servePageFiles } from './page-files.ts';
import { answerPageScheme } from './page-scheme.ts';
import { runProgram } from './program.ts';
import { SettingsFile } from './settings.ts';
import { WindowLog } from './window-log.ts';

const buildFolder = __dirname;
const given = readArguments(process.argv, process.env);
const asked = given.archive === null ? null : resolve(given.archive);

if (given.print !== null) printAndEnd(given.print);
// First of all: a second start would only get in the way of the first.
else if (!app.requestSingleInstanceLock({ archive: asked })) {
  process.stdout.write('Gaugemark is open already; its window has been brought to the front.\n');
  app.exit(0);
} else {
  begin();
}

function begin(): void {
  const settings = new SettingsFile(join(app.getPath('userData'), 'window.json'));
  const log = new WindowLog(join(app.getPath('userData'), 'logs', 'window.log'));
  if (settings.setAsideTo !== null)
    log.note(`the settings were damaged and are set aside as ${settings.setAsideTo}; those of before count`);
  const softwareDrawing = given.softwareDrawing || settings.now.softwareDrawing;
  if (softwareDrawing) app.disableHardwareAcceleration();
  nativeTheme.themeSource = frameTheme(settings.now.theme);
  protocol.registerSchemesAsPrivileged([
    // What the engine has made of the page's script is kept, and not made again at the next start.
    { scheme: PAGE_SCHEME, privileges: { standard: true, secure: true, codeCache: true } },
  ]);
  lockDown(log);
  // Else the engine makes a menu of its own first.
  Menu.setApplicationMenu(null);
  process.on('uncaughtException', (error) => {
    // A bug: this process ends, and with it only the window. The recorder goes on.
    log.note(`bug: ${error.stack ?? error.message}`);
    process.stderr.write(`${error.stack ?? error.message}\n`);
    app.exit(1);
  });
  const archivePath =
    asked ??
    settings.now.archive ??
    defaultArchivePath({ platform: process.platform, home: homedir(), environment: process.env });

  const pageFiles = servePageFiles(join(buildFolder, 'renderer'), ASKED_FIRST);
  void app.whenReady().then(() => answerPageScheme(protocol, pageFiles));
  void runProgram({
    archivePath,
    rulesFolder: given.rulesFolder === null ? settings.now.rulesFolder : resolve(given.rulesFolder),
    buildFolder,
    log,
    settings,
    softwareDrawing,
  });
}
