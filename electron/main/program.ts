/** Ties the parts together: window, page, recorder, menu, power, and what happens when somebody wants to leave. */
import { app, type BrowserWindow, nativeTheme } from 'electron';
import { dirname } from 'node:path';
import type { PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import type { EventName, EventOf } from '../../core/contract/index.ts';
import type { Answer } from '../../core/contract/message.ts';
import type { SessionState } from '../../core/contract/session.ts';
import type { Appearance, Theme } from '../../core/contract/window-requests.ts';
import { loadPage, openAppWindow } from './app-window.ts';
import { CHANNELS } from './channels.ts';
import { isRecording } from './close-question.ts';
import { guardLeaving } from './leaving.ts';
import { connectToRecorder } from './connect-to-recorder.ts';
import { addPhoto } from './add-photo.ts';
import { chooseArchive, chooseSavePath, openText } from './dialogs.ts';
import { GrantedPaths } from './granted-paths.ts';
import { watchGraphics } from './graphics.ts';
import { setMenu } from './menu.ts';
import { watchPage } from './page-heartbeat.ts';
import { PageOutbox } from './page-outbox.ts';
import { relayPage, type WindowHandlers } from './page-relay.ts';
import { StayAwake } from './power.ts';
import { RecorderSupervisor } from './recorder-supervisor.ts';
import type { SettingsFile } from './settings.ts';
import { recorderProgram, startRecorder } from './start-recorder.ts';
import { writeCertificate } from './write-certificate.ts';
import type { WindowLog } from './window-log.ts';

export interface ProgramOptions {
  readonly archivePath: string;
  readonly buildFolder: string;
  readonly settings: SettingsFile;
  readonly log: WindowLog;
  readonly softwareDrawing: boolean;
}

/** Call once the application is ready. */
export function runProgram({
  archivePath,
  buildFolder,
  settings,
  log,
  softwareDrawing,
}: ProgramOptions): void {
  let archive = archivePath;
  let state: SessionState | null = null;
  const granted = new GrantedPaths();
  const stayAwake = new StayAwake();
  const program = recorderProgram(process.env, buildFolder);

  const outbox = new PageOutbox((number, name, event) => {
    if (!window.isDestroyed()) window.webContents.send(CHANNELS.event, number, name, event);
  });
  const recorder = new RecorderSupervisor(archive, {
    connect: connectToRecorder,
    start: (path) =>
      startRecorder(program, {
        archivePath: path,
        buildFolder,
        logPath: `${dirname(log.path)}/recorder.log`,
        log,
      }),
    kill: endProcess,
    nowMs: () => performance.now(),
    wait: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
    onLink: (link) => outbox.put('recorder-link', link),
    onEvent: <N extends EventName>(name: N, event: EventOf<N>) => {
      if (name === 'session') takeState((event as EventOf<'session'>).state);
      outbox.put(name, event);
    },
    note: (what) => log.note(what),
  });
  const takeState = (now: SessionState): void => {
    state = now;
    stayAwake.set(isRecording(now));
  };

  const window: BrowserWindow = openAppWindow({
    buildFolder,
    settings,
    log,
    dark: nativeTheme.shouldUseDarkColors,
    onPageBegins: () => outbox.forget(),
  });
  const heartbeat = watchPage(window.webContents, log);
  window.once('closed', () => heartbeat.end());

  const appearance = (): Appearance => ({
    theme: settings.now.theme,
    dark: nativeTheme.shouldUseDarkColors,
  });
  const setTheme = (theme: Theme): Appearance => {
    settings.change({ theme });
    nativeTheme.themeSource = theme;
    showMenu();
    return appearance();
  };
  nativeTheme.on('updated', () => outbox.put('appearance', appearance()));

  const goOverTo = (path: string): void => {
    archive = path;
    state = null;
    stayAwake.set(false);
    settings.change({ archive: path });
    recorder.changeArchive(path);
    outbox.put('archive-changed', { path });
  };
  const changeArchive = async ({
    how,
  }: PageRequestOf<'window.change-archive'>): Promise<Answer<PageReplyOf<'window.change-archive'>>> => {
    if (isRecording(state)) return { ok: false, fault: STILL_RECORDING };
    const path = await chooseArchive(window, how);
    if (path !== null && isRecording(state)) return { ok: false, fault: STILL_RECORDING };
    if (path !== null) goOverTo(path);
    return { ok: true, value: { path } };
  };

  const handlers: WindowHandlers = {
    'window.info': () => ({
      ok: true,
      value: {
        programVersion: app.getVersion(),
        archivePath: archive,
        softwareDrawing,
        appearance: appearance(),
        recorder: recorder.link,
      },
    }),
    'window.set-theme': ({ theme }) => ({ ok: true, value: setTheme(theme) }),
    'recorder.try-again': () => {
      if (recorder.link.state === 'failed') recorder.begin();
      return { ok: true, value: {} };
    },
    'window.change-archive': changeArchive,
    'window.choose-save-path': async ({ kind, suggestedName }) => {
      const path = await chooseSavePath(window, { kind, suggestedName, folder: app.getPath('documents') });
      if (path !== null) granted.grant(path);
      return { ok: true, value: { path } };
    },
    'window.write-certificate': (asked) =>
      writeCertificate(asked, {
        window,
        buildFolder,
        ask: (request) => recorder.request('set.certificate', request),
        photo: (photoId) => recorder.request('photo.get', { photoId }),
      }),
    'window.add-photo': (asked) =>
      addPhoto(asked, { window, ask: (request) => recorder.request('photo.add', request) }),
    'window.open-text': async ({ kind }) => {
      const answer = await openText(window, kind);
      if (!answer.ok) return answer;
      if (answer.value !== null) granted.grant(answer.value.path);
      return { ok: true, value: { file: answer.value } };
    },
  };
  relayPage({
    page: () => (window.isDestroyed() ? null : window.webContents),
    handlers,
    askRecorder: async (name, payload) => {
      const fault = granted.faultOf(name, payload);
      return fault === null ? recorder.request(name, payload) : { ok: false, fault };
    },
    onTaken: (number) => outbox.taken(number),
    onPong: () => heartbeat.heard(),
    log,
  });

  const showMenu = (): void =>
    setMenu({
      theme: settings.now.theme,
      onCommand: (command) => outbox.put('menu-command', { command }),
      onTheme: setTheme,
      onChangeArchive: (how) => void changeArchive({ how }),
      onNaturalSize: () => window.webContents.setZoomLevel(0),
    });
  showMenu();
  watchGraphics(settings, log);
  guardLeaving(window, {
    isRecording: () => isRecording(state),
    endRecord: () => recorder.request('pull.close', {}),
    log,
  });
  app.on('second-instance', () => {
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  app.on('will-quit', () => recorder.end());
  recorder.begin();
  loadPage(window);
}

function endProcess(pid: number): void {
  try {
    process.kill(pid, 'SIGKILL');
  } catch {
    // It has ended meanwhile.
  }
}

const STILL_RECORDING = {
  code: 'still-recording',
  sentence: 'A pull is being recorded into this archive. Nothing was changed; end the record first.',
} as const;
