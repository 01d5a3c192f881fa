/** Faults P2 and P10 of the program shell: where the window opens, how it draws, which looks it takes. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { until } from './support/until.ts';

it('opens on a display that exists, though it stood elsewhere last time, and not below its smallest size', async () => {
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
  } finally {
    await window.end();
  }
});

it('takes the looks that were chosen, at once and at the next start', async () => {
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
    await first.app.evaluate(({ Menu }) => {
      Menu.getApplicationMenu()?.getMenuItemById('theme-contrast')?.click();
    });
    await first.page.locator('html[data-theme="contrast"]').waitFor();
    expect(
      await first.app.evaluate(
        ({ Menu }) => Menu.getApplicationMenu()?.getMenuItemById('theme-contrast')?.checked,
      ),
    ).toBe(true);
    await first.app.evaluate(({ Menu }) => {
      Menu.getApplicationMenu()?.getMenuItemById('theme-dark')?.click();
    });
    await first.page.locator('html[data-theme="soot"]').waitFor();
  } finally {
    await first.end();
  }
  const second = await GaugemarkWindow.open({ folder });
  try {
    const info = await second.request('window.info', {});
    expect(info).toMatchObject({ ok: true, value: { appearance: { theme: 'dark', dark: true } } });
  } finally {
    await second.end();
  }
});

it('draws without the graphics card when told to, by switch or by environment', async () => {
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

it('tells the menu to the page: its commands are heard there, and every item has a name', async () => {
  const window = await GaugemarkWindow.open({ folder: scratch() });
  try {
    await window.connected();
    const labels = await window.app.evaluate(({ Menu }) => {
      const items = Menu.getApplicationMenu()?.items ?? [];
      return items.flatMap((item) => item.submenu?.items.map((entry) => [entry.type, entry.label]) ?? []);
    });
    for (const [type, label] of labels) if (type !== 'separator') expect(label).not.toBe('');
    await window.app.evaluate(({ Menu }) => {
      Menu.getApplicationMenu()?.getMenuItemById('show-cautions')?.click();
    });
    const cautions = window.page.getByRole('dialog').getByText('Guard closed').first();
    await cautions.waitFor();
    await window.page.keyboard.press('Escape');
    await cautions.waitFor({ state: 'detached' });
    // What is pressed while the page is loaded again waits for it.
    await window.app.evaluate(({ BrowserWindow, Menu }) => {
      BrowserWindow.getAllWindows()[0]?.webContents.reload();
      Menu.getApplicationMenu()?.getMenuItemById('show-cautions')?.click();
    });
    await cautions.waitFor();
  } finally {
    await window.end();
  }
});
