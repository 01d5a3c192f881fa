/** Ties the parts together: window, page, recorder, menu, power, and what happens when somebody wants to leave. */
import { app, type BrowserWindow, clipboard, dialog, nativeTheme } from 'electron';
import { join } from 'node:path';
import type { PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import type { EventName, EventOf } from '../../core/contract/index.ts';
import type { Answer } from '../../core/contract/message.ts';
import type { SessionState } from '../../core/contract/session.ts';
import type { PageSize, Theme } from '../../core/contract/looks.ts';
import type { Appearance } from '../../core/contract/window-requests.ts';
import { CHANNELS } from './channels.ts';
import { isRecording, losesTyping, typedQuestion } from './close-question.ts';
import { guardLeaving } from './leaving.ts';
import { connectToRecorder } from './connect-to-recorder.ts';
import { addPhoto } from './add-photo.ts';
import { takePhoto } from './camera/take-photo.ts';
import { usualNotesFolder } from '../exports/noted-backup.ts';
import { Backups } from './backups.ts';
import { ChosenFiles, withoutFolders } from './chosen-files.ts';
import { chooseArchive, chooseFolder, chooseFor, chooseSavePath, openText } from './dialogs.ts';
import { frameTheme } from './frame-theme.ts';
import { GrantedPaths } from './granted-paths.ts';
import { watchGraphics } from './graphics.ts';
import { keepPageAlive } from './kept-page.ts';
import { WindowMenu } from './menu.ts';
import { otherArchives } from './other-archives.ts';
import { withRulesFolder } from './own-rules.ts';
import { watchPage } from './page-heartbeat.ts';
import { PageOutbox } from './page-outbox.ts';
import { relayPage, type WindowHandlers } from './page-relay.ts';
import type { PageRelay } from './page-start.ts';
import { StayAwake } from './power.ts';
import { RecorderSupervisor } from './recorder-supervisor.ts';
import { savePicture } from './save-picture.ts';
import { saveSheet } from './save-sheet.ts';
import type { SettingsFile } from './settings.ts';
import type { EarlyRecorder } from './early-recorder.ts';
import type { StartRecorder } from './recorder-connection.ts';
import { StoppableWork } from '../print/stoppable-work.ts';
import { IN_TOUR, freshTourArchive, notInTour } from './tour-archive.ts';
import { WorkUnderWay } from './work-under-way.ts';
import { writeCertificate } from './write-certificate.ts';
import { shellWords, speak } from './words/shell-words.ts';
import { writeResults } from './write-results.ts';
import { writeVerification } from './write-verification.ts';
import type { WindowLog } from './window-log.ts';

export interface ProgramOptions {
  readonly archivePath: string;
  /** Of own rule packs; null for the usual one. */
  readonly rulesFolder: string | null;
  readonly buildFolder: string;
  readonly settings: SettingsFile;
  readonly log: WindowLog;
  readonly softwareDrawing: boolean;
  /** It is there, and its page is being loaded. */
  readonly window: BrowserWindow;
  readonly startRecorder: StartRecorder;
  /** One that has been started already; null where another had to be looked for first. */
  readonly earlyRecorder: EarlyRecorder | null;
}

/** As the menu's own items have it: each step is a tenth and a little. */
const ZOOM_STEP = 0.5;

/** Gives what answers the page, which is there and may ask by then. */
export function runProgram({
  archivePath,
  rulesFolder,
  buildFolder,
  settings,
  log,
  softwareDrawing,
  window,
  startRecorder,
  earlyRecorder,
}: ProgramOptions): PageRelay {
  let archive = archivePath;
  let ownRules = rulesFolder;
  let state: SessionState | null = null;
  const granted = new GrantedPaths();
  const chosen = new ChosenFiles();
  const stayAwake = new StayAwake();
  const writing = new StoppableWork();
  const work = new WorkUnderWay();
  /** Forms in which something is typed; gone with the page. */
  let typedForms: readonly string[] = [];
  const outbox = new PageOutbox((number, name, event) => {
    if (!window.isDestroyed()) window.webContents.send(CHANNELS.event, number, name, event);
  });
  const setSize = (size: PageSize): void => {
    const page = window.webContents;
    if (size === 'full-screen') window.setFullScreen(!window.isFullScreen());
    else if (size === 'natural-size') page.setZoomLevel(0);
    else page.setZoomLevel(page.getZoomLevel() + (size === 'larger' ? ZOOM_STEP : -ZOOM_STEP));
  };
  const menu = new WindowMenu({
    onPressed: (command) => outbox.put('menu-command', { command }),
    onNaturalSize: () => setSize('natural-size'),
  });
  const recorder = new RecorderSupervisor(archive, {
    connect: connectToRecorder,
    start: (path) => earlyRecorder?.takenFor(path) ?? startRecorder(path),
    kill: endProcess,
    // Of this process's own clock: the first use of `performance` makes it load far more than a clock.
    nowMs: () => process.uptime() * 1000,
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
    stayAwake.set(isRecording(state));
  };
  recorder.begin();

  keepPageAlive(window, log);
  window.webContents.on('did-start-loading', () => {
    work.pageIsAtWork = false;
    typedForms = [];
    outbox.pageBegins();
  });
  const heartbeat = watchPage(window.webContents, log);
  window.once('closed', () => heartbeat.end());

  const appearance = (): Appearance => ({
    theme: settings.now.theme,
    dark: nativeTheme.shouldUseDarkColors,
  });
  const setTheme = (theme: Theme): Appearance => {
    settings.change({ theme });
    nativeTheme.themeSource = frameTheme(theme);
    // Between dark and high contrast the frame stays as it is, and says nothing.
    outbox.put('appearance', appearance());
    return appearance();
  };
  nativeTheme.on('updated', () => outbox.put('appearance', appearance()));

  /** The archive to come back to from the tour; null where none is on. */
  let beforeTour: string | null = null;
  const showArchive = (path: string): void => {
    archive = path;
    state = null;
    stayAwake.set(false);
    recorder.changeArchive(path);
    outbox.put('archive-changed', { path, tour: beforeTour !== null });
  };
  /** Also at the next start. A tour that is on ends with it. */
  const goOverTo = (path: string): void => {
    beforeTour = null;
    settings.change({ archive: path });
    showArchive(path);
  };
  const tour = async ({ on }: PageRequestOf<'window.tour'>): Promise<Answer<PageReplyOf<'window.tour'>>> => {
    if (on === (beforeTour !== null)) return { ok: true, value: {} };
    if (!on) {
      // The tour can be left in the middle of its pull.
      if (isRecording(state)) await recorder.request('pull.close', {});
      await recorder.request('readout.close', {});
      const back = beforeTour ?? archive;
      beforeTour = null;
      showArchive(back);
      return { ok: true, value: {} };
    }
    if (isRecording(state)) return { ok: false, fault: STILL_RECORDING };
    const fresh = freshTourArchive(join(app.getPath('userData'), 'tour'));
    beforeTour = archive;
    showArchive(fresh);
    return { ok: true, value: {} };
  };
  /** Whoever goes back to a form stays with its archive. */
  const leavesForms = async (path: string): Promise<boolean> => {
    if (path === archive || typedForms.length === 0) return true;
    const { response } = await dialog.showMessageBox(window, typedQuestion(typedForms, 'goingOver'));
    return losesTyping(response);
  };
  const changeArchive = async ({
    how,
  }: PageRequestOf<'window.change-archive'>): Promise<Answer<PageReplyOf<'window.change-archive'>>> => {
    if (isRecording(state)) return { ok: false, fault: STILL_RECORDING };
    const path = await chooseArchive(window, how);
    if (path === null || !(await leavesForms(path))) return { ok: true, value: { path: null } };
    if (isRecording(state)) return { ok: false, fault: STILL_RECORDING };
    goOverTo(path);
    return { ok: true, value: { path } };
  };

  const backups = new Backups({
    settings,
    archivePath: () => archive,
    chooseFolder: () => chooseFolder(window, shellWords().dialogs.backupFolder),
    ask: (request) => recorder.request('archive.backup-into', request),
    wallMs: Date.now,
    notesFolder: usualNotesFolder(),
  });
  const handlers: WindowHandlers = {
    'window.info': () => ({
      ok: true,
      value: {
        programVersion: app.getVersion(),
        archivePath: archive,
        softwareDrawing,
        appearance: appearance(),
        recorder: recorder.link,
        tour: beforeTour !== null,
      },
    }),
    'window.set-menu': ({ entries }) => {
      menu.offer(entries);
      return { ok: true, value: {} };
    },
    'window.set-theme': ({ theme }) => ({ ok: true, value: setTheme(theme) }),
    'window.set-language': ({ language }) => {
      if (settings.now.language !== language) {
        settings.change({ language });
        speak(language);
        menu.show();
      }
      return { ok: true, value: {} };
    },
    'window.copy-text': ({ text }) => {
      void clipboard.writeText(text);
      return { ok: true, value: {} };
    },
    'recorder.try-again': () => {
      if (recorder.link.state === 'failed') recorder.begin();
      return { ok: true, value: {} };
    },
    'window.change-archive': changeArchive,
    'window.tour': tour,
    'window.set-full-screen': ({ on }) => {
      const before = window.isFullScreen();
      if (before !== on) window.setFullScreen(on);
      return { ok: true, value: { before } };
    },
    'window.set-size': ({ size }) => {
      setSize(size);
      return { ok: true, value: {} };
    },
    'window.choose-rules-folder': async ({ which }) => {
      const folder = which === 'usual' ? null : await chooseFolder(window, shellWords().dialogs.rulesFolder);
      if (which === 'usual' || folder !== null) {
        ownRules = folder;
        settings.change({ rulesFolder: folder });
      }
      return { ok: true, value: { changed: which === 'usual' || folder !== null } };
    },
    'window.choose-save-path': async ({ kind, suggestedName }) => {
      const path = await chooseSavePath(window, { kind, suggestedName, folder: app.getPath('documents') });
      if (path !== null) granted.grant(path);
      return { ok: true, value: { path } };
    },
    'window.choose-file': async ({ what, suggestedName }) => {
      const path = await chooseFor(window, { what, suggestedName, folder: app.getPath('documents') });
      return { ok: true, value: { file: path === null ? null : chosen.keep(path) } };
    },
    'window.other-archives': async (asked) => ({
      ok: true,
      value: await otherArchives(asked, {
        settings,
        chosen,
        choose: () =>
          chooseFor(window, { what: 'archive', suggestedName: undefined, folder: app.getPath('documents') }),
      }),
    }),
    'window.open-other-archive': async ({ sign }) => {
      const path = chosen.path(sign);
      if (isRecording(state)) return { ok: false, fault: STILL_RECORDING };
      if (path === undefined || !(await leavesForms(path))) return { ok: true, value: { isOpen: false } };
      if (isRecording(state)) return { ok: false, fault: STILL_RECORDING };
      goOverTo(path);
      return { ok: true, value: { isOpen: true } };
    },
    'window.back-up': ({ folder }) =>
      beforeTour === null ? backups.backUp(folder) : { ok: false, fault: IN_TOUR },
    // What is pulled for show is never called to mind as unsaved.
    'window.backup-state': () => ({
      ok: true,
      value: beforeTour === null ? backups.state() : { folderName: null, lastWallMs: null, isOld: false },
    }),
    'window.write-certificate': (asked) =>
      writing.run((signal) =>
        writeCertificate(asked, {
          window,
          buildFolder,
          ask: (request) => recorder.request('certificate.issue', request),
          photo: (photoId) => recorder.request('photo.get', { photoId }),
          signal,
          onStep: (step) => outbox.put('writing', step),
        }),
      ),
    'window.write-results': (asked) =>
      writing.run((signal) =>
        writeResults(asked, {
          window,
          buildFolder,
          programVersion: app.getVersion(),
          ask: (request) => recorder.request('archive.results-table', request),
          signal,
          onStep: (step) => outbox.put('writing', step),
        }),
      ),
    'window.at-work': ({ at }) => {
      work.pageIsAtWork = at;
      return { ok: true, value: {} };
    },
    'window.typed-not-kept': ({ forms }) => {
      typedForms = forms;
      return { ok: true, value: {} };
    },
    'window.stop-writing': () => {
      writing.stop();
      return { ok: true, value: {} };
    },
    'window.write-verification': (asked) =>
      writeVerification(asked, {
        window,
        buildFolder,
        programVersion: app.getVersion(),
        instrument: (instrumentId) => recorder.request('instrument.get', { instrumentId }),
        laboratory: () => recorder.request('laboratory.get', {}),
      }),
    'window.save-sheet': (asked) => saveSheet(window, asked, ownRules),
    'window.save-picture': (asked) => savePicture(window, buildFolder, asked),
    'window.add-photo': (asked) =>
      addPhoto(asked, { window, ask: (request) => recorder.request('photo.add', request) }),
    'window.take-photo': (asked) =>
      takePhoto(asked, {
        window,
        buildFolder,
        log,
        ask: (request) => recorder.request('photo.add', request),
      }),
    'window.open-text': async ({ kind }) => {
      const answer = await openText(window, kind);
      if (!answer.ok) return answer;
      if (answer.value !== null) granted.grant(answer.value.path);
      return { ok: true, value: { file: answer.value } };
    },
  };
  const relay = relayPage({
    page: () => (window.isDestroyed() ? null : window.webContents),
    handlers,
    watch: (name, doing) => work.watch(name, doing),
    askRecorder: async (name, payload) => {
      const fault = granted.faultOf(name, payload) ?? (beforeTour === null ? null : notInTour(name, payload));
      if (fault !== null) return { ok: false, fault };
      const asked = chosen.withPath(name, payload);
      if (!asked.ok) return asked;
      const answer = await recorder.request(name, withRulesFolder(name, asked.value, ownRules));
      if (name === 'archive.backup' && answer.ok) backups.written();
      return withoutFolders(name, answer);
    },
    onTaken: (number) => outbox.taken(number),
    onListens: (name) => outbox.listens(name),
    onPong: () => heartbeat.heard(),
    log,
  });

  speak(settings.now.language);
  menu.show();
  watchGraphics(settings, log);
  guardLeaving(window, {
    typedForms: () => typedForms,
    isRecording: () => isRecording(state),
    endRecord: () => recorder.request('pull.close', {}),
    isAtWork: () => work.isAny,
    stopWork: async () => {
      writing.stop();
      await Promise.all([recorder.request('archive.stop', {}), work.over()]);
    },
    log,
  });
  app.on('will-quit', () => recorder.end());
  return relay;
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
