/** Pulls brought in and taken elsewhere in the real window: files looked at and imported, archives, backups, tables. */
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { Archive } from '../../core/archive/archive.ts';
import { pagesOfPdf } from '../../electron/print/pages-of-pdf.ts';
import { importFile } from '../../electron/recorder/import-file.ts';
import { DrawnComponents } from './support/drawn-components.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';
import { ALL_GROUNDS, bringAxe, faultsIn } from './support/looked-over.ts';
import { printing, printsManyPages } from './support/many-pages.ts';

const FOLDER = new URL('../../fixtures/curves/', import.meta.url).pathname;
const CURVES = readdirSync(FOLDER).filter((name) => name.endsWith('.csv'));
const ROUND = { kind: 'round', diameter: '10 mm' } as const;

/** The next file or folder that the dialogs give. */
async function chosen(window: GaugemarkWindow, path: string): Promise<void> {
  await window.app.evaluate(({ dialog }, its) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [its] });
    dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: its });
  }, path);
}

/** Gives how many readings its pull has. */
function otherArchive(path: string, curve: string): number {
  const archive = new Archive(path, { programVersion: 'test', wallMs: Date.now });
  importFile(archive, { file: curve, operator: 'Okafor', specimen: { id: 'elsewhere', geometry: ROUND } });
  const { readingCount } = archive.getPull(1);
  archive.close();
  return readingCount;
}

test('published curves are imported and found again; another archive is taken in, a backup put back, a table written', async () => {
  const { folder, remove } = scratchFolder();
  const window = await GaugemarkWindow.open({ folder });
  const { page } = window;
  const press = (id: string): Promise<void> => page.locator(`#${id}`).click();
  try {
    await window.connected();
    const drawn = await DrawnComponents.from(page);
    for (const name of CURVES)
      await window.request('specimen.save', { specimen: { id: basename(name, '.csv'), geometry: ROUND } });

    // The page has no way to a file that nobody chose.
    const refused = await window.request('archive.import', {
      file: join(FOLDER, CURVES[0] ?? ''),
      specimen: 1,
    });
    expect(refused).toMatchObject({ ok: false, fault: { code: 'path-not-chosen' } });

    await page.getByRole('button', { name: 'Archive' }).first().click();
    await press('open-import');
    for (const [i, name] of CURVES.entries()) {
      await chosen(window, join(FOLDER, name));
      await press('choose-curve');
      await page.getByText(name, { exact: false }).first().waitFor();
      const own = page.locator('#import-specimen option', { hasText: basename(name, '.csv') });
      await page.locator('#import-specimen').selectOption((await own.getAttribute('value')) ?? '');
      await press('import-now');
      await page
        .getByText(`Kept as pull ${String(i + 1)}:`)
        .first()
        .waitFor();
    }

    // So many newer ones that the first is no longer offered unasked.
    for (let i = 0; i < 45; i++)
      await window.request('specimen.save', { specimen: { id: `later ${String(i)}`, geometry: ROUND } });
    // What the layout of a file leaves open is said, and the sample shows what is read then.
    const unclear = join(folder, 'unclear.csv');
    writeFileSync(unclear, 'time_s;force_kN\n1,100;2,150\n1,200;2,250\n1,300;2,350\n');
    await chosen(window, unclear);
    await press('choose-curve');
    await page.getByText('can be one thousand or one and a bit').waitFor();
    await page.getByText('The record gets the moment of its import').waitFor({ state: 'detached' });
    await page.locator('#import-decimal').selectOption(',');
    const sample = page.locator('.import-columns tbody tr');
    await expect.poll(() => sample.first().textContent()).toBe('1,1002,150');
    expect(await page.getByText('can be one thousand or one and a bit').count()).toBe(0);
    await page.getByText('The record gets the moment of its import').waitFor();
    const layout = page.locator('details', { hasText: 'How the file is laid out' });
    if ((await layout.getAttribute('open')) === null) await layout.locator('summary').click();
    await layout.getByText('decimal sign "," as chosen').waitFor();
    await page.locator('#import-first-row').fill('3');
    await expect.poll(() => sample.first().textContent()).toBe('1,2002,250');
    expect(await sample.count()).toBe(2);
    // Commas in both senses, nothing named: what can't be told is said before any column is.
    const commas = join(folder, 'commas.csv');
    writeFileSync(commas, '0,00,0,21\n0,10,1,25\n');
    await chosen(window, commas);
    await press('choose-curve');
    await page.getByText('where they are decimal signs too').waitFor();
    // Names that say nothing are asked about, in the words of the file.
    const strange = join(folder, 'strange.csv');
    writeFileSync(
      strange,
      `Date: 05/04/2019\nd;F\n${Array.from({ length: 40 }, (_, i) => `${String(i)},5;${String(i * 3)},25`).join('\n')}\n`,
    );
    await chosen(window, strange);
    await press('choose-curve');
    await page.getByText('The program is not sure').waitFor();
    await bringAxe(page);
    const faults = await faultsIn(page, 'import with questions', ALL_GROUNDS);
    await page.getByLabel('What F is').selectOption('force');
    await page.getByLabel('Unit of F').selectOption('kN');
    await page.getByLabel('What d is').selectOption('extension');
    await page.getByText('The program is not sure').waitFor({ state: 'detached' });
    const first = basename(CURVES[0] ?? '', '.csv');
    const offered = page.locator('#import-specimen option', { hasText: first });
    await page.getByText('the newest 50 that fit').waitFor();
    expect(await offered.count()).toBe(0);
    await page.locator('#import-specimen-find').fill(first.toUpperCase());
    await page.locator('#import-specimen').selectOption((await offered.first().getAttribute('value')) ?? '');
    await page.locator('#import-specimen-find').fill('nobody has this');
    await page.getByText('No specimen here has this in its name.').waitFor();
    expect(await page.locator('#import-specimen').inputValue()).toBe('1');
    // A date in the file is proposed both ways and not taken; what is no day keeps the import waiting.
    const day = page.locator('#import-pulled-on');
    expect(await day.inputValue()).toBe('');
    await day.fill('2019-02-30');
    await page.getByText('This is no day').waitFor();
    await page.getByRole('button', { name: 'Pulled on 2019-05-04' }).click();
    expect(await day.inputValue()).toBe('2019-05-04');
    // Two days later the page looks whether there is a backup, as whenever the archive changes.
    await page.evaluate((ms) => {
      const real = Date.now.bind(Date);
      Date.now = () => real() + ms;
    }, 2 * 86_400_000);
    await press('import-now');
    await page.getByText('Kept as pull 13: 40 readings.').first().waitFor();
    // What became of it is heard, and whoever pressed is where it goes on, in view.
    await expect.poll(() => page.locator('.said').textContent()).toContain('Kept as pull 13: 40 readings.');
    await expect.poll(() => page.evaluate(() => document.activeElement?.id)).toBe('open-imported');
    // It is scrolled to once it is drawn.
    await expect
      .poll(() => page.locator('#open-imported.call').evaluate((open) => open.getBoundingClientRect().bottom))
      .toBeLessThanOrEqual(await page.evaluate(() => innerHeight));
    await press('open-imported');
    await page.getByText('pulled on 2019-05-04 (stated at import) · imported').waitFor();
    // The other way round it had been meant: corrected with a reason, both stay to be seen.
    await press('state-day');
    expect(await page.locator('#stated-day').inputValue()).toBe('2019-05-04');
    await page.locator('#stated-day').fill('2019-04-05 10:30');
    // A stray key does not lose the day.
    await page.keyboard.press('Escape');
    await page.locator('dialog[open]').waitFor({ state: 'detached' });
    await press('state-day');
    expect(await page.locator('#stated-day').inputValue()).toBe('2019-04-05 10:30');
    await page.getByRole('textbox', { name: 'Reason', exact: true }).fill('day and month turned round');
    await page.getByRole('button', { name: 'State this day' }).click();
    await page.getByText('pulled on 2019-04-05 10:30 (stated later').waitFor();
    await page.getByText('before: 2019-05-04, stated').waitFor();
    await page.getByText('Fm').first().waitFor();
    // The file itself comes out again as it came.
    await page.getByRole('button', { name: 'Export…' }).click();
    await page.locator('#pull-form').selectOption('original');
    const asItCame = join(folder, 'as it came.csv');
    await window.app.evaluate(({ dialog }, filePath) => {
      dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath });
    }, asItCame);
    await page.locator('#write-pull').click();
    await page.getByText('The file is written as it came').first().waitFor();
    expect(readFileSync(asItCame).equals(readFileSync(strange))).toBe(true);
    // Its load was in pounds: the file is read again, old and new stand side by side, and the new one is kept.
    await press('evaluate-again');
    await page.getByText('How its file is read').click();
    await page.getByRole('radio', { name: 'otherwise' }).check({ force: true });
    await page.getByLabel('Unit of F').selectOption('lbf');
    await page.getByLabel('Unit of F').and(page.locator('select')).waitFor();
    faults.push(...(await faultsIn(page, 'a file to be read again', ALL_GROUNDS)));
    await press('work-out');
    await page.locator('[data-stated="importPlan"]', { hasText: 'force lbf (column 2)' }).waitFor();
    await page.locator('#evaluation-reason').fill('the press shows pounds');
    await press('keep-evaluation');
    await page.getByText('the results are of its file read again: ').first().waitFor();
    await page.keyboard.press('Escape');
    // Away from the archive it is called to mind, until somebody says that it is not to be today.
    expect(await page.locator('#backup-notice').count()).toBe(0);
    await page.keyboard.press('Alt+2');
    await page.locator('#backup-notice').getByText('No backup of this archive is known.').waitFor();
    await page.locator('#back-up-from-notice').waitFor();
    faults.push(...(await faultsIn(page, 'a backup called to mind', ALL_GROUNDS)));
    await press('backup-not-today');
    await page.locator('#backup-notice').waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Archive' }).first().click();

    for (const name of CURVES) {
      await page.getByLabel('Find').fill(basename(name, '.csv'));
      await page.getByText(/^(1|2) pulls?$/).waitFor();
      await page
        .getByRole('button', { name: `Open the pull of ${basename(name, '.csv')}`, exact: true })
        .first()
        .waitFor();
    }
    await page.getByLabel('Find').fill('');
    await page.getByText('13 pulls', { exact: true }).waitFor();
    const stated = page.getByText('2019-04-05 stated', { exact: true });
    await stated.waitFor();
    expect(await stated.evaluate((cell) => cell.scrollWidth <= cell.clientWidth)).toBe(true);
    await page.getByText('No backup of this archive is known.').waitFor();

    const backups = join(folder, 'backups');
    mkdirSync(backups);
    await chosen(window, backups);
    await press('back-up-by-age');
    await page.getByText('Last backup:').waitFor();
    const [backup = ''] = readdirSync(backups);
    expect(backup).toMatch(/^pulls-\d{4}-.*\.gaugemark$/);
    await chosen(window, join(backups, backup));
    await press('open-restore');
    await press('choose-backup');
    await page.getByText('nothing is lost by restoring it').waitFor();
    await press('leave-exchange');

    const other = join(folder, 'other.gaugemark');
    const curve = join(folder, 'other.csv');
    writeFileSync(curve, `${readFileSync(join(FOLDER, CURVES[0] ?? ''), 'utf8').trimEnd()}\n# again\n`);
    const readings = otherArchive(other, curve);
    await chosen(window, other);
    await press('open-merge');
    await press('choose-archive');
    await page.getByText('1 would be taken. Nothing was changed yet.').waitFor();
    faults.push(...(await faultsIn(page, 'merge before it is done', ALL_GROUNDS)));
    await press('merge-now');
    await page.getByText('1 were taken').waitFor();
    await press('leave-exchange');
    await page.getByText('14 pulls', { exact: true }).waitFor();

    // Of another year, say: searched where it lies.
    await press('open-elsewhere');
    await press('add-other');
    await page.getByRole('region', { name: 'other.gaugemark' }).waitFor();
    await page.locator('#search-elsewhere').fill('elsewhere okafor');
    await press('search-others');
    await page.getByRole('region', { name: 'other.gaugemark' }).getByText('1 pull').waitFor();
    faults.push(...(await faultsIn(page, 'other archives', ALL_GROUNDS)));
    // Opened where it lies: its own result and curve, which file it is in, and nothing that would keep anything.
    await page.getByRole('button', { name: 'Open elsewhere', exact: true }).click();
    await page.getByText('In other.gaugemark, which is only read here').waitFor();
    await expect
      .poll(() => page.locator('.opened-head').textContent())
      .toContain(readings.toLocaleString('en').replaceAll(',', '\u202f'));
    await page.getByText('Rm', { exact: true }).first().waitFor();
    await page.locator('.station canvas').first().waitFor();
    expect(await page.getByRole('button', { name: /Void|void/ }).count()).toBe(0);
    expect(await page.locator('input[name="fracture-place"]').count()).toBe(0);
    faults.push(...(await faultsIn(page, 'a pull of another archive', ALL_GROUNDS)));
    await page.keyboard.press('Escape');
    // And laid over one of this archive, each told by its file.
    await page.getByRole('checkbox', { name: 'elsewhere, other.gaugemark' }).check();
    await press('lay-over-others');
    await page.locator('#overlay-legend [data-state="ready"]').waitFor();
    expect(await page.locator('#overlay-legend').textContent()).toContain('elsewhere · other.gaugemark');
    await press('overlay-back');
    await page.getByRole('checkbox', { name: 'elsewhere, other.gaugemark' }).uncheck();
    await page.locator('#search-elsewhere').fill('');
    await press('leave-exchange');
    await page.getByText('14 pulls', { exact: true }).waitFor();

    // Fourteen pulls here and one there, each evaluated where it lies.
    await press('see-trend');
    await page.locator('#trend-progress', { hasText: '14 of 14 pulls evaluated' }).waitFor();
    await page.locator('#trend-with-others').check();
    await page.locator('#trend-progress', { hasText: '15 of 15 pulls evaluated' }).waitFor();
    await page.locator('#trend-with-others').uncheck();
    await page.locator('#trend-progress', { hasText: '14 of 14 pulls evaluated' }).waitFor();
    await page.keyboard.press('Escape');

    // Recorded in one year, one of them stated to be of another: a file of each, checked, beside the archive as it was.
    const years = join(folder, 'years');
    mkdirSync(years);
    await chosen(window, years);
    await press('open-split');
    await page.getByRole('cell', { name: 'pulls-2019.gaugemark' }).waitFor();
    faults.push(...(await faultsIn(page, 'split by year before it is done', ALL_GROUNDS)));
    await press('split-now');
    await page.getByText('2 files are in years and were checked.').first().waitFor();
    faults.push(...(await faultsIn(page, 'split by year', ALL_GROUNDS)));
    expect(readdirSync(years).sort()).toEqual([
      'pulls-2019.gaugemark',
      expect.stringMatching(/^pulls-20[2-9]\d\.gaugemark$/),
    ]);
    await press('split-elsewhere');
    await page.getByRole('region', { name: 'other.gaugemark' }).waitFor();
    await press('leave-exchange');
    await page.getByText('14 pulls', { exact: true }).waitFor();

    const table = join(folder, 'results.csv');
    await chosen(window, table);
    await press('open-results');
    await page.locator('#results-form').selectOption('decimal-comma-semicolon');
    await press('write-results');
    await page.getByText('14 rows are in results.csv.').first().waitFor();
    const rows = parse(readFileSync(table, 'utf8'), { delimiter: ';', bom: true, columns: true });
    expect(rows).toHaveLength(14);
    expect(Object.keys((rows as Record<string, string>[])[0] ?? {})).toEqual(
      expect.arrayContaining(['specimen', 'heat', 'filler lot', 'welder', 'Rm (MPa)', 'Rm rounded (MPa)']),
    );
    // Fewer of them, by choice: what is chosen is kept when the sheet is left.
    await page.locator('#table-columns > summary').click();
    await page.getByLabel('welder', { exact: true }).uncheck();
    await page.getByLabel('unrounded', { exact: true }).uncheck();
    faults.push(...(await faultsIn(page, 'columns of a table of results', ALL_GROUNDS)));
    await press('leave-exchange');
    await press('open-results');
    const fewer = join(folder, 'fewer.csv');
    await chosen(window, fewer);
    await press('write-results');
    await page.getByText('14 rows are in fewer.csv.').first().waitFor();
    const [head = ''] = readFileSync(fewer, 'utf8').split('\r\n');
    expect(head).toContain('Rm rounded (MPa)');
    expect(head).not.toMatch(/Rm \(MPa\)|welder/);
    // On paper, which has columns of its own.
    const paper = join(folder, 'results.pdf');
    await chosen(window, paper);
    await page.locator('#results-form').selectOption('pdf');
    await press('write-results');
    await page
      .getByText(/^14 rows are in results\.pdf, on \d pages?\.$/)
      .first()
      .waitFor();
    const said = await page
      .getByText(/^14 rows are in results\.pdf/)
      .first()
      .textContent();
    expect(said).toContain(`on ${String(pagesOfPdf(readFileSync(paper)))} page`);

    // How far it is stands beside the button that stops it, in the midst of the engine's own printing.
    const stopped = join(folder, 'stopped.pdf');
    await chosen(window, stopped);
    await printsManyPages(window);
    await press('write-results');
    const underWay = page.locator('.under-way');
    await underWay.locator('progress').waitFor();
    // A reader hears that it began, by the one place that speaks, and not at each step.
    expect(await underWay.getAttribute('role')).toBeNull();
    await expect.poll(async () => (await printing(window)).page).toMatch(/^file:/);
    await press('stop-exchange');
    await page.getByText('It was stopped; no file was written.').first().waitFor();
    await underWay.waitFor({ state: 'detached' });
    // Nothing half: no file, nothing of what was printed from, and no hidden window once the engine has ended.
    expect(existsSync(stopped)).toBe(false);
    const windows = () => window.app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows().length);
    await expect.poll(windows).toBe(1);
    const { page: printed } = await printing(window);
    await expect.poll(() => existsSync(fileURLToPath(printed ?? ''))).toBe(false);
    expect(readdirSync(folder).filter((name) => name.includes('stopped'))).toEqual([]);
    // A printing that is broken off makes Electron fail at every later one: the next one is as whole as the first.
    await press('write-results');
    await page
      .getByText(/^14 rows are in stopped\.pdf, on \d pages?\.$/)
      .first()
      .waitFor();
    expect(pagesOfPdf(readFileSync(stopped))).toBe(pagesOfPdf(readFileSync(paper)));
    await press('leave-exchange');

    await chosen(window, join(backups, backup));
    await press('open-restore');
    await press('choose-backup');
    await page.getByText('Only here, and gone from the archive afterwards (1): pull').waitFor();
    expect(await page.getByText('nothing is lost by restoring it').count()).toBe(0);
    faults.push(...(await faultsIn(page, 'restore before it is done', ALL_GROUNDS)));
    expect(await drawn.notDrawnAsSaid('window-exchange')).toEqual([]);
    expect(faults).toEqual([]);
    await page.locator('#restore-sure').check();
    await press('restore-now');
    await page.getByText('13 pulls', { exact: true }).waitFor();
    expect(readdirSync(folder).some((name) => name.includes('before-restore'))).toBe(true);
  } finally {
    await window.end();
    remove();
  }
});
