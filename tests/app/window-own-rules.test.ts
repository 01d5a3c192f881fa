/** A laboratory's own rules in the real window: offered beside the program's, what is wrong told, kept with the set. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { OWN_PACK } from '../unit/acceptance/judging.ts';
import { scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';

it('offers own rules, tells what is wrong with a file, and says later that a file has gone', async () => {
  const folder = scratch();
  const rules = join(folder, 'rules');
  mkdirSync(rules);
  writeFileSync(
    join(rules, 'our.json'),
    JSON.stringify({ ...OWN_PACK, id: 'our-shop', name: 'Our <b>shop</b>' }),
  );
  writeFileSync(join(rules, 'half.json'), '{"format": "gaugemark-rules"');
  const window = await GaugemarkWindow.open({ folder, args: ['--rules-folder', rules] });
  try {
    await window.connected();
    const { page } = window;
    await page.keyboard.press('Alt+1');
    await page.getByRole('button', { name: 'Make a set' }).press('Enter');
    await page.locator('#set-name').fill('Lap joint');
    const own = page.locator('.own-rules');
    await own.getByText('half.json').waitFor();
    expect(await own.innerText()).toMatch(/half\.json: not used\s+The file: it is not JSON/);
    expect(await own.innerText()).toContain('our.json: Our <b>shop</b>, issue 3');
    // The folder is the settings' business: a page that names another is not heard.
    const elsewhere = await window.request('rules.folder', { rulesFolder: '/etc' });
    expect(elsewhere).toMatchObject({ ok: true, value: { folder: rules } });

    // One of one's own is begun from what is chosen, as a file that is there to be changed, and offered at once.
    const pack = page.getByRole('combobox', { name: 'Rules and edition' });
    await pack.selectOption('asme-ix');
    await window.app.evaluate(
      ({ dialog }, filePath) => {
        dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath });
      },
      join(rules, 'own-asme-ix.json'),
    );
    await page.locator('#begin-own-rules').click();
    await own.getByText('own-asme-ix.json').waitFor();
    expect(await pack.locator('option[value="own-asme-ix"]').count()).toBe(1);
    await page
      .getByText(/from this folder they are offered/)
      .first()
      .waitFor();
    await page.locator('#read-rules-again').click();
    await page
      .getByText(/ was read: 2 used/)
      .first()
      .waitFor();
    // One that is saved elsewhere is not read, and it is said why; the folder's own name is no part of another's.
    await window.app.evaluate(({ dialog }, filePath) => {
      dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath });
    }, `${rules}-elsewhere.json`);
    await page.locator('#begin-own-rules').click();
    await page
      .getByText(/but the folder that is read is/)
      .first()
      .waitFor();

    await pack.selectOption('our-shop');
    await page.locator('#set-base1').fill('HB-9');
    await page.keyboard.press('Control+Enter');
    await page.getByText('Lap joint is kept.').first().waitFor();
    const kept = await window.request('set.get', { setId: 1 });
    expect(kept).toMatchObject({
      ok: true,
      value: { set: { origin: { file: 'our.json' }, pack: { id: 'our-shop', edition: 'issue 3' } } },
    });
    rmSync(join(rules, 'our.json'));
    const judged = await window.request('set.judge', { setId: 1 });
    expect(judged.ok ? judged.value.remarks : []).toEqual([
      expect.stringMatching(/Our <b>shop<\/b> \(our\.json\) are not in the rules folder any more/),
    ]);
  } finally {
    await window.end();
  }
});
