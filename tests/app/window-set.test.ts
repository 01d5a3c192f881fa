/** From a set to its certificate by keyboard alone, and what the certificate then says on paper. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import {
  KEYBOARD_SET,
  PRESSES_MAX,
  fromSetToCertificate,
  readyForKeyboard,
} from './support/keyboard-path.ts';
import { printing, printsManyPages } from './support/many-pages.ts';

/** Stopped while it is asked where: nothing is written, and the certificate keeps its number. */
async function stoppedWriting(window: GaugemarkWindow, path: string): Promise<void> {
  const { page } = window;
  await window.app.evaluate(({ dialog, ipcMain }, to) => {
    dialog.showSaveDialog = () =>
      new Promise((resolve) => {
        ipcMain.once('chosen', () => resolve({ canceled: false, filePath: to }));
      });
  }, path);
  await page.keyboard.press('Alt+7');
  await page.locator('#write-pdf').press('Enter');
  await window.request('window.stop-writing', {});
  await window.app.evaluate(({ ipcMain }) => ipcMain.emit('chosen'));
  await page.getByText('Writing was stopped and no file was made.').waitFor();
  expect(existsSync(path)).toBe(false);
}

/** Stopped while the engine prints some hundred pages: no file, and no hidden window left once it has ended. */
async function stoppedPrinting(window: GaugemarkWindow, path: string): Promise<void> {
  const { page } = window;
  await window.app.evaluate(({ dialog }, to) => {
    dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: to });
  }, path);
  await printsManyPages(window);
  await page.locator('#write-pdf').press('Enter');
  await page.getByText('Printing all pages in one go').waitFor();
  await expect.poll(async () => (await printing(window)).page).toMatch(/^file:/);
  await page.locator('#stop-writing').press('Enter');
  await page.getByText('Writing was stopped and no file was made.').waitFor();
  expect(existsSync(path)).toBe(false);
  const windows = () => window.app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length);
  await expect.poll(windows).toBe(1);
}

it('goes from the set to the certificate by keyboard alone, in at most 40 presses', async () => {
  const folder = scratch();
  const out = join(folder, 'certificate.pdf');
  const window = await GaugemarkWindow.open({ folder });
  try {
    await readyForKeyboard(window, out);
    const { page } = window;
    await page.evaluate(() => {
      const { gaugemark } = globalThis as unknown as {
        gaugemark: { on: (name: string, listener: (step: unknown) => void) => void };
      };
      gaugemark.on('writing', (step) => Object.assign(globalThis, { lastStep: step }));
    });
    const { presses, listed } = await fromSetToCertificate(window);
    expect(listed).toMatch(/HS-1.*judged.*MPa.*Base metal.*accepted/);
    // The rail names what was issued.
    await page.locator('#go-certificate', { hasText: /\d{4}-\d{4}-[0-9a-f]{4}/ }).waitFor();

    process.stdout.write(`From the set to its certificate: ${String(presses)} key presses, no mouse.\n`);
    expect(presses).toBeLessThanOrEqual(PRESSES_MAX);

    // The pages are counted in what was printed.
    const pages = Number(/Pages:\s+(\d+)/.exec(execFileSync('pdfinfo', [out], { encoding: 'utf8' }))?.[1]);
    expect(await page.evaluate(() => (globalThis as unknown as { lastStep: unknown }).lastStep)).toEqual({
      step: 'saving',
      done: pages,
      of: pages,
    });
    const text = execFileSync('pdftotext', ['-layout', out, '-'], { encoding: 'utf8' });
    const said = (await page.locator('.written').textContent()) ?? '';
    const number = /\d{4}-\d{4}-[0-9a-f]{4}/.exec(said)?.[0] ?? 'no number';
    for (const part of [
      number,
      'Hall 4',
      'Quay 9',
      KEYBOARD_SET.name,
      'HS-1',
      'ACCEPTED',
      `End of certificate ${number}`,
    ])
      expect(text).toContain(part);
    const judged = await window.request('set.judge', { setId: 1 });
    const sentence = judged.ok ? (judged.value.members[0]?.sentence ?? 'none') : 'none';
    expect(text.replace(/\s+/g, ' ')).toContain(sentence.replace(/\s+/g, ' '));

    await stoppedWriting(window, join(folder, 'stopped.pdf'));
    await stoppedPrinting(window, join(folder, 'stopped-printing.pdf'));
    await page.keyboard.press('Alt+6');
    // The whole list of results goes into a spreadsheet from wherever in it the focus is.
    await page.locator('.result-line').first().focus();
    await page.keyboard.press('Control+C');
    await page.getByText(/^\d+ lines copied/).waitFor();
    const copied = await window.app.evaluate(({ clipboard }) => clipboard.readText());
    expect(copied).toMatch(/^Symbol\tResult\tValue\tUnit\t/);
    expect(copied).toMatch(/^Rm\t[^\t]+\t[\d.]+\tMPa\t/m);
    for (const line of copied.split('\n').slice(1)) {
      const [symbol, , value, , ...uncertainty] = line.split('\t');
      for (const number of [value, ...uncertainty]) expect(Number(number), symbol).not.toBeNaN();
    }
    // By what somebody writes, from wherever the cursor is; what can't be done stays, with its reason.
    await page.keyboard.press('Control+J');
    await page.keyboard.type('tare');
    await page.keyboard.press('Enter');
    const doing = page.locator('dialog.doing');
    expect(await doing.getByRole('option').first().textContent()).toMatch(/^Take the zero.*not now: /);
    await doing.getByRole('combobox').fill('arithmetic for the class');
    await page.keyboard.press('Enter');
    await page.locator('dialog.board[open]').waitFor();
    await page.keyboard.press('Escape');

    // Where the pull is opened later its verdict is told, and its set is one press away.
    await page.getByRole('button', { name: 'Archive' }).first().click();
    await page.locator('.found-rows .open-pull').first().click();
    const verdict = page.locator('.opened-head .outcome-word');
    await verdict.waitFor();
    expect(await verdict.getAttribute('data-outcome')).toBe('accept');
    await page.locator('#set-of-pull').click();
    await page.getByRole('heading', { name: KEYBOARD_SET.name }).waitFor();
  } finally {
    await window.end();
  }
});
