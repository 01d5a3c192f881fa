/** The archive in the real window: found by typing, walked through by keys, opened beside the table, searches kept. */
import { expect, test } from 'vitest';
import { builtInPacks } from '../../core/acceptance/packs.ts';
import { joinSet } from '../../core/archive/member-store.ts';
import { saveSet } from '../../core/archive/set-store.ts';
import { archiveOfMany } from './support/archive-of-many.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';

const PULLS = 120;

function manyPulls(folder: string): void {
  archiveOfMany(folder, PULLS, (number) => ({
    geometry: { kind: 'round', diameter: '10 mm' },
    notes: number % 40 === 0 ? 'undercut at the toe' : 'as welded',
  })).close();
}

test('pulls are found by a word of their notes, walked through by keys and opened beside the table', async () => {
  const { folder, remove } = scratchFolder();
  manyPulls(folder);
  const window = await GaugemarkWindow.open({ folder });
  const { page } = window;
  try {
    await window.connected();
    await page.keyboard.press('Control+f');
    await page.getByText(`${String(PULLS)} pulls`).waitFor();
    // Only what can be seen is in the page, and every row has its picture.
    await page.getByRole('button', { name: `Open the pull of K-${String(PULLS)}`, exact: true }).waitFor();
    expect(await page.locator('.found-rows .found-row').count()).toBeLessThan(60);
    await expect.poll(() => page.locator('.small-curve path[d^="M"]').count()).toBeGreaterThan(5);

    // From the field into the table, to its end and back up: the last row is the first pull that was kept.
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('End');
    await page.getByRole('button', { name: 'Open the pull of K-1', exact: true }).waitFor();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'K-2', exact: true }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('heading', { name: 'K-2', exact: true }).waitFor({ state: 'detached' });

    // The field takes keys as soon as it is called: a frame later the first letters of somebody quick are gone.
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'K-2', exact: true }).waitFor();
    const called = await page.evaluate(() => {
      document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'f', ctrlKey: true, bubbles: true }));
      return document.activeElement?.id;
    });
    expect(called).toBe('archive-search');
    await page.keyboard.type('undercut oka');
    await page.getByText('3 pulls').waitFor();
    await page.getByText('Saved searches').click();
    // By keys alone: saved, and a name that was given wrongly forgotten again, with the focus where the next one goes.
    await page.getByLabel('Save this search as').fill('bat toes');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Forget “bat toes”' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'bat toes', exact: true }).waitFor({ state: 'detached' });
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('save-search-as');
    await page.keyboard.press('Enter');
    await page.getByText('Write a name for this search first.').first().waitFor();
    await page.keyboard.type('bad toes');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'bad toes', exact: true }).waitFor();
    await page.getByLabel('Find').fill('');
    await page.getByText(`${String(PULLS)} pulls`).waitFor();
    await page.getByRole('button', { name: 'bad toes', exact: true }).click();
    await page.getByText('3 pulls').waitFor();

    // Sorted by a column, and a filter laid over the text.
    await page.getByRole('columnheader', { name: 'Specimen' }).getByRole('button').click();
    await expect
      .poll(() => page.locator('.found-rows .open-pull').allTextContents())
      .toEqual(['K-120', 'K-40', 'K-80']);
    // A column sorts, unless the curves stand in it, and says by which and in which direction it stands.
    await page.getByText('Columns', { exact: true }).click();
    for (const name of ['Readings', 'Doubts']) await page.getByLabel(name, { exact: true }).check();
    for (const name of ['Verdict', 'Broke in', 'Readings', 'Doubts']) {
      const head = page.getByRole('columnheader', { name });
      await head.getByRole('button').click();
      await expect.poll(() => head.getAttribute('aria-sort')).toBe('descending');
    }
    const saidOfSet = ['Rules', 'Base metal', 'Filler', 'Heat', 'Filler lot', 'Welder'];
    for (const name of saidOfSet) await page.getByRole('checkbox', { name, exact: true }).check();
    for (const name of saidOfSet) {
      const head = page.getByRole('columnheader', { name, exact: true });
      await head.getByRole('button').click();
      await expect.poll(() => head.getAttribute('aria-sort')).toBe('ascending');
    }
    expect(await page.getByRole('columnheader', { name: 'Curve' }).getAttribute('title')).toContain(
      'no order',
    );
    // Other columns are chosen, what they say comes with the rows that are shown.
    await page.getByLabel('Strength, unrounded', { exact: true }).check();
    await page.getByRole('columnheader', { name: 'Strength, unrounded' }).waitFor();
    await page.getByText('Filters', { exact: true }).click();
    await page.getByLabel('Section').selectOption('flat');
    await page.getByText('No kept pull fits this search.').waitFor();
    // What can't be read is not asked: what stands there is of the search before, so nothing is done with all of it.
    await page.getByLabel('Section').selectOption('round');
    await page.getByText('3 pulls').waitFor();
    await page.getByLabel('Strength from').fill('sixty');
    await page.locator('.found-count').getByText('A filter can’t be read yet').waitFor();
    for (const act of ['see-trend', 'evaluate-found-again', 'mark-all'])
      expect(await page.locator(`#${act}`).getAttribute('aria-disabled'), act).toBe('true');
    await page.getByLabel('Strength from').fill('');
    await page.getByText('3 pulls').waitFor();
    // A day is no day while another form of it is typed, and is told once it is left; arrows go from day to day.
    const from = page.getByLabel('From', { exact: false }).first();
    await from.fill('4.3.2026');
    await from.press('Tab');
    await page.getByText('This is no day; write year, month and day, like 2026-03-04.').waitFor();
    await page.locator('.found-count').getByText('A filter can’t be read yet').waitFor();
    await from.fill('1999/12/31');
    await from.press('ArrowUp');
    expect(await from.inputValue()).toBe('2000-01-01');
    await page.getByText('This is no day').waitFor({ state: 'detached' });
    await page.getByText('1 January 2000').first().waitFor();
    await page.getByText('3 pulls').waitFor();
    await page.locator('#check-archive').click();
    await page.locator('.check-lines').getByText('every page of the file is sound').waitFor();
  } finally {
    await window.end();
    remove();
  }
});

test('a verdict stands in the table without being asked for, though nobody has judged the set', async () => {
  const { folder, remove } = scratchFolder();
  const archive = archiveOfMany(folder, 14, () => ({ geometry: { kind: 'round', diameter: '5.003 mm' } }));
  archive.noteFracture({ pullId: 1, note: { place: 'base-metal' } });
  archive.sets((connection) => {
    const form = {
      name: 'Bracket',
      purpose: 'procedure-qualification',
      rulePackId: 'asme-ix',
      specimenType: 'transverse-turned',
      baseMetals: [{ designation: 'plate of our own', minimum: '1300 MPa' }],
    };
    const keeping = { wallMs: Date.now(), programVersion: 'test', packs: builtInPacks() };
    const setId = saveSet(connection, { form }, keeping);
    joinSet(connection, { setId, specimenId: 1 }, Date.now());
    // Later ones, so that neither it nor its specimen is among those that are listed.
    for (let i = 1; i <= 30; i++)
      saveSet(connection, { form: { ...form, name: `Lug ${String(i)}` } }, keeping);
  });
  archive.close();
  const window = await GaugemarkWindow.open({ folder });
  const { page } = window;
  try {
    await window.connected();
    await page.keyboard.press('Control+f');
    const row = page.getByRole('row').filter({ has: page.getByText('K-1', { exact: true }) });
    await row.getByText(/accepted|rejected|undecided/).waitFor();
    const other = page.getByRole('row').filter({ has: page.getByText('K-2', { exact: true }) });
    // In no set: that is not the same as not judged.
    expect(await other.getByText('not judged').count()).toBe(0);
    await row.click();
    await page.getByRole('heading', { name: 'K-1', exact: true }).waitFor();

    // What was kept long ago is found by its name at its own station, without a pull too.
    await page.keyboard.press('Alt+1');
    const bracket = page.getByRole('button', { name: /Bracket/ });
    await page.getByText('the newest 30; type part of a name for older ones').waitFor();
    expect(await bracket.count()).toBe(0);
    await page.getByLabel('Find a set by its name').fill('nowhere');
    await page.getByText('No set has this in its name.').waitFor();
    await page.getByLabel('Find a set by its name').fill('brack');
    await bracket.waitFor();
    await page.keyboard.press('Alt+2');
    const first = page.getByRole('button', { name: /K-1 / });
    await page.getByText('the newest 12; type part of a name for older ones').waitFor();
    expect(await first.count()).toBe(0);
    await page.getByLabel('Find the specimen by its name').fill('K-1');
    await first.click();
    await expect.poll(() => page.locator('#specimen-identity').inputValue()).toBe('K-1');
  } finally {
    await window.end();
    remove();
  }
});
