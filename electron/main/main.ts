/**
 * The window's own process. It shows and relays; it owns no port, no database and no native module, so that whatever
 * happens to it, a pull goes on being recorded by the recorder.
 *
 * In the order in which a person sees it: the window with its first picture, then the recorder's process, then the rest of
 * this program, which is read while the page's script runs.
 */
import { type BrowserWindow, Menu, app, nativeTheme, protocol } from 'electron';
import { homedir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { defaultArchivePath } from '../../core/archive/place.ts';
import { loadPage, openAppWindow } from './app-window.ts';
import { readArguments } from './arguments.ts';
import { startEarly } from './early-recorder.ts';
import { frameTheme, groundOf } from './frame-theme.ts';
import { lockDown } from './lockdown.ts';
import { PAGE_SCHEME } from './page-address.ts';
import { ASKED_FIRST, servePageFiles } from './page-files.ts';
import { answerPageScheme } from './page-scheme.ts';
import { type PageRelay, firstPicture, hearPage } from './page-start.ts';
import { readCompiled } from './read-compiled.ts';
import { SettingsFile } from './settings.ts';
import { recorderProgram, startRecorder } from './start-recorder.ts';
import type * as TheRest from './the-rest.ts';
import { WindowLog } from './window-log.ts';

const buildFolder = __dirname;
const given = readArguments(process.argv, process.env);
const asked = given.archive === null ? null : resolve(given.archive);

/** Where is kept what the engines have made of this program's own scripts. */
const compiledFolder = (): string => join(app.getPath('userData'), 'compiled');

/** Bundled by itself: it is read once the window is there already. */
function theRest(): typeof TheRest {
  const { exports, keep } = readCompiled(join(buildFolder, 'the-rest.cjs'), compiledFolder());
  app.once('quit', keep);
  return exports as typeof TheRest;
}

if (given.print !== null) theRest().printAndEnd(given.print);
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
  const archivePath =
    asked ??
    settings.now.archive ??
    defaultArchivePath({ platform: process.platform, home: homedir(), environment: process.env });
  const program = recorderProgram(process.env, buildFolder);
  const start = (path: string): Promise<void> =>
    startRecorder(program, {
      archivePath: path,
      logPath: join(dirname(log.path), 'recorder.log'),
      compiledFolder: compiledFolder(),
      log,
    });

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

  const pageFiles = servePageFiles(join(buildFolder, 'renderer'), {
    soon: ASKED_FIRST,
    ground: () => groundOf(settings.now.theme),
  });
  const open = async (): Promise<void> => {
    answerPageScheme(protocol, pageFiles);
    let answerPage: (relay: PageRelay) => void = () => undefined;
    hearPage(new Promise<PageRelay>((there) => (answerPage = there)));
    const window = openAppWindow({ buildFolder, settings, ground: groundOf(settings.now.theme) });
    comeToFrontWhenAskedFor(window);
    loadPage(window);
    await firstPicture(window.webContents);
    // It takes longest to be there; sooner it would hold up the picture, on a machine of two cores by a third.
    const earlyRecorder = startEarly(archivePath, start);
    // Closed already: there is nothing to be done for it.
    if (window.isDestroyed()) return;
    const relay = theRest().runProgram({
      archivePath,
      rulesFolder: given.rulesFolder === null ? settings.now.rulesFolder : resolve(given.rulesFolder),
      buildFolder,
      log,
      settings,
      softwareDrawing,
      window,
      startRecorder: start,
      earlyRecorder,
    });
    answerPage(relay);
  };
  void app.whenReady().then(open);
}

/** A second start has been refused: this window is what its person wants to see. */
function comeToFrontWhenAskedFor(window: BrowserWindow): void {
  app.on('second-instance', () => {
    if (window.isDestroyed()) return;
    if (window.isMinimized()) window.restore();
    window.focus();
  });
}
