/** Fault P8 of the program shell, and starting twice: close, quit and reload while a pull is being recorded. */
import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { isRoot, projectFolder } from '../../electron/setup/places.mjs';
import { makeReadout, type Readout, scratch } from './recorder-process.ts';
import { expectAllKeptIn } from './support/all-kept.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { ENDLESS, openPullId, readyAtPort, untilReadings, untilState } from './support/window-steps.ts';
import { until } from './support/until.ts';

let window: GaugemarkWindow;
let readout: Readout;
let folder: string;

/** Stands in for the person at the dialog, and keeps what was asked. */
async function answerDialogs(response: number): Promise<void> {
  await window.app.evaluate(({ dialog }, chosen) => {
    const asked: unknown[] = [];
    (globalThis as unknown as { asked: unknown[] }).asked = asked;
    dialog.showMessageBox = ((_window: unknown, options: unknown) => {
      asked.push(options);
      return Promise.resolve({ response: chosen, checkboxChecked: false });
    }) as typeof dialog.showMessageBox;
  }, response);
}

const asked = (): Promise<{ buttons: string[]; defaultId: number; detail: string }[]> =>
  window.app.evaluate(
    () =>
      (globalThis as unknown as { asked: { buttons: string[]; defaultId: number; detail: string }[] }).asked,
  );

/** Not opened here: what acts on the record, how the page looks and speaks, and the self-check, which takes a minute of the processor. */
const NO_SHEETS =
  /^(?:ready|zero|start|markBreak|goOn|stop|close|units|digits|theme-.*|language-.*|run-self-check)$/;

/** Lie on top of the page whatever it shows. */
const SHEETS: ReadonlySet<string> = new Set(['keys', 'guide', 'what-to-do', 'cautions', 'about']);

/**
 * Whatever the menu can open now, one after the other. Files and folders that are asked for are given, or rather not given,
 * only when two more readings have been kept meanwhile. Gives how often something lay on top and how often it was asked.
 */
async function openAll(): Promise<{ sheets: number; asked: number }> {
  const { page, app } = window;
  await app.evaluate(({ dialog }) => {
    const waiting: (() => void)[] = [];
    const later = <T>(answer: T) => new Promise<T>((resolve) => waiting.push(() => resolve(answer)));
    Object.assign(globalThis, { letGo: () => waiting.splice(0).map((answer) => answer()).length });
    dialog.showOpenDialog = () => later({ canceled: true, filePaths: [] });
    dialog.showSaveDialog = () => later({ canceled: true, filePath: '' });
    dialog.showMessageBox = () => later({ response: 0, checkboxChecked: false });
  });
  const offered = await app.evaluate(({ Menu }) =>
    (Menu.getApplicationMenu()?.items ?? []).flatMap(({ submenu }) =>
      (submenu?.items ?? [])
        .filter(({ enabled, type }) => enabled && type !== 'separator')
        .map(({ id }) => id),
    ),
  );
  const letGo = (): Promise<number> =>
    app.evaluate(() => (globalThis as unknown as { letGo: () => number }).letGo());
  let [sheets, times] = [0, 0];
  for (const id of offered.filter((one) => one !== '' && !NO_SHEETS.test(one))) {
    await app.evaluate(({ Menu }, name) => {
      Menu.getApplicationMenu()?.getMenuItemById(name)?.click();
    }, id);
    const now = await window.request('session.get', {});
    await untilReadings(window, (now.ok ? (now.value.pull?.readingCount ?? 0) : 0) + 2);
    times += await letGo();
    const top = page.locator('dialog[open]');
    if (SHEETS.has(id)) await top.first().waitFor();
    for (let lying = await top.count(); lying > 0; lying = await top.count()) {
      sheets++;
      await page.keyboard.press('Escape');
      await expect.poll(() => top.count()).toBeLessThan(lying);
    }
  }
  await expect.poll(async () => (times += await letGo())).toBeGreaterThan(0);
  return { sheets, asked: times };
}

const pressClose = (): Promise<void> =>
  window.app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.close());

describe('while a pull is being recorded', () => {
  beforeEach(async () => {
    folder = scratch();
    readout = await makeReadout(folder);
    window = await GaugemarkWindow.open({ folder });
    await readyAtPort(window, readout.port);
    readout.run(20, ENDLESS);
    await untilReadings(window, 40);
  });
  afterEach(() => window.end());

  it('closing asks, and the default keeps recording (P8)', async () => {
    await answerDialogs(0);
    await pressClose();
    await until(async () => (await asked()).length === 1, 'it is asked');
    const [question] = await asked();
    expect(question?.defaultId).toBe(0);
    expect(question?.buttons[0]).toBe('Keep recording');
    await untilState(window, 'pulling');
    // Quitting by menu asks the same.
    await window.app.evaluate(({ app }) => app.quit());
    await until(async () => (await asked()).length === 2, 'it is asked again');
    await untilState(window, 'pulling');
  });

  it('closing may leave the recorder to it, which goes on', async () => {
    await answerDialogs(1);
    const [recorder] = window.recorderPids();
    await pressClose().catch(() => undefined);
    await until(() => window.main.exitCode !== null, 'the window is gone');
    expect(window.recorderPids()).toEqual([recorder]);
    const again = await GaugemarkWindow.open({ folder });
    try {
      await again.connected();
      await untilState(again, 'pulling');
      await again.page.getByText('Pulling', { exact: true }).first().waitFor();
    } finally {
      await again.end();
    }
  });

  it('closing may end the record, which keeps everything so far', async () => {
    await answerDialogs(2);
    await pressClose().catch(() => undefined);
    await until(() => window.main.exitCode !== null, 'the window is gone');
    const again = await GaugemarkWindow.open({ folder });
    try {
      await again.connected();
      const list = await again.request('pull.list', { limit: 1 });
      expect(list).toMatchObject({ ok: true, value: { items: [{ state: 'ended' }] } });
      expect(list.ok && (list.value.items[0]?.readingCount ?? 0)).toBeGreaterThanOrEqual(40);
    } finally {
      await again.end();
    }
  });

  it('keys that reload or open developer tools elsewhere do nothing here; Space and Enter stop nothing (P9); whatever opens meanwhile keeps nothing from being kept (P3)', async () => {
    const before = await window.pagePid();
    await window.page.evaluate(() => Object.assign(globalThis, { stillHere: true }));
    await window.page.getByRole('button', { name: 'Hold: mark end of pull' }).focus();
    const keys = [
      'Control+r',
      'Control+Shift+R',
      'F5',
      'Control+Shift+I',
      'F12',
      'Control+w',
      'Space',
      'Enter',
    ];
    for (const key of keys) await window.page.keyboard.press(key);
    await untilReadings(window, 60);
    expect(await window.page.evaluate(() => 'stillHere' in globalThis)).toBe(true);
    expect(await window.pagePid()).toBe(before);
    await untilState(window, 'pulling');
    const opened = await openAll();
    process.stdout.write(`Opened in mid-pull: ${JSON.stringify(opened)}.\n`);
    expect(opened.sheets).toBeGreaterThanOrEqual(SHEETS.size);
    await untilState(window, 'pulling');
    const pullId = await openPullId(window);
    await readout.pause();
    await untilReadings(window, readout.sent());
    await window.request('pull.close', {});
    await expectAllKeptIn(window.archivePath, pullId, readout.sent(), { loadOf: ENDLESS });
  });

  it('the screen is kept awake, and no longer when the record is closed (P6)', async () => {
    const awake = (): Promise<boolean> =>
      window.app.evaluate(({ powerSaveBlocker }) =>
        Array.from({ length: 20 }, (_, id) => id).some((id) => powerSaveBlocker.isStarted(id)),
      );
    expect(await awake()).toBe(true);
    await window.request('pull.close', {});
    await until(async () => !(await awake()), 'the computer may sleep again');
  });

  it('another archive is refused', async () => {
    const answer = await window.request('window.change-archive', { how: 'open' });
    expect(answer).toMatchObject({ ok: false, fault: { code: 'still-recording' } });
  });
});

describe('while nothing is recorded', () => {
  beforeEach(async () => {
    folder = scratch();
    window = await GaugemarkWindow.open({ folder });
    await window.connected();
  });
  afterEach(() => window.end());

  it('closing asks nothing', async () => {
    await pressClose().catch(() => undefined);
    await until(() => window.main.exitCode !== null, 'the window is gone');
  });

  /** A backup that waits for its folder, until the test lets it go on without one. */
  async function backupUnderWay(): Promise<() => Promise<void>> {
    await window.app.evaluate(({ dialog }) => {
      const answered = { canceled: true, filePaths: [] };
      dialog.showOpenDialog = () =>
        new Promise<typeof answered>((letGo) => {
          Object.assign(globalThis, { isAsked: true, letGo: () => letGo(answered) });
        });
      Object.assign(globalThis, { isAsked: false });
    });
    await window.page.evaluate(() => {
      const { gaugemark } = globalThis as unknown as {
        gaugemark: { request: (name: string, payload: object) => Promise<unknown> };
      };
      void gaugemark.request('window.back-up', { folder: 'ask' });
    });
    await until(
      () => window.app.evaluate(() => (globalThis as unknown as { isAsked: boolean }).isAsked),
      'the backup is under way',
    );
    return () => window.app.evaluate(() => (globalThis as unknown as { letGo: () => void }).letGo());
  }

  it('closing asks while a backup is under way, the default lets it finish, and then asks nothing', async () => {
    const finish = await backupUnderWay();
    await answerDialogs(0);
    await pressClose();
    await until(async () => (await asked()).length === 1, 'it is asked');
    const [question] = await asked();
    expect(question?.defaultId).toBe(0);
    expect(question?.buttons).toEqual(['Let it finish', 'Stop it and close']);
    expect((await window.request('session.get', {})).ok).toBe(true);
    await finish();
    await until(async () => {
      await pressClose().catch(() => undefined);
      return window.main.exitCode !== null;
    }, 'the window is gone');
  });

  it('closing asks while a search is evaluated again, until it is over or its page is gone', async () => {
    await answerDialogs(0);
    await window.request('window.at-work', { at: true });
    await pressClose();
    await until(async () => (await asked()).length === 1, 'it is asked');
    expect((await asked())[0]?.detail).toContain('of a search evaluated again what was kept stays');
    await window.request('window.at-work', { at: false });
    await pressClose().catch(() => undefined);
    await until(() => window.main.exitCode !== null, 'the window is gone');
  });

  it('closing may stop it, and waits for its end', async () => {
    const finish = await backupUnderWay();
    await answerDialogs(1);
    await pressClose();
    await until(async () => (await asked()).length === 1, 'it is asked');
    expect((await window.request('session.get', {})).ok).toBe(true);
    await finish().catch(() => undefined);
    await until(() => window.main.exitCode !== null, 'the window is gone');
  });

  it('a second start brings the first window to the front and ends (D15)', async () => {
    const second = spawn(
      process.env['GAUGEMARK_ELECTRON'] ?? '',
      [...(isRoot ? ['--no-sandbox'] : []), `--user-data-dir=${join(folder, 'settings')}`, projectFolder],
      { stdio: ['ignore', 'pipe', 'ignore'] },
    );
    let said = '';
    second.stdout.setEncoding('utf8').on('data', (text: string) => (said += text));
    await until(() => second.exitCode !== null, 'the second start ends');
    expect(second.exitCode).toBe(0);
    expect(said).toContain('open already');
    expect((await window.request('session.get', {})).ok).toBe(true);
  });

  it('another archive can be chosen, also without what is typed, and is the one that is used from then on', async () => {
    const other = join(folder, 'other.gaugemark');
    await window.app.evaluate(({ dialog }, path) => {
      dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: path });
    }, other);
    const change = () => window.request('window.change-archive', { how: 'new' });
    // What is typed is asked about first, and going back to it is meant by Enter and Escape.
    await window.request('window.typed-not-kept', { forms: ['note on the fracture'] });
    await answerDialogs(0);
    expect(await change()).toEqual({ ok: true, value: { path: null } });
    const [question] = await asked();
    expect(question?.buttons).toEqual(['Go back', 'Go over without it']);
    expect(question?.defaultId).toBe(0);
    await answerDialogs(1);
    expect(await change()).toEqual({ ok: true, value: { path: other } });
    await until(async () => {
      const info = await window.request('program.info', {});
      return info.ok && info.value.archivePath === other;
    }, 'the recorder of the other archive answers');
    const info = await window.request('program.info', {});
    if (info.ok) process.kill(info.value.pid, 'SIGTERM');
  });
});
