/** The readout station learns a readout's lines, lets its numbers be named, and opens a second instrument beside it. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { expect, it, onTestFinished } from 'vitest';
import { READOUT_PROFILE_SCHEMA, readoutProfile } from '../../core/contract/readout-profile.ts';
import { station } from '../../electron/setup/demonstration-pull.mjs';
import { type Pty, makePty } from './drivers-pty.ts';
import { SPECIMEN, scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { until } from './support/until.ts';

async function chooseSecond(page: Page, port: string, profileName: string): Promise<void> {
  await page.getByRole('checkbox', { name: /second instrument/i }).check();
  await secondPort(page).fill(port);
  await secondProfile(page).selectOption(profileName);
}

const secondPort = (page: Page) =>
  page
    .getByRole('combobox', { name: 'Port of the second instrument' })
    .or(page.getByLabel('Port of the second instrument'))
    .first();
const secondProfile = (page: Page) =>
  page.getByRole('combobox', { name: 'Readout profile of the second instrument' });

/** The second instrument's extension is heard. */
async function extensionIsHeard(window: GaugemarkWindow): Promise<void> {
  await until(async () => {
    const session = await window.request('session.get', {});
    return (
      session.ok &&
      session.value.live.some(({ quantity, value }) => quantity === 'extension' && value !== null)
    );
  }, 'the extension is heard');
}

const tabbed = (name: string, quantity: 'force' | 'extension', unit: string) =>
  readoutProfile.parse({
    schema: READOUT_PROFILE_SCHEMA,
    name,
    serial: { baudRate: 9600 },
    format: { kind: 'delimited', delimiter: '\t', fields: ['load', 'way'] },
    channels: [{ field: 'load', quantity, unit: { kind: 'fixed', unit } }],
  });

/** Two ports that go on talking until the test ends: a load as `loadLine` gives it, an extension with its unit. */
async function twoTalking(
  folder: string,
  loadLine: (count: number) => string,
): Promise<[load: Pty, extension: Pty]> {
  const [load, extension] = [await makePty(folder, 'load'), await makePty(folder, 'extension')];
  onTestFinished(load.kill);
  onTestFinished(extension.kill);
  let count = 0;
  const timer = setInterval(() => {
    count++;
    void load.write(loadLine(count)).catch(() => undefined);
    void extension.write(`X=${(count / 1000).toFixed(3)} mm\r\n`).catch(() => undefined);
  }, 60);
  onTestFinished(() => {
    clearInterval(timer);
  });
  return [load, extension];
}

it('learns from a port and from recorded bytes, asks which number moves, keeps the profile; a second instrument stands beside it', async () => {
  const folder = scratch();
  const [load, extension] = await twoTalking(
    folder,
    // Two bare numbers: nothing in the line tells which is the load.
    (count) => `${(Math.sin(count / 9) * 40).toFixed(1)};${String(500 + (count % 3))}\r\n`,
  );
  const window = await GaugemarkWindow.open({ folder });
  try {
    await window.connected();
    const { page } = window;
    await station(page, 'Readout').click();
    await page.getByRole('textbox', { name: /Port by path/ }).fill(load.path);
    await page.getByRole('combobox', { name: 'DTR' }).selectOption('off');
    await page.getByRole('button', { name: 'Learn its lines…' }).click();
    await page.getByText(`Listening to ${load.path}`).first().waitFor();
    const first = page.getByRole('group', { name: 'Number 1', exact: true });
    await first.waitFor();
    // The numbers are live: the one that is pressed on is seen to move.
    await until(async () => /moved by [1-9]/.test((await first.textContent()) ?? ''), 'the number moves');
    await first.getByRole('combobox', { name: 'is' }).selectOption('force');
    await page.getByRole('textbox', { name: 'Name of the profile' }).fill('Bench display');
    await page.getByRole('button', { name: 'Keep this profile' }).click();
    await page.getByRole('alert').filter({ hasText: 'Say the unit of “1”' }).waitFor();
    // A key that leads elsewhere loses nothing of it.
    await page.keyboard.press('Alt+2');
    await page.locator('main[data-place="specimen"]').waitFor();
    await page.keyboard.press('Alt+3');
    await page.locator('main[data-place="readout"]').waitFor();
    expect(await page.getByRole('textbox', { name: 'Name of the profile' }).inputValue()).toBe(
      'Bench display',
    );
    expect(await first.getByRole('combobox', { name: 'is' }).inputValue()).toBe('force');
    expect(await page.getByRole('alert').allTextContents()).toEqual([]);
    await first.getByRole('combobox', { name: 'in', exact: true }).selectOption('kN');
    await page.getByRole('button', { name: 'Keep this profile' }).click();
    await page.getByText('The profile “Bench display” is kept').first().waitFor();
    const kept = await window.request('readout.profiles', {});
    const profile = kept.ok
      ? kept.value.profiles.find((one) => one.profile.name === 'Bench display')?.profile
      : null;
    expect(profile?.channels[0]).toMatchObject({ quantity: 'force', unit: { kind: 'fixed', unit: 'kN' } });
    expect(profile?.controlLines).toEqual({ dtr: false });
    await page.getByRole('button', { name: 'Stop listening', exact: true }).click();

    // From bytes that were recorded elsewhere; the page names the file, and sees no path.
    const recorded = join(folder, 'extension.bin');
    writeFileSync(
      recorded,
      Array.from({ length: 40 }, (_, k) => `X=${(k * k * 0.001).toFixed(3)} mm\r\n`).join(''),
    );
    await window.app.evaluate(({ dialog }, chosen) => {
      dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [chosen] });
    }, recorded);
    await page.getByRole('button', { name: 'Learn from recorded bytes…' }).click();
    await page.getByText('Proposed from extension.bin').first().waitFor();
    await page.getByRole('cell', { name: 'X=0.001 mm' }).first().waitFor();
    await page.getByRole('textbox', { name: 'Name of the profile' }).fill('Clip gauge');
    await page.getByRole('button', { name: 'Keep this profile' }).click();
    await page.getByText('The profile “Clip gauge” is kept').first().waitFor();

    await page.getByRole('combobox', { name: /^Readout profile How/ }).selectOption('Bench display');
    await chooseSecond(page, extension.path, 'Clip gauge');
    await page.getByRole('button', { name: 'Listen', exact: true }).click();
    await page.getByText(`Second instrument: ${extension.path}`).first().waitFor();
    await extensionIsHeard(window);
    await page
      .getByRole('cell', { name: /^X=0\.\d+ mm$/ })
      .first()
      .waitFor();
  } finally {
    await window.end();
  }
});

it('offers to learn the lines beside the alarm that none fits, by keyboard, and never during a pull', async () => {
  const folder = scratch();
  const pty = await makePty(folder, 'unfit');
  onTestFinished(pty.kill);
  const timer = setInterval(() => void pty.write('F 12.5 kN; X 0.125 mm\r\n').catch(() => undefined), 60);
  onTestFinished(() => {
    clearInterval(timer);
  });
  const window = await GaugemarkWindow.open({ folder });
  try {
    await window.connected();
    const { page } = window;
    const kept = await window.request('specimen.save', { specimen: SPECIMEN });
    const profile = tabbed('of another readout', 'force', 'kN');
    const ready = await window.request('pull.ready', {
      specimenId: kept.ok ? kept.value.specimenId : 0,
      source: { kind: 'serial', path: pty.path },
      profile,
      trigger: { kind: 'by-hand' },
      breakRule: { kind: 'by-hand' },
      tailS: null,
    });
    expect(ready).toMatchObject({ ok: true });
    const alarm = page
      .getByRole('log')
      .locator('.notice')
      .filter({ hasText: 'none of them fits the profile' });
    const learn = alarm.getByRole('button', { name: 'Learn its lines…' });
    await learn.focus();
    await page.keyboard.press('Enter');
    await page.getByText('A pull is being recorded; lines are learned before or after it.').last().waitFor();
    expect(await window.request('readout.learning', {})).toMatchObject({ value: { learning: null } });
    await window.request('pull.close', {});
    await until(async () => (await learn.getAttribute('aria-disabled')) === null, 'it can be pressed');
    await learn.focus();
    await page.keyboard.press('Enter');
    await page.getByText(`Listening to ${pty.path}`).first().waitFor();
    expect(await window.request('readout.learning', {})).toMatchObject({
      value: { learning: { source: { path: pty.path } } },
    });
  } finally {
    await window.end();
  }
});

it('learns the lines of the second instrument beside its own alarm, and leaves the first one as it was chosen', async () => {
  const folder = scratch();
  const [load, extension] = await twoTalking(folder, (count) => `${(40 + (count % 7)).toFixed(1)}\t0.1\r\n`);
  const window = await GaugemarkWindow.open({ folder });
  try {
    await window.connected();
    const { page } = window;
    for (const profile of [
      tabbed('Bench display', 'force', 'kN'),
      tabbed('Of another gauge', 'extension', 'mm'),
    ])
      expect(await window.request('readout.save-profile', { profile })).toMatchObject({ ok: true });
    await station(page, 'Readout').click();
    await page.getByRole('textbox', { name: /Port by path/ }).fill(load.path);
    const firstProfile = page.getByRole('combobox', { name: /^Readout profile How/ });
    await firstProfile.selectOption('Bench display');
    await chooseSecond(page, extension.path, 'Of another gauge');
    await page.getByRole('button', { name: 'Listen', exact: true }).click();

    const alarm = page
      .getByRole('log')
      .locator('.notice')
      .filter({ hasText: `the second instrument (${extension.path}), but none of them fits` });
    await alarm.getByRole('button', { name: 'Learn its lines…' }).click();
    await page.getByText(`Proposed from ${extension.path}`).first().waitFor();
    expect(await window.request('readout.learning', {})).toMatchObject({
      value: { learning: { source: { path: extension.path } } },
    });
    await page.getByRole('textbox', { name: 'Name of the profile' }).fill('Clip gauge');
    await page.getByRole('button', { name: 'Keep this profile' }).click();

    await until(
      async () => (await secondProfile(page).inputValue()) === 'Clip gauge',
      'it is the second one’s',
    );
    expect(await secondPort(page).inputValue()).toBe(extension.path);
    expect(await firstProfile.inputValue()).toBe('Bench display');
    await page.getByRole('button', { name: 'Listen', exact: true }).click();
    await page.getByText(`Second instrument: ${extension.path} · Clip gauge`).first().waitFor();
    await extensionIsHeard(window);
    const session = await window.request('session.get', {});
    expect(session).toMatchObject({
      value: { readout: { source: { path: load.path }, profileName: 'Bench display' } },
    });
  } finally {
    await window.end();
  }
});
