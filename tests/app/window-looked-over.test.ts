/** Every place and sheet of the real window, empty and filled, on every ground: axe-core finds nothing, targets are large. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { stateIs } from '../../electron/setup/demonstration-pull.mjs';
import { en } from '../../renderer/words/en.ts';
import { scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { fromSetToCertificate, readyForKeyboard } from './support/keyboard-path.ts';
import { ALL_GROUNDS, bringAxe, faultsIn, type Ground } from './support/looked-over.ts';

/** By their keys, as somebody goes there. */
const PLACES = {
  set: 'Alt+1',
  specimen: 'Alt+2',
  readout: 'Alt+3',
  pull: 'Alt+4',
  fracture: 'Alt+5',
  result: 'Alt+6',
  certificate: 'Alt+7',
  archive: 'Alt+8',
  instruments: 'Alt+9',
} as const;

it('finds nothing at fault in any place or sheet, empty or filled, in light, dark and high contrast', async () => {
  const folder = scratch();
  const window = await GaugemarkWindow.open({ folder });
  const faults: string[] = [];
  try {
    await window.connected();
    const { page } = window;
    await bringAxe(page);
    // What stands on an empty page stands on the filled one in the same colours.
    let grounds: readonly Ground[] = ['chalk'];
    const look = async (view: string): Promise<void> => {
      faults.push(...(await faultsIn(page, view, grounds)));
    };
    const menu = (id: string): Promise<void> =>
      window.app.evaluate(({ Menu }, item) => {
        Menu.getApplicationMenu()?.getMenuItemById(item)?.click();
      }, id);
    const lookAtPlaces = async (how: string): Promise<void> => {
      for (const [place, key] of Object.entries(PLACES)) {
        await page.keyboard.press(key);
        await page.locator(`main[data-place="${place}"]`).waitFor();
        await look(`${place}, ${how}`);
      }
      for (const place of ['people', 'self-check']) {
        await menu(place);
        await page.locator(`main[data-place="${place}"]`).waitFor();
        await look(`${place}, ${how}`);
      }
    };
    const lookAtSheet = async (view: string, open: () => Promise<void>): Promise<void> => {
      await open();
      await page.locator('dialog[open]').waitFor();
      await look(view);
      await page.keyboard.press('Escape');
      await page.locator('dialog[open]').waitFor({ state: 'detached' });
    };
    const press = (name: string | RegExp): Promise<void> =>
      page.getByRole('button', { name }).first().press('Enter');

    await lookAtPlaces('empty');
    grounds = ALL_GROUNDS;
    await lookAtSheet('sheet of keys', () => page.keyboard.press('F1'));
    await lookAtSheet('guide', () => page.keyboard.press('F2'));
    await lookAtSheet('what can be done', () => page.keyboard.press('Control+J'));
    await lookAtSheet('cautions', () => menu('show-cautions'));
    await lookAtSheet('about', () => menu('about'));
    await page.locator('#view').press('Enter');
    await look('sheet of looks');
    await page.keyboard.press('Escape');

    await readyForKeyboard(window, join(folder, 'certificate.pdf'));
    for (const answer of [
      await window.request('instrument.save', {
        form: { kind: 'force-channel', name: 'LC-20', range: { from: '0', to: '200 kN' } },
        by: 'bench',
      }),
      await window.request('people.save', { name: 'A. Person', sign: 'AP', roles: ['operator'] }),
    ])
      if (!answer.ok) throw new Error(answer.fault.sentence);
    await fromSetToCertificate(window);
    await lookAtPlaces('filled');

    // Stopped while it is asked where: nothing is written, and the certificate keeps its number.
    const stopped = join(folder, 'stopped.pdf');
    await window.app.evaluate(({ dialog, ipcMain }, path) => {
      dialog.showSaveDialog = () =>
        new Promise((resolve) => {
          ipcMain.once('chosen', () => resolve({ canceled: false, filePath: path }));
        });
    }, stopped);
    await page.keyboard.press('Alt+7');
    await page.locator('#write-pdf').press('Enter');
    await window.request('window.stop-writing', {});
    await window.app.evaluate(({ ipcMain }) => ipcMain.emit('chosen'));
    await page.getByText('Writing was stopped and no file was made.').waitFor();
    expect(existsSync(stopped)).toBe(false);

    await page.keyboard.press('Alt+6');
    // The whole list of results goes into a spreadsheet from wherever in it the focus is.
    await page.locator('.result-line').first().focus();
    await page.keyboard.press('Control+C');
    await page.getByText(/^\d+ lines copied/).waitFor();
    const copied = await window.app.evaluate(({ clipboard }) => clipboard.readText());
    expect(copied).toMatch(/^Rm\t[^\t]+\t[\d.]+\tMPa\t/m);
    await lookAtSheet('evaluation sheet', () => press(/^Evaluate again/));
    await lookAtSheet('board', () => page.locator('#to-board').press('Enter'));
    await page.keyboard.press('Alt+8');
    await press(/^Open the pull of/);
    await look('pull of the archive');
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
    await lookAtSheet('pull made void', () => press(/^Make this pull void/));

    await page.keyboard.press('Alt+8');
    for (const [id, title] of [
      ['import-file', en.exchange.titles.import],
      ['merge-archive', en.exchange.titles.merge],
      ['restore-backup', en.exchange.titles.restore],
      ['export-results', en.exchange.titles.results],
    ] as const) {
      await menu(id);
      await page.getByRole('heading', { name: title }).first().waitFor();
      await look(id);
    }
    await page.locator('#leave-exchange').press('Enter');
    for (const [id, first] of [
      ['see-trend', 'trend-first'],
      ['evaluate-found-again', 'again-first'],
      ['lay-over', 'overlay-first'],
    ] as const) {
      await page.locator('#mark-all').press('Enter');
      await page.locator(`#${id}`).press('Enter');
      await page.locator(`#${first}`).waitFor();
      await look(first);
      await page.keyboard.press('Escape');
    }

    // Begun forms with everything at fault that was left out.
    await page.keyboard.press('Alt+9');
    await press('LC-20');
    await press(/^Verify/);
    await look('verification');
    await menu('people');
    await press(/^Enter a person|^Add a person/);
    await press(/^Keep/);
    await look('person with faults');
    await page.keyboard.press('Alt+1');
    await page.locator('#close-set').press('Enter');
    await look('sets to choose from');
    await page.locator('#make-set').press('Enter');
    await page.locator('#keep-set').press('Enter');
    await look('set with faults');

    await page.keyboard.press('Alt+4');
    await look('pull that has ended');
    await press(/^Next specimen/);
    await press(/^Keep this specimen/);
    await look('specimen with faults');
    await page.keyboard.press('Alt+4');
    await page.locator('#typed-pull summary').press('Enter');
    await look('peak typed in');
    await page.locator('#speed-method').selectOption('iso-6892-1-b-stiff');
    const ready = await window.request('pull.ready', {
      specimenId: 1,
      trigger: { kind: 'by-hand' },
      breakRule: { kind: 'by-hand' },
      tailS: 1,
    });
    if (!ready.ok) throw new Error(ready.fault.sentence);
    await stateIs(page, ['ready']);
    await page.keyboard.press('Alt+4');
    await look('pull under way');
  } finally {
    await window.end();
  }
  expect(faults).toEqual([]);
});
