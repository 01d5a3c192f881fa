/**
 * A frame without a port, in the real window: the specimen measured by a calliper that types (value and Enter, as such
 * calliper interfaces send them: common practice, no source), the peak typed from the display, the arithmetic on the
 * board. Closed forms: Rm = Fm / (b·t).
 */
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { expect, it } from 'vitest';
import { scratch } from './recorder-process.ts';
import { DrawnComponents } from './support/drawn-components.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { ALL_GROUNDS, bringAxe, faultsIn } from './support/looked-over.ts';
import { chooseSi } from './support/simulated-readout.ts';
import { until } from './support/until.ts';

/** As a calliper's interface sends it: the keys of the value, then Enter, with nothing between. */
async function calliperSends(page: Page, value: string): Promise<void> {
  await page.keyboard.type(value);
  await page.keyboard.press('Enter');
}

const focusedLabel = (page: Page): Promise<string | null> =>
  page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? null);
const focusIs = (page: Page, label: string): Promise<void> =>
  until(async () => (await focusedLabel(page)) === label, `the entry is "${label}"`);

it('measures by calliper, takes a typed peak, and writes the arithmetic on the whole screen', async () => {
  const folder = scratch();
  const window = await GaugemarkWindow.open({ folder });
  try {
    await window.connected();
    const { page } = window;
    const drawn = await DrawnComponents.from(page);
    await chooseSi(page);
    await page.keyboard.press('Alt+2');
    await page.locator('#specimen-identity').fill('NP-1');

    // Enter behind the name: what the calliper sends must not run into it.
    const width = 'Width, measurement 1';
    await page.keyboard.press('Enter');
    await focusIs(page, width);
    await calliperSends(page, '20.02mm');
    await focusIs(page, width.replace(/1$/, '2'));
    await calliperSends(page, '19.98mm');
    // Nothing more of this size: Enter alone.
    await focusIs(page, width.replace(/1$/, '3'));
    await page.keyboard.press('Enter');
    await until(
      async () => /^Thickness.*1$/.test((await focusedLabel(page)) ?? ''),
      'the next size is thickness',
    );
    const thickness = (await focusedLabel(page)) ?? '';
    // A lost decimal point is asked about; what the calliper sends next takes its place.
    await calliperSends(page, '24.9in');
    await page.getByText(/Is 24\.9 ?in right\?/).waitFor();
    expect(await focusedLabel(page)).toBe(thickness);
    await calliperSends(page, '6mm');
    await page.getByText(/Is 24\.9 ?in right\?/).waitFor({ state: 'detached' });
    await focusIs(page, thickness.replace(/1$/, '2'));
    await page.keyboard.press('Enter');
    await calliperSends(page, '50mm');
    await page.keyboard.press('Control+Enter');
    await until(async () => {
      const kept = await window.request('specimen.list', { limit: 1 });
      return kept.ok && kept.value.items.length === 1;
    }, 'the specimen is kept');
    const kept = await window.request('specimen.list', { limit: 1 });
    expect(kept).toMatchObject({
      ok: true,
      value: {
        items: [
          {
            specimen: {
              id: 'NP-1',
              geometry: { kind: 'flat', width: ['20.02mm', '19.98mm'], thickness: ['6mm'] },
            },
          },
        ],
      },
    });

    // The peak from the display: a unit is offered, an improbable load is asked about, a right one kept.
    await page.keyboard.press('Alt+4');
    await page.locator('.typed-pull summary').press('Enter');
    await page.locator('#typed-load').fill('48');
    await page.keyboard.press('Tab');
    expect(await page.locator('#typed-load').inputValue()).toBe('48 kN');
    await page.locator('#keep-typed').press('Enter');
    await page.locator('main[data-place="fracture"]').waitFor();
    const pull = await window.request('pull.get', { pullId: 1 });
    expect(pull).toMatchObject({ ok: true, value: { typed: { load: '48 kN' }, readingCount: 0 } });
    await page.locator('input[name="fracture-place"][value="weld-metal"]').check({ force: true });
    await page.keyboard.press('Control+Enter');
    await page.locator('#to-result').waitFor();
    await page.keyboard.press('Alt+6');
    await page.locator('#to-board').waitFor();

    // A dimension corrected from the result: what it rests on changes with it. 48 000 N / (20.00 mm · 5 mm) = 480 MPa.
    const strength = page.locator('.result-row[data-symbol="Rm"] .result-value');
    const first = page.getByRole('textbox', { name: 'Thickness, measurement 1' });
    const changed = page.locator('[data-corrected-pull="1"] tr[data-changed="Rm"] td');
    /** Old and new strength stand side by side, and nothing is kept, before the correction is. */
    const correctTo = async (
      thicknessText: string,
      reason: string,
      [before, after]: readonly [RegExp, RegExp],
    ): Promise<void> => {
      const kept = await window.request('pull.specimen', { pullId: 1 });
      await page.locator('#correct-dimensions').press('Enter');
      await first.fill(thicknessText);
      await page.keyboard.press('Tab');
      await page.locator('#correction-reason').fill(reason);
      await page.locator('#correction-by').fill('operator 2');
      await page.locator('#show-correction').waitFor();
      // Kept unseen it is not.
      await page.locator('#keep-specimen').press('Enter');
      await page.locator('#show-correction').press('Enter');
      await changed.first().waitFor();
      expect(await faultsIn(page, 'a correction of dimensions', ALL_GROUNDS)).toEqual([]);
      expect(await changed.nth(0).innerText()).toMatch(before);
      expect(await changed.nth(1).innerText()).toMatch(after);
      expect(await window.request('pull.specimen', { pullId: 1 })).toEqual(kept);
      await page.locator('#keep-specimen').press('Enter');
      await page.locator('#keep-specimen').waitFor({ state: 'detached' });
      await page.keyboard.press('Alt+6');
    };
    await bringAxe(page);
    await page.locator('#correct-dimensions').press('Enter');
    await first.fill('5 mm');
    await page.locator('#leave-correction').press('Enter');
    await page.locator('#leave-correction').waitFor({ state: 'detached' });
    expect(await first.inputValue()).toBe('6mm');
    await page.keyboard.press('Alt+6');
    expect(await strength.innerText()).toMatch(/^400\b/);
    const evaluated = await window.request('evaluation.keep', {
      pullId: 1,
      options: { rounding: 'iso-6892-1' },
      supersedes: null,
      reason: 'rounded as the contract says',
    });
    expect(evaluated).toMatchObject({ ok: true, value: { evaluationId: 1 } });
    await correctTo('5 mm', 'read wrongly', [/^400\b/, /^480\b/]);
    await until(async () => /^480\b/.test(await strength.innerText()), 'the result rests on the correction');
    await correctTo('6 mm', 'read rightly at first', [/^480\b/, /^400\b/]);
    expect(await drawn.notDrawnAsSaid('window-calliper-typed-board')).toEqual([]);
    await until(
      async () => /^400\b/.test(await strength.innerText()),
      'the result rests on the newest correction',
    );

    // Each correction kept an evaluation in the place of the one before, by the same options, and says who and why.
    const said = (reason: string, supersedes: number, value: number) => ({
      options: { rounding: 'iso-6892-1' },
      supersedes,
      reason,
      by: 'operator 2',
      values: expect.arrayContaining([{ symbol: 'Rm', value, unit: 'MPa' }]) as unknown,
    });
    expect(await window.request('evaluation.history', { pullId: 1 })).toMatchObject({
      ok: true,
      value: {
        evaluations: [
          { evaluationId: 1 },
          said('read wrongly', 1, 480),
          said('read rightly at first', 2, 400),
        ],
      },
    });
    expect(await window.request('pull.specimen', { pullId: 1 })).toMatchObject({
      ok: true,
      value: { by: 'operator 2', reason: 'read rightly at first' },
    });

    // The board takes the screen, and gives it back with the same key that closes it.
    await window.app.evaluate(({ BrowserWindow }) => {
      const [its] = BrowserWindow.getAllWindows();
      if (its === undefined) throw new Error('There is no window.');
      const asked: boolean[] = [];
      Object.assign(globalThis, { asked });
      // A display in memory has no window manager that could do it.
      its.setFullScreen = (on: boolean) => {
        asked.push(on);
      };
      its.isFullScreen = () => asked.at(-1) ?? false;
    });
    const asked = (): Promise<boolean[]> =>
      window.app.evaluate(() => (globalThis as unknown as { asked: boolean[] }).asked);
    await page.locator('#to-board').press('Enter');
    const board = page.locator('dialog.board');
    await board.waitFor();
    await until(async () => (await asked()).length === 1, 'the whole screen is asked for');
    await page.keyboard.press('h');
    for (let step = 0; step < 5 && (await board.locator('.board-ask').count()) === 0; step++)
      await page.keyboard.press('Space');
    await board.locator('.board-ask').waitFor();
    expect(await board.locator('.board-answer').count()).toBe(0);
    await page.keyboard.press('h');
    // On to the tensile strength: 48 000 N / (20.00 mm · 6 mm) = 400 MPa.
    for (let step = 0; step < 20 && !(await board.innerText()).includes('400'); step++)
      await page.keyboard.press('Space');
    expect(await board.innerText()).toMatch(/400\s*MPa/);
    const before = await board.locator('.board-place').textContent();
    await page.keyboard.press('ArrowLeft');
    expect(await board.locator('.board-place').textContent()).not.toBe(before);
    await page.keyboard.press('Escape');
    await board.waitFor({ state: 'detached' });
    await until(async () => (await asked()).length === 2, 'the screen is given back');
    expect(await asked()).toEqual([true, false]);

    // In the archive the same key closes the board first, and only then the pull.
    await page.keyboard.press('Alt+8');
    await page.locator('main').getByRole('button', { name: 'NP-1' }).press('Enter');
    await page.locator('#to-board').press('Enter');
    await board.waitFor();
    await page.keyboard.press('Escape');
    await board.waitFor({ state: 'detached' });
    await page.locator('#pull-certificate').waitFor();

    // In no set: its certificate says everything but a verdict.
    const out = join(folder, 'typed.pdf');
    await window.app.evaluate(({ dialog }, path) => {
      dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: path });
    }, out);
    await page.locator('#pull-certificate').press('Enter');
    await page.getByRole('heading', { name: 'Certificate of pull 1' }).waitFor();
    await page.getByRole('region', { name: 'What it says' }).waitFor();
    await page.locator('#write-pdf').press('Enter');
    await page.locator('.written').waitFor({ timeout: 60_000 });
    const text = execFileSync('pdftotext', ['-layout', out, '-'], { encoding: 'utf8' });
    expect(text).toMatch(/verdict\s+not judged: no rules chosen/);
    expect(text).toMatch(/typed in from the display of the frame; no curve was recorded/);
    expect(text).toMatch(/broke\s+in the weld metal/);
  } finally {
    await window.end();
  }
});
