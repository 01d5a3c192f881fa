/** The real window: started as a person would start it, driven through what a person sees. */
import type { ChildProcess } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type ElectronApplication, type Page } from 'playwright';
import type { PageReplyOf, PageRequestName, PageRequestOf } from '../../../core/contract/bridge.ts';
import type { Answer } from '../../../core/contract/message.ts';
import { chooseInMenu } from '../../../electron/setup/all-views.mjs';
import { launchWindow } from '../../../electron/setup/launch-window.mjs';
import { isAlive, killAndWait, recordersOf } from './processes.ts';
import { until } from './until.ts';

export interface GaugemarkWindowOptions {
  /** Holds archive, settings and ports of one test; kept between starts of the same test. */
  readonly folder: string;
  readonly args?: readonly string[];
  readonly environment?: Readonly<Record<string, string>>;
}

/** A folder of one test. */
export function scratchFolder(): { folder: string; remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-window-'));
  return { folder, remove: () => rmSync(folder, { recursive: true, force: true, maxRetries: 5 }) };
}

export class GaugemarkWindow {
  readonly app: ElectronApplication;
  readonly archivePath: string;
  /** Kept, since the driver forgets it when the window has been closed. */
  readonly main: ChildProcess;
  page: Page;
  readonly #settingsFolder: string;
  #attached: Browser | null = null;

  private constructor(app: ElectronApplication, page: Page, folder: string) {
    this.app = app;
    this.main = app.process();
    this.page = page;
    this.archivePath = archiveIn(folder);
    this.#settingsFolder = settingsIn(folder);
  }

  static async open({
    folder,
    args = [],
    environment = {},
  }: GaugemarkWindowOptions): Promise<GaugemarkWindow> {
    const { app, page } = await launchWindow({
      electron: needed('GAUGEMARK_ELECTRON'),
      environment: { ...process.env, ...environment },
      folder,
      archive: archiveIn(folder),
      args,
    });
    return new GaugemarkWindow(app, page, folder);
  }

  /** Asks through the page's own bridge. */
  request<N extends PageRequestName>(name: N, payload: PageRequestOf<N>): Promise<Answer<PageReplyOf<N>>> {
    return this.page.evaluate(
      ([asked, content]) =>
        (
          globalThis as unknown as { gaugemark: { request: (n: unknown, p: unknown) => Promise<unknown> } }
        ).gaugemark.request(asked, content),
      [name, payload] as const,
    ) as Promise<Answer<PageReplyOf<N>>>;
  }

  /** Presses it in the menu, as soon as the page has told the menu of it. */
  choose(id: string): Promise<void> {
    return chooseInMenu(this, id);
  }

  async connected(): Promise<void> {
    await until(async () => {
      const answer = await this.request('window.info', {});
      return answer.ok && answer.value.recorder.state === 'connected';
    }, 'the recorder is connected');
  }

  get mainPid(): number {
    const { pid } = this.main;
    if (pid === undefined) throw new Error('The window has no process.');
    return pid;
  }

  pagePid(): Promise<number> {
    return this.app.evaluate(({ BrowserWindow }) => {
      const [window] = BrowserWindow.getAllWindows();
      if (window === undefined) throw new Error('There is no window.');
      return window.webContents.getOSProcessId();
    });
  }

  recorderPids(): number[] {
    return recordersOf(this.archivePath);
  }

  /**
   * After the page's process has died, the driver's own page object is of no more use: attaches to the page that the
   * program has loaded in its place.
   */
  async pageThatCameBack(before: number): Promise<Page> {
    await until(async () => {
      const pid = await this.pagePid();
      return pid !== 0 && pid !== before && isAlive(pid);
    }, 'the page is loaded again');
    const [port] = readFileSync(join(this.#settingsFolder, 'DevToolsActivePort'), 'utf8').split('\n');
    await this.#attached?.close().catch(() => undefined);
    this.#attached = await chromium.connectOverCDP(`http://127.0.0.1:${port ?? ''}`);
    const page = this.#attached
      .contexts()[0]
      ?.pages()
      .find((one) => one.url().startsWith('gaugemark:'));
    if (page === undefined) throw new Error('The page that came back was not found.');
    await page.waitForLoadState('domcontentloaded');
    this.page = page;
    return page;
  }

  async killMain(): Promise<void> {
    await killAndWait(this.mainPid);
  }

  /** To window, main, their helpers and the recorder at one moment. The driver starts the window as a group of its own. */
  signalGroup(signal: NodeJS.Signals): void {
    const recorders = this.recorderPids();
    for (const pid of [-this.mainPid, ...recorders])
      try {
        process.kill(pid, signal);
      } catch {
        // It has ended by itself.
      }
  }

  async killGroup(): Promise<void> {
    const recorders = this.recorderPids();
    this.signalGroup('SIGKILL');
    for (const pid of [this.mainPid, ...recorders]) await killAndWait(pid);
  }

  /** Closes window and recorder, whatever state they are in. */
  async end(): Promise<void> {
    await this.#attached?.close().catch(() => undefined);
    await killAndWait(this.mainPid);
    for (const pid of this.recorderPids()) await killAndWait(pid);
  }
}

export function archiveIn(folder: string): string {
  return join(folder, 'pulls.gaugemark');
}

export function settingsIn(folder: string): string {
  return join(folder, 'settings');
}

function needed(name: string): string {
  const value = process.env[name];
  if (value === undefined)
    throw new Error(`${name} is not set: run the window tests through vitest's app project.`);
  return value;
}
