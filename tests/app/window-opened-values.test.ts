/** A pull opened in the archive shows the values of its record, read from the page and held against evaluation and readings. */
import { expect, test } from 'vitest';
import { UNITS, type UnitSymbol, convert } from '../../core/quantity/units.ts';
import { archiveOfMany } from './support/archive-of-many.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';

const PULLS = 2;
const isUnit = (text: string | undefined): text is UnitSymbol => Object.hasOwn(UNITS, text ?? '');

test('an opened pull shows the values of its record', async () => {
  const { folder, remove } = scratchFolder();
  archiveOfMany(folder, PULLS, () => ({
    geometry: { kind: 'round', diameter: '5.003 mm' },
    extensometerGaugeLength: '25 mm',
  })).close();
  const window = await GaugemarkWindow.open({ folder });
  const { page } = window;
  const evaluated = async () => {
    const answer = await window.request('pull.evaluate', { pullId: PULLS });
    if (!answer.ok) throw new Error(answer.fault.sentence);
    return answer.value;
  };
  const plain = (text: string | null): number => Number((text ?? '').replaceAll(/[^\d.\-−]/gu, ''));
  /** "1 234.5 psi" in this unit. */
  const amount = (shown: string, unit: UnitSymbol): number => {
    const [, number = '', its = ''] = /^([\d.,\u202f−-]+)\s*(\w+)$/u.exec(shown) ?? [];
    if (!isUnit(its)) throw new Error(`"${shown}" has no unit`);
    return convert(plain(number), its, unit);
  };
  try {
    await window.connected();
    await page.keyboard.press('Control+f');
    await page.getByText(`${String(PULLS)} pulls`).waitFor();
    await page.getByRole('button', { name: `Open the pull of K-${String(PULLS)}`, exact: true }).click();
    await page.locator('.result-row[data-symbol="Rm"]').waitFor();

    // Each result as the evaluation gives it, rounded by its rule in the unit that is shown.
    const { results } = await evaluated();
    const shown = await page
      .locator('.result-row')
      .evaluateAll((rows) => rows.map((row) => (row.getAttribute('data-row') ?? '').split('\t')));
    expect(shown.length).toBeGreaterThan(5);
    for (const symbol of ['Fm', 'Rm', 'Rp0.2', 'mE']) {
      const [, , text, unit] = shown.find((row) => row[0] === symbol) ?? [];
      const result = results.find((one) => one.symbol === symbol);
      if (result === undefined || !isUnit(unit)) throw new Error(`${symbol} in ${String(unit)}`);
      const rounded = result.rounded.find((one) => one.unit === unit)?.value;
      // To the last digit where its rule gives one in this unit; else as it is shown, to three figures or more.
      if (rounded !== undefined) expect(plain(text ?? ''), symbol).toBe(rounded);
      else expect(plain(text ?? '') / convert(result.value, result.unit, unit), symbol).toBeCloseTo(1, 2);
    }
    // The points of the picture, as its table has them: the largest load is Fm, the last reading the last of the record.
    const table = page.locator('.kept-plots .key-values');
    await table.locator('tbody tr').last().waitFor({ state: 'attached' });
    const rows = await table
      .locator('tbody tr')
      .evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent)));
    const pull = await window.request('pull.get', { pullId: PULLS });
    if (!pull.ok) throw new Error(pull.fault.sentence);
    expect(plain(rows.at(-1)?.[1] ?? '')).toBe(pull.value.readingCount - 1);
    const fmN = results.find((result) => result.symbol === 'Fm')?.value ?? Number.NaN;
    const loads = rows.map((row) => amount(row[3] ?? '', 'N'));
    expect(Math.max(...loads) / fmN).toBeCloseTo(1, 3);
    // Copied, each value is a number to a spreadsheet, and its unit stands over it.
    await table.locator('summary').click();
    await table.locator('summary').focus();
    await page.keyboard.press('Control+C');
    await page.getByText(/^\d+ lines copied/).waitFor();
    const copied = await window.app.evaluate(({ clipboard }) => clipboard.readText());
    const [head = [], ...lines] = copied.split('\n').map((line) => line.split('\t'));
    expect(lines).toHaveLength(rows.length);
    expect(head[3]).toMatch(/^Load, (N|kN|lbf)$/);
    for (const [name, ...cells] of lines)
      for (const cell of cells) expect(Number(cell), `${String(name)}: ${cell}`).not.toBeNaN();
  } finally {
    await window.end();
    remove();
  }
});
