/** Faults P2 and P10 of the program shell: where the window opens, how it draws, which looks it takes. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import type { Page } from 'playwright';
import { expect, it } from 'vitest';
import { enterSpecimen, stateIs } from '../../electron/setup/demonstration-pull.mjs';
import { CUES } from '../../renderer/design/sound-cue.ts';
import { ACT_KEYS, PULL_ACTS } from '../../renderer/stations/pull/pull-acts.ts';
import { STATIONS } from '../../renderer/store/place.ts';
import { BY_HAND, scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { chooseSi, openSimulated } from './support/simulated-readout.ts';
import { until } from './support/until.ts';

it('opens on a display that exists, though it stood elsewhere last time, and not below its smallest size (P10)', async () => {
  const folder = scratch();
  mkdirSync(join(folder, 'settings'));
  writeFileSync(
    join(folder, 'settings', 'window.json'),
    JSON.stringify({ place: { x: -4_000, y: 9_000, width: 300, height: 200 } }),
  );
  const window = await GaugemarkWindow.open({ folder });
  try {
    const { bounds, area, smallest } = await window.app.evaluate(({ BrowserWindow, screen }) => {
      const [first] = BrowserWindow.getAllWindows();
      if (first === undefined) throw new Error('There is no window.');
      return {
        bounds: first.getBounds(),
        area: screen.getPrimaryDisplay().workArea,
        smallest: first.getMinimumSize(),
      };
    });
    expect(bounds.x).toBeGreaterThanOrEqual(area.x);
    expect(bounds.y).toBeGreaterThanOrEqual(area.y);
    expect(bounds.x + bounds.width).toBeLessThanOrEqual(area.x + area.width);
    expect(bounds.width).toBeGreaterThanOrEqual(1_024);
    expect(bounds.height).toBeGreaterThanOrEqual(700);
    expect(smallest).toEqual([1_024, 700]);
    // A display goes while the window stands on it: the system says so after it has gone.
    const back = await window.app.evaluate(({ BrowserWindow, screen: displays }) => {
      const [first] = BrowserWindow.getAllWindows();
      if (first === undefined) throw new Error('There is no window.');
      first.setBounds({ x: -9_000, y: 300, width: 1_100, height: 750 });
      displays.emit('display-removed', {}, displays.getPrimaryDisplay());
      return first.getBounds();
    });
    expect(back.x).toBeGreaterThanOrEqual(area.x);
    expect(back.x + back.width).toBeLessThanOrEqual(area.x + area.width);
    expect(await stopsWithLiftedText(window.page)).toEqual([]);
  } finally {
    await window.end();
  }
});

/** Stops of the rail whose line is not beneath their name, or elsewhere than before, while the pointer is on them. */
async function stopsWithLiftedText(page: Page): Promise<string[]> {
  const lifted: string[] = [];
  for (const name of STATIONS) {
    const stop = page.locator(`#go-${name}`);
    await page.mouse.move(0, 400);
    const before = await stop.locator('.stop-known').boundingBox();
    await stop.hover();
    const [head, known] = [
      await stop.locator('.stop-name').boundingBox(),
      await stop.locator('.stop-known').boundingBox(),
    ];
    if (head === null || known === null || before === null || known.y < head.y + head.height - 1)
      lifted.push(name);
    else if (Math.abs(known.x - before.x) > 1 && known.width <= before.width + 1)
      lifted.push(`${name}, aside`);
  }
  return lifted;
}

/** Within the smallest display that the tests have, and nowhere where a first start would stand. */
const MOVED = { x: 37, y: 23, width: 1_090, height: 710 };
const boundsOf = ({ app }: GaugemarkWindow) =>
  app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.getBounds());

it('takes the looks and the place that were chosen, at once and at the next start', async () => {
  const folder = scratch();
  const first = await GaugemarkWindow.open({ folder });
  try {
    expect(await first.request('window.set-theme', { theme: 'dark' })).toEqual({
      ok: true,
      value: { theme: 'dark', dark: true },
    });
    await until(
      () => first.page.evaluate(() => matchMedia('(prefers-color-scheme: dark)').matches),
      'the page is told',
    );
    // Its frame is as dark as before, so only the program itself can tell the page.
    await first.choose('theme-contrast');
    await first.page.locator('html[data-theme="contrast"]').waitFor();
    await until(
      () =>
        first.app.evaluate(
          ({ Menu }) => Menu.getApplicationMenu()?.getMenuItemById('theme-contrast')?.checked === true,
        ),
      'the menu shows which look was chosen',
    );
    await first.choose('theme-soot');
    await first.page.locator('html[data-theme="soot"]').waitFor();
    await first.app.evaluate(({ BrowserWindow }, bounds) => {
      BrowserWindow.getAllWindows()[0]?.setBounds(bounds);
    }, MOVED);
    await until(async () => isDeepStrictEqual(await boundsOf(first), MOVED), 'it stands where it was moved');
    await first.app.close();
  } finally {
    await first.end();
  }
  const second = await GaugemarkWindow.open({ folder });
  try {
    const info = await second.request('window.info', {});
    expect(info).toMatchObject({ ok: true, value: { appearance: { theme: 'dark', dark: true } } });
    expect(await boundsOf(second)).toEqual(MOVED);
  } finally {
    await second.end();
  }
});

it('draws without the graphics card when told to, by switch or by environment (P2)', async () => {
  for (const how of [
    { args: ['--software-drawing'] },
    { environment: { GAUGEMARK_SOFTWARE_DRAWING: '1' } },
  ]) {
    const window = await GaugemarkWindow.open({ folder: scratch(), ...how });
    try {
      expect(await window.request('window.info', {})).toMatchObject({
        ok: true,
        value: { softwareDrawing: true },
      });
      const used = await window.app.evaluate(({ app }) => app.getGPUFeatureStatus().gpu_compositing);
      expect(used).toContain('disabled');
      const picture = await window.page.screenshot();
      expect(picture.length).toBeGreaterThan(5_000);
    } finally {
      await window.end();
    }
  }
});

/** From now on the page's tones are written down when they begin, in hertz; what sounds stays as it is. */
const writeTonesDown = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const tones: number[] = [];
    Object.assign(globalThis, { tones });
    const begin = Reflect.get(OscillatorNode.prototype, 'start');
    OscillatorNode.prototype.start = function (this: OscillatorNode, when?: number) {
      tones.push(this.frequency.value);
      begin.call(this, when);
    };
  });
const takeTones = (page: Page): Promise<number[]> =>
  page.evaluate(() => (globalThis as unknown as { tones: number[] }).tones.splice(0));

/** Tried, turned off, and on again, by the buttons of the station. */
async function soundIsHeardOrNot(window: GaugemarkWindow): Promise<void> {
  const { page } = window;
  await writeTonesDown(page);
  await window.choose('go-pull');
  await page.locator('#sound-try').press('Enter');
  expect(await takeTones(page)).toEqual([...CUES.broken]);
  await page.locator('#sound-on').press('Enter');
  await page.locator('#sound-try').waitFor({ state: 'detached' });
  // Turned on by the menu it is heard at once; turned off nothing is.
  await window.choose('sound');
  await page.locator('#sound-try').waitFor();
  expect(await takeTones(page)).toEqual([...CUES.started]);
  await window.choose('sound');
  await page.locator('#sound-try').waitFor({ state: 'detached' });
  expect(await takeTones(page)).toEqual([]);
  await page.locator('#sound-on').press('Enter');
  await page.locator('#sound-try').waitFor();
}

interface MenuItemSeen {
  readonly id: string;
  readonly label: string;
  readonly accelerator: string | undefined;
  readonly enabled: boolean;
}

const itemsOf = async (window: GaugemarkWindow): Promise<MenuItemSeen[]> => {
  const text = await window.app.evaluate(({ Menu }) =>
    JSON.stringify(
      (Menu.getApplicationMenu()?.items ?? [])
        .flatMap((menu) => menu.submenu?.items ?? [])
        .filter(({ type }) => type !== 'separator')
        .map(({ id, label, accelerator, enabled }) => ({ id, label, accelerator, enabled })),
    ),
  );
  return JSON.parse(text) as MenuItemSeen[];
};

it('offers in the menu what the page can do, with its keys, in its language, possible or not; it is done on the page', async () => {
  const window = await GaugemarkWindow.open({ folder: scratch() });
  const { page } = window;
  const item = async (id: string): Promise<MenuItemSeen | undefined> =>
    (await itemsOf(window)).find((one) => one.id === id);
  const at = (place: string) => page.locator(`main[data-place="${place}"]`).waitFor();
  try {
    await window.connected();
    await chooseSi(page);
    // Every station, the acts of the pull, the search, units and languages.
    for (const station of [...STATIONS, 'archive'] as const) {
      await window.choose(`go-${station}`);
      await at(station);
    }
    for (const { label } of await itemsOf(window)) expect(label).not.toBe('');
    // A stray key never ends the program.
    expect((await item('quit'))?.accelerator ?? null).toBeNull();
    for (const act of PULL_ACTS)
      expect(await item(act), act).toMatchObject({
        enabled: false,
        accelerator: ACT_KEYS[act].replace('Control', 'CommandOrControl'),
      });
    await window.choose('find');
    await until(
      () => page.evaluate(() => document.activeElement?.id === 'archive-search'),
      'the search has the cursor',
    );
    await window.choose('units');
    await until(() => page.getByRole('radio', { name: 'US' }).isChecked(), 'units are those of the US');
    await window.choose('language-es');
    await until(async () => (await item('go-specimen'))?.label === 'Probeta', 'the menu speaks Spanish');
    await window.choose('language-en');
    await until(
      async () => (await item('go-specimen'))?.label === 'Specimen',
      'the menu speaks English again',
    );

    // At the pull: possible as the page says; what ends something is only led to, by menu and by a short press.
    await enterSpecimen(page, 'M-1');
    await openSimulated(window);
    await soundIsHeardOrNot(window);
    const done = await window.request('pull.ready', { specimenId: 1, ...BY_HAND });
    expect(done).toMatchObject({ ok: true });
    await window.choose('go-archive');
    await at('archive');
    await takeTones(page);
    await window.choose('start');
    await stateIs(page, ['pulling']);
    // It sounds wherever one is, when it begins.
    await until(async () => (await takeTones(page)).join() === CUES.started.join(), 'the start is heard');
    await window.choose('go-archive');
    await at('archive');
    await window.choose('stop');
    await at('pull');
    await until(
      () => page.evaluate(() => document.activeElement?.id === 'act-stop'),
      'the button that has to be held has the focus',
    );
    for (const keys of [
      'Control+Backspace',
      'Control+End',
      'Control+B',
      'Escape',
      'Control+N',
      'Alt+2',
      'Control+S',
    ])
      await page.keyboard.press(keys);
    await window.choose('go-pull');
    const after = await window.request('session.get', {});
    expect(after).toMatchObject({ ok: true, value: { state: 'pulling' } });
    expect((await item('ready'))?.enabled).toBe(false);
    await window.request('pull.close', {});
    await until(async () => (await item('stop'))?.enabled === false, 'nothing is left to be ended');

    const cautions = page.getByRole('dialog').getByText('Guard closed').first();
    await window.choose('cautions');
    await cautions.waitFor();
    await page.keyboard.press('Escape');
    await cautions.waitFor({ state: 'detached' });
    // What is pressed while the page is loaded again waits for it.
    await window.app.evaluate(({ BrowserWindow, Menu }) => {
      BrowserWindow.getAllWindows()[0]?.webContents.reload();
      Menu.getApplicationMenu()?.getMenuItemById('cautions')?.click();
    });
    await cautions.waitFor();
  } finally {
    await window.end();
  }
});
