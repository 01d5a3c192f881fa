/** A stray key loses nothing that was typed: Escape and Alt with a digit leave a form, and it is found as it was left. */
import type { Locator } from 'playwright';
import { expect, it } from 'vitest';
import { scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { chooseSi } from './support/simulated-readout.ts';
import { pullSimulated } from './support/window-steps.ts';
import { enterSpecimen } from '../../electron/setup/demonstration-pull.mjs';

it('what is typed outlives its form, until it is kept or given up by its own button', async () => {
  const window = await GaugemarkWindow.open({ folder: scratch() });
  try {
    await window.connected();
    const { page } = window;
    const at = (place: string) => page.locator(`main[data-place="${place}"]`).waitFor();
    const press = (id: string) => page.locator(`#${id}`).click();
    const says = (entry: Locator, text: string) => expect.poll(() => entry.inputValue()).toBe(text);
    await chooseSi(page);
    await enterSpecimen(page, 'P-1');
    await pullSimulated(window);

    // The note on the fracture, half done, and another station by a key.
    await page.keyboard.press('Alt+5');
    await at('fracture');
    const appearance = page.getByRole('combobox', { name: 'What the fracture looks like' });
    await page.locator('input[name="fracture-place"]').nth(1).check({ force: true });
    await appearance.fill('half a cup');
    await page.keyboard.press('Alt+6');
    await at('result');
    // Nothing of it was kept, and the next step is to do so.
    await page.locator('#to-fracture.call').waitFor();
    await page.keyboard.press('Alt+5');
    await says(appearance, 'half a cup');
    expect(await page.locator('input[name="fracture-place"]').nth(1).isChecked()).toBe(true);
    await press('keep-fracture');
    await page.locator('#to-result.call').waitFor();
    await says(appearance, 'half a cup');

    // Another evaluation, and Escape.
    await press('to-result');
    await press('evaluate-again');
    const reason = page.locator('#evaluation-reason');
    await page.getByText('Corrections of the readings').click();
    const zero = page.getByRole('textbox', { name: 'Zero of the load', includeHidden: true });
    await zero.fill('12 N');
    await reason.fill('the grip was not zeroed');
    await page.keyboard.press('Escape');
    await reason.waitFor({ state: 'detached' });
    await press('evaluate-again');
    await says(reason, 'the grip was not zeroed');
    await says(zero, '12 N');
    // Given up by its button it is gone.
    await press('give-evaluation-up');
    await reason.waitFor({ state: 'detached' });
    await press('evaluate-again');
    await says(reason, '');
    await says(zero, '');
    await page.keyboard.press('Escape');

    // An instrument, and another station by a key.
    await page.keyboard.press('Alt+9');
    await press('add-instrument');
    const name = page.locator('#instrument-name');
    await name.fill('Load cell 3');
    await page.keyboard.press('Alt+6');
    await at('result');
    await page.keyboard.press('Alt+9');
    await press('add-instrument');
    await says(name, 'Load cell 3');
    // It says that what is typed goes with it, and where nothing is typed it does not.
    await page.getByRole('button', { name: 'Leave it: nothing typed is kept' }).click();
    await press('add-instrument');
    await says(name, '');
    await page.getByRole('button', { name: 'Leave it as it is', exact: true }).waitFor();

    // Why a pull is void, and Escape.
    await page.keyboard.press('Alt+8');
    await page.getByRole('button', { name: 'Open the pull of P-1' }).click();
    await press('void-pull');
    const why = page.getByRole('dialog').getByRole('textbox', { name: 'Reason' });
    await why.fill('slipped in the grip');
    await page.keyboard.press('Escape');
    await why.waitFor({ state: 'detached' });
    await press('void-pull');
    await says(why, 'slipped in the grip');
    // In a text Ctrl+Z takes back what was typed there.
    await why.pressSequentially(' twice');
    await page.keyboard.press('Control+z');
    await expect.poll(() => why.inputValue()).not.toContain('twice');

    // The window would lose it: it asks, and goes back.
    await window.app.evaluate(({ dialog }) => {
      const asked: unknown[] = [];
      Object.assign(globalThis, { asked });
      dialog.showMessageBox = ((_window: unknown, options: unknown) => {
        asked.push(options);
        return Promise.resolve({ response: 0, checkboxChecked: false });
      }) as typeof dialog.showMessageBox;
    });
    const close = () =>
      window.app.evaluate(({ BrowserWindow }) => {
        BrowserWindow.getAllWindows()[0]?.close();
        return (globalThis as unknown as { asked: { message: string }[] }).asked.map(
          ({ message }) => message,
        );
      });
    await expect.poll(close).toContain('Typed and not kept: reason for an act.');
    await page.getByRole('dialog').getByRole('button', { name: 'Leave it: nothing typed is kept' }).click();
    await why.waitFor({ state: 'detached' });
    await close().catch(() => undefined);
    await expect.poll(() => window.main.exitCode).not.toBeNull();
  } finally {
    await window.end();
  }
});
