/** Many pulls looked at together in the real window, by keys alone: curves over each other, results over time, evaluated again. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { keepEvaluation } from '../../core/archive/evaluation-store.ts';
import { archiveOfMany } from './support/archive-of-many.ts';
import { ALL_GROUNDS, bringAxe, faultsIn } from './support/looked-over.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';

const PULLS = 5;
/** A value that no evaluation of this curve gives. */
const AS_IF_BEFORE_MPA = 1_000;

function fivePulls(folder: string): void {
  const archive = archiveOfMany(folder, PULLS, () => ({
    geometry: { kind: 'round', diameter: '5.003 mm' },
    extensometerGaugeLength: '25 mm',
  }));
  // As an earlier program might have stated it.
  archive.sets((connection, keeping) =>
    keepEvaluation(
      connection,
      {
        pullId: 2,
        specimenId: archive.getPull(2).specimenId,
        options: {},
        sources: [],
        values: [{ symbol: 'Rm', value: AS_IF_BEFORE_MPA, unit: 'MPa' }],
        methodVersion: '1',
        supersedes: null,
        reason: 'first year',
      },
      keeping,
    ),
  );
  archive.close();
}

test('curves are laid over each other, read out, compared and saved; results are seen over time; a search is evaluated again', async () => {
  const { folder, remove } = scratchFolder();
  fivePulls(folder);
  const window = await GaugemarkWindow.open({ folder });
  const { page } = window;
  const press = async (...keys: string[]): Promise<void> => {
    for (const key of keys) await page.keyboard.press(key);
  };
  const focusedId = (): Promise<string> => page.evaluate(() => document.activeElement?.id ?? '');
  /** Tab until the keys stand on it. */
  const tabTo = async (id: string): Promise<void> => {
    for (let i = 0; i < 60; i++) {
      if ((await focusedId()) === id) return;
      await press('Tab');
    }
    throw new Error(`Tab never comes to ${id}`);
  };
  try {
    await window.connected();
    await press('Control+f');
    await page.getByText(`${String(PULLS)} pulls`).waitFor();

    // Two rows marked by keys: the newest and the one below it.
    await press('ArrowDown', 'Space', 'ArrowDown', 'Space');
    await expect.poll(() => page.locator('.mark-cell input:checked').count()).toBe(2);
    // A mark is only a choice: it is taken back, and brought again.
    await press('Control+z');
    await expect.poll(() => page.locator('.mark-cell input:checked').count()).toBe(1);
    await press('Control+Shift+Z');
    await expect.poll(() => page.locator('.mark-cell input:checked').count()).toBe(2);
    // What is marked goes to a spreadsheet: units in the head, numbers alone.
    await press('Control+c');
    await page.getByText('3 lines copied').first().waitFor();
    const copied = await window.app.evaluate(({ clipboard }) => clipboard.readText());
    expect(copied).toMatch(/^Pull no\.\tSpecimen\tWhen\tPeak load, \w+\tStrength, \w+\t/);
    expect(
      copied
        .split('\n')
        .slice(1)
        .map((line) => line.split('\t').slice(0, 2).join(' ')),
    ).toEqual(['5 K-5', '4 K-4']);
    // Ctrl+A chooses all that was found, marked or not, and no text of the page.
    await press('Control+a', 'Control+c');
    await page
      .getByText(`${String(PULLS + 1)} lines copied`)
      .first()
      .waitFor();
    expect(await page.evaluate(() => document.getSelection()?.toString())).toBe('');
    await press('Shift+Tab');
    await tabTo('lay-over');
    await press('Enter');
    expect(await focusedId()).toBe('overlay-first');
    await expect.poll(() => page.locator('.overlay-legend li[data-state="ready"]').count()).toBe(2);

    // The second curve is compared to the first; the cursor goes to the peak, then on in the order of time.
    await tabTo('overlay-legend');
    await press('ArrowDown', 'd', 'ArrowUp');
    await page.getByText('K-5 less K-4').first().waitFor();
    // Both are the same published curve.
    await page.getByText('Largest difference 0').waitFor();
    await bringAxe(page);
    const faults = await faultsIn(page, 'curves with their difference', ALL_GROUNDS);
    await press('Enter', 'p');
    expect(await focusedId()).toBe('overlay-plot');
    const readOut = page.locator('.overlay-read-out');
    await expect.poll(() => readOut.textContent()).toMatch(/^K-5, reading \d+: .*load/);
    const readingAt = async (): Promise<number> =>
      Number(/reading (\d+)/.exec((await readOut.textContent()) ?? '')?.[1]);
    const peak = await readingAt();
    await press('ArrowRight');
    await expect.poll(readingAt).toBeGreaterThan(peak);
    await press('ArrowLeft', '+', '+', 'Control+ArrowRight', '0', 'ArrowDown', 'y');
    await expect.poll(() => readOut.textContent()).toMatch(/^K-4, reading/);

    // Saved from the same drawing, as text and as pixels; where, is asked by the program itself.
    for (const form of ['svg', 'png'] as const) {
      const to = join(folder, `picture.${form}`);
      await window.app.evaluate(({ dialog }, filePath) => {
        dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath });
      }, to);
      await page.locator(`#overlay-${form}`).focus();
      await press('Enter');
      await expect.poll(() => existsSync(to)).toBe(true);
    }
    expect(readFileSync(join(folder, 'picture.svg'), 'utf8')).toContain('>K-4<');
    // PNG signature: ISO/IEC 15948, 5.2.
    expect(readFileSync(join(folder, 'picture.png')).subarray(0, 8).toString('hex')).toBe('89504e470d0a1a0a');

    // Results over time: all five, each the same strength, so that the bound is that strength.
    await press('Escape');
    await page.locator('#see-trend').focus();
    await press('Enter');
    await page.getByText('5 of 5 pulls evaluated; 5 give it').waitFor();
    // What is chosen of the picture is only a choice.
    await page.locator('#trend-view').selectOption('welder');
    await press('Control+z');
    expect(await page.locator('#trend-view').inputValue()).toBe('individuals');
    const facts = (await page.locator('.trend-figures').textContent()) ?? '';
    expect(facts).toMatch(/values5mean[\d\u202f.]+ (MPa|psi)/);
    expect(await page.locator('#tolerance-bound').textContent()).toMatch(/noncentral t/);

    // The search evaluated again: the one that was stated otherwise is listed, nothing is kept unasked.
    await press('Escape');
    await page.locator('#evaluate-found-again').focus();
    await press('Enter', 'Enter');
    await page.getByText('5 of 5 evaluated; 1 changed; 4 had nothing stated before').waitFor();
    expect(await page.locator('.again-table').textContent()).toContain('evaluation 1, method 1');
    faults.push(...(await faultsIn(page, 'what was evaluated again', ALL_GROUNDS)));
    expect(faults).toEqual([]);
    const history = async () => {
      const answer = await window.request('evaluation.history', { pullId: 2 });
      return answer.ok ? answer.value.evaluations : [];
    };
    expect(await history()).toHaveLength(1);
    await tabTo('again-reason');
    await page.keyboard.type('program of this year');
    await tabTo('again-keep');
    await press('Enter');
    await page.getByText('kept as evaluation 2').waitFor();
    expect((await history()).at(-1)).toMatchObject({ supersedes: 1, reason: 'program of this year' });
  } finally {
    await window.end();
    remove();
  }
});
