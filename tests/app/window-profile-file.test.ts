/** A readout profile from a file, in the real window: a bad file gets its sentence, a good one is kept and chosen. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { station } from '../../electron/setup/demonstration-pull.mjs';
import { PROFILE, scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { until } from './support/until.ts';

/** Of the profile's channels, the first that is no “other”. */
const FIRST_MEASURED = PROFILE.channels.findIndex(({ quantity }) => quantity !== 'other');

/** Stands in for the person at the dialog. */
async function willChoose(window: GaugemarkWindow, path: string): Promise<void> {
  await window.app.evaluate(({ dialog }, chosen) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [chosen] });
  }, path);
}

it('takes a readout profile from a file: bad files are refused with a sentence and keep nothing', async () => {
  const folder = scratch();
  const window = await GaugemarkWindow.open({ folder });
  try {
    await window.connected();
    const { page } = window;
    await station(page, 'Readout').click();
    const button = page.getByRole('button', { name: 'Profile from a file…' });
    const profiles = page.getByRole('combobox', { name: 'Readout profile' });

    const bad: readonly (readonly [string, string, RegExp])[] = [
      ['no-json.json', '{ "schema": ', /“no-json\.json” is not JSON text/],
      [
        'no-name.json',
        JSON.stringify({ ...PROFILE, name: undefined }),
        /“no-name\.json” is no readout profile: name/,
      ],
      ['no-channels.json', JSON.stringify({ ...PROFILE, channels: [] }), /“no-channels\.json”.*channels/],
    ];
    for (const [name, text, sentence] of bad) {
      writeFileSync(join(folder, name), text);
      await willChoose(window, join(folder, name));
      await button.click();
      await page.getByRole('alert').filter({ hasText: sentence }).waitFor();
      const kept = await window.request('readout.profiles', {});
      expect(kept.ok && kept.value.profiles.every(({ builtIn }) => builtIn)).toBe(true);
    }

    const good = join(folder, 'counted.json');
    writeFileSync(good, JSON.stringify(PROFILE));
    await willChoose(window, good);
    await button.click();
    await page.getByText(`The profile “${PROFILE.name}” is kept`).first().waitFor();
    await until(async () => (await profiles.inputValue()) === PROFILE.name, 'the kept profile is chosen');
    expect(await page.getByRole('alert').count()).toBe(0);
    // The port is chosen after it, as somebody with a file in hand does.
    await page.getByRole('textbox', { name: /^Port by path/ }).fill('/dev/ttyUSB7');
    await page.getByRole('combobox', { name: 'What it pulls' }).waitFor({ state: 'detached' });
    expect(await profiles.inputValue()).toBe(PROFILE.name);
    // What is picked stands while one looks elsewhere.
    await station(page, 'Specimen').click();
    await station(page, 'Readout').click();
    expect(await page.getByRole('textbox', { name: /^Port by path/ }).inputValue()).toBe('/dev/ttyUSB7');
    await until(async () => (await profiles.inputValue()) === PROFILE.name, 'its profile is chosen still');
    // Where readings come from is only a choice: taken back, named, and brought again.
    await page.evaluate(() => document.activeElement instanceof HTMLElement && document.activeElement.blur());
    await page.keyboard.press('Control+z');
    await page.getByText('Taken back: where readings come from.').first().waitFor();
    await page.getByRole('combobox', { name: 'What it pulls' }).waitFor();
    await page.keyboard.press('Control+Shift+Z');
    await page.getByRole('combobox', { name: 'What it pulls' }).waitFor({ state: 'detached' });
    expect(await profiles.inputValue()).toBe(PROFILE.name);
    const kept = await window.request('readout.profiles', {});
    expect(
      kept.ok && kept.value.profiles.filter(({ builtIn }) => !builtIn).map(({ profile }) => profile),
    ).toEqual([PROFILE]);

    // And handed on: what is saved is what another machine takes.
    const handedOn = join(folder, 'handed-on.json');
    await window.app.evaluate(({ dialog }, filePath) => {
      dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath });
    }, handedOn);
    // What was wrong with a file before is no longer of interest.
    await willChoose(window, join(folder, 'no-json.json'));
    await button.click();
    await page
      .getByRole('alert')
      .filter({ hasText: /is not JSON text/ })
      .waitFor();
    await page.getByRole('button', { name: 'Save it as a file…' }).click();
    await page.getByText(`The profile is in ${handedOn}`).first().waitFor();
    expect(await page.getByRole('alert').count()).toBe(0);
    expect(JSON.parse(readFileSync(handedOn, 'utf8'))).toEqual(PROFILE);

    // Scale and offset of its numbers, under the same name: what is offered from now on.
    await page.getByText('Scale and offset of its numbers…').click();
    const force = page.locator('.channel-factors fieldset').first();
    // Typed over the 1 that stands there, as who comes by a key types; behind it it would be eleven.
    await force.getByRole('textbox', { name: 'Scale, without a unit' }).focus();
    await page.keyboard.type('1.0025');
    await force.getByRole('textbox', { name: /^Offset, / }).fill('-0,5');
    await page.getByRole('button', { name: 'Keep the profile with these' }).click();
    await page
      .getByText(new RegExp(`The profile “${PROFILE.name}” is kept.*× 1\\.0025 − 0\\.5`))
      .first()
      .waitFor();
    const offered = await window.request('readout.profiles', {});
    expect(
      offered.ok && offered.value.profiles.filter(({ builtIn }) => !builtIn).map(({ profile }) => profile),
    ).toEqual([
      {
        ...PROFILE,
        channels: PROFILE.channels.map((one, i) =>
          i === FIRST_MEASURED ? { ...one, scale: '1.0025', offset: '-0.5' } : one,
        ),
      },
    ]);
  } finally {
    await window.end();
  }
});
