/** One pull taken elsewhere from the real window, in every form; each file read by somebody else's reader. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { parse } from 'csv-parse/sync';
import { expect, test } from 'vitest';
import { Archive } from '../../core/archive/archive.ts';
import { CSV_FORMS } from '../../core/exchange/export/csv-form.ts';
import { importFile } from '../../electron/recorder/import-file.ts';
import { scratch } from './recorder-process.ts';
import { GaugemarkWindow, archiveIn, scratchFolder } from './support/gaugemark-window.ts';
import { ALL_GROUNDS, bringAxe, faultsIn } from './support/looked-over.ts';
import { fill, smallDisk } from './support/small-disk.ts';

const NAME = '=W-17, "cap"';

/** A record of our own: a straight line to 400 MPa on 100 mm², then it draws out and breaks. */
function archiveWithPull(folder: string): void {
  const rows = Array.from({ length: 220 }, (_, i) =>
    [
      i / 10,
      i < 100 ? i * 400 : i < 200 ? 40_000 + (i - 100) * 20 : 40,
      i < 100 ? i * 0.001 : 0.1 + (i - 100) * 0.05,
    ].join(','),
  );
  const file = join(folder, 'curve.csv');
  writeFileSync(file, ['time_s,force_N,extension_mm', ...rows, ''].join('\n'));
  const archive = new Archive(archiveIn(folder), { programVersion: 'test', wallMs: Date.now });
  importFile(archive, {
    file,
    operator: 'Okafor',
    specimen: {
      id: NAME,
      geometry: { kind: 'flat', width: '20 mm', thickness: '5 mm' },
      gaugeLength: '50 mm',
    },
  });
  archive.close();
}

/** Where the next dialog says to save, and what it was asked with. */
async function saveTo(window: GaugemarkWindow, path: string): Promise<void> {
  await window.app.evaluate(({ dialog }, filePath) => {
    dialog.showSaveDialog = (...args: unknown[]) => {
      Object.assign(globalThis, { askedWith: args.at(-1) });
      return Promise.resolve({ canceled: false, filePath });
    };
  }, path);
}
const askedWith = (
  window: GaugemarkWindow,
): Promise<{ defaultPath: string; filters: { extensions: string[] }[] }> =>
  window.app.evaluate(
    () =>
      (globalThis as unknown as { askedWith: { defaultPath: string; filters: { extensions: string[] }[] } })
        .askedWith,
  );

test('a pull is exported in every form from its page, and from the menu', async () => {
  const { folder, remove } = scratchFolder();
  archiveWithPull(folder);
  const window = await GaugemarkWindow.open({ folder });
  const { page } = window;
  const at = (name: string): string => join(folder, name);
  const press = (id: string): Promise<void> => page.locator(`#${id}`).click();
  const export1 = async (form: string, to: string): Promise<void> => {
    if ((await page.locator('#pull-form').count()) === 0)
      await page.getByRole('button', { name: 'Export…' }).click();
    await page.locator('#pull-form').selectOption(form);
    await saveTo(window, to);
    await press('write-pull');
  };
  const written = async (form: string, to: string): Promise<void> => {
    await export1(form, to);
    // The sheet goes when the file is there.
    await page.locator('#pull-form').waitFor({ state: 'detached' });
    expect(existsSync(to), `${form} is written`).toBe(true);
  };
  try {
    await window.connected();
    await page.getByRole('button', { name: 'Archive' }).first().click();
    await page.getByRole('row').filter({ hasText: NAME }).first().dblclick();
    await page.getByRole('button', { name: 'Export…' }).click();
    await page.getByRole('heading', { name: `Export ${NAME}` }).waitFor();
    await bringAxe(page);
    const faults = await faultsIn(page, 'export of a pull', ALL_GROUNDS);

    const plain: Record<string, string>[] = [];
    for (const [form, { delimiter, decimalSign, byteOrderMark }] of Object.entries(CSV_FORMS)) {
      const to = at(`${form}.csv`);
      await written(form, to);
      const bytes = readFileSync(to);
      expect(bytes.subarray(0, 3).equals(Buffer.from([0xef, 0xbb, 0xbf]))).toBe(byteOrderMark);
      const rows: Record<string, string>[] = parse(bytes, {
        ...{ columns: true, comment: '#', comment_no_infix: true, bom: true },
        delimiter,
      });
      expect(rows).toHaveLength(220);
      if (form === 'plain') plain.push(...rows);
      for (const [i, row] of rows.entries())
        for (const [name, cell] of Object.entries(row))
          expect(cell.replace(decimalSign, '.')).toBe(plain[i]?.[name]);
    }
    await written('json', at('p.json'));
    expect(await askedWith(window)).toMatchObject({
      defaultPath: expect.stringMatching(/W-17-cap-\.json$/) as string,
      filters: [{ extensions: ['json'] }, { extensions: ['*'] }],
    });
    const validate = new Ajv2020({ strict: false, validateFormats: false }).compile(
      JSON.parse(
        readFileSync(new URL('../../fixtures/schemas/pull-4.schema.json', import.meta.url), 'utf8'),
      ) as object,
    );
    expect(validate(JSON.parse(readFileSync(at('p.json'), 'utf8')))).toBe(true);
    await written('json-ld', at('p.jsonld'));
    expect(JSON.parse(readFileSync(at('p.jsonld'), 'utf8'))).toHaveProperty('@context');

    // 41 980 N, as the place of this machine measures.
    await written('svg', at('p.svg'));
    expect(readFileSync(at('p.svg'), 'utf8')).toMatch(/^<svg[^]*>Fm 9\s437 lbf</);
    await written('png', at('p.png'));
    expect(execFileSync('file', [at('p.png')], { encoding: 'utf8' })).toContain('PNG image data');
    await written('pdf', at('p.pdf'));
    expect(execFileSync('pdfinfo', [at('p.pdf')], { encoding: 'utf8' })).toMatch(/Pages:\s+1\n/);
    const onPaper = execFileSync('pdftotext', ['-layout', at('p.pdf'), '-'], { encoding: 'utf8' });
    for (const word of [/Fm 9\s437 lbf/, 'IMPORTED', 'W-17']) expect(onPaper).toMatch(word);
    expect(readdirSync(folder).filter((name) => name.includes('.part-'))).toEqual([]);

    // A name that says another form is refused with a sentence, and nothing is written over.
    await export1('plain', at('x.json'));
    await page.getByText('the name ends as if it were not').waitFor();
    await export1('json', at('p.json'));
    await page.getByText('exists already and is not written over').waitFor();
    expect(existsSync(at('x.json'))).toBe(false);

    // What was chosen last is there again, also from the menu.
    await page.keyboard.press('Escape');
    await page.locator('#pull-form').waitFor({ state: 'detached' });
    await window.choose('export');
    await expect.poll(() => page.locator('#pull-form').inputValue()).toBe('json');

    // Curves over each other, from the table.
    await page.keyboard.press('Escape');
    await page.locator('#pull-form').waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Back to the list' }).click();
    await page.getByRole('row').filter({ hasText: NAME }).getByRole('checkbox').check();
    await page.locator('#lay-over').click();
    await page.locator('#overlay-pdf:not([aria-disabled="true"])').waitFor();
    await saveTo(window, at('overlay.pdf'));
    await press('overlay-pdf');
    await page.getByText('overlay.pdf').waitFor();
    expect(execFileSync('pdfinfo', [at('overlay.pdf')], { encoding: 'utf8' })).toMatch(/Pages:\s+1\n/);
    expect(faults).toEqual([]);
  } finally {
    await window.end();
    remove();
  }
});

test('a picture on a full disk is told, and what was there stays', async (context) => {
  const { folder, remove } = scratchFolder();
  const disk = smallDisk(scratch());
  if ('skip' in disk) return context.skip(disk.skip);
  archiveWithPull(folder);
  const window = await GaugemarkWindow.open({ folder });
  const { page } = window;
  try {
    await window.connected();
    await page.getByRole('button', { name: 'Archive' }).first().click();
    await page.getByRole('row').filter({ hasText: NAME }).first().dblclick();
    const before = join(disk.path, 'before.svg');
    writeFileSync(before, 'what was there');
    fill(disk.path);
    for (const form of ['svg', 'png', 'pdf']) {
      if ((await page.locator('#pull-form').count()) === 0)
        await page.getByRole('button', { name: 'Export…' }).click();
      await page.locator('#pull-form').selectOption(form);
      await saveTo(window, before);
      await page.locator('#write-pull').click();
      await page.getByText('is full, so the picture was not written').waitFor();
      expect(readFileSync(before, 'utf8')).toBe('what was there');
      // Told anew for the next.
      await page.keyboard.press('Escape');
      await page.locator('#pull-form').waitFor({ state: 'detached' });
    }
    expect(readdirSync(disk.path).sort()).toEqual(['before.svg', 'filler']);
  } finally {
    await window.end();
    remove();
  }
});
