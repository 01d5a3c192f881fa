/** People of a machine in the real window: entered, corrected, retired, and offered where a name is asked for. */
import { expect, it } from 'vitest';
import { COMMIT_INTERVAL_MS_MAX } from '../../core/limits.ts';
import { scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';

/** By the menu, as its key does. */
const openPeople = (window: GaugemarkWindow): Promise<void> => window.choose('go-people');

it('enters a person with a PIN by keyboard, corrects the entry with it only, and offers who is here', async () => {
  const window = await GaugemarkWindow.open({ folder: scratch() });
  try {
    await window.connected();
    const { page } = window;
    await openPeople(window);
    await page.locator('main[data-place="people"]').waitFor();
    await page.locator('#add-person').press('Enter');
    // The field has the focus with its drawing: no letter is too quick.
    await page.keyboard.type('A. <b>Welder</b>');
    await page.keyboard.press('Tab');
    await page.keyboard.type('AW');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Space');
    await page.getByRole('radio', { name: 'with a PIN' }).check({ force: true });
    await page.locator('#person-pin').fill('4711');
    await page.locator('#person-pin-again').fill('4712');
    await page.keyboard.press('Enter');
    await page.getByText('The two entries differ').waitFor();
    await page.locator('#person-pin-again').fill('4711');
    await page.keyboard.press('Enter');
    const row = page.getByRole('row', { name: /AW/ });
    await row.waitFor();
    // What was typed is text, never markup.
    expect(await row.textContent()).toMatch(/^A\. <b>Welder<\/b>AWoperatorasked forhere$/);
    expect(await row.locator('b').count()).toBe(0);

    await row.getByRole('button').press('Enter');
    await page.locator('#person-sign').fill('AW2');
    await page.locator('#person-reason').fill('sign was taken twice');
    await page.locator('#person-pin-before').fill('0000');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').filter({ hasText: 'PIN' }).waitFor();
    await page.locator('#person-pin-before').fill('4711');
    await page.keyboard.press('Enter');
    await page.getByRole('row', { name: /AW2/ }).waitFor();

    // Offered wherever a name is asked for.
    await page.keyboard.press('Alt+4');
    const operator = page.getByRole('combobox', { name: 'Operator' });
    await operator.waitFor();
    // The same card says what this pull can lose at most.
    await page.getByText(`if the power goes, ${String(COMMIT_INTERVAL_MS_MAX)} ms at most`).waitFor();
    const list = await operator.getAttribute('list');
    const offered = (): Promise<(string | null)[]> =>
      page
        .locator(`datalist[id="${list ?? ''}"] option`)
        .evaluateAll((all) => all.map((one) => one.getAttribute('value')));
    expect(await offered()).toEqual(['A. <b>Welder</b>']);

    await openPeople(window);
    await page.getByRole('row', { name: /AW2/ }).getByRole('button').press('Enter');
    await page.locator('#person-reason').fill('works elsewhere');
    await page.locator('#person-pin-before').fill('4711');
    await page.locator('#retire-person').press('Enter');
    await page.getByRole('row', { name: /here no more/ }).waitFor();
    await page.keyboard.press('Alt+4');
    await operator.waitFor();
    expect(await page.locator('datalist option[value="A. <b>Welder</b>"]').count()).toBe(0);
    const answer = await window.request('people.list', {});
    expect(answer).toMatchObject({
      ok: true,
      value: { people: [{ sign: 'AW2', retired: true, hasPin: true }] },
    });
  } finally {
    await window.end();
  }
});
