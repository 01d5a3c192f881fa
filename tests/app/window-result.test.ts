/** What stands beside a value in the real window: its uncertainty, how fast it was pulled, how well it was measured. */
import type { Page } from 'playwright';
import { expect, it } from 'vitest';
import { station } from '../../electron/setup/demonstration-pull.mjs';
import { scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { chooseSi } from './support/simulated-readout.ts';
import { pullSimulated } from './support/window-steps.ts';

/** The thickness with a rule that shows whole tenths: too coarse for 6 mm by either standard. */
async function enterCoarselyMeasured(page: Page): Promise<void> {
  await station(page, 'Specimen').click();
  await page.getByRole('textbox', { name: 'Identity' }).fill('COARSE-1');
  await page.getByRole('radio', { name: 'Flat' }).check({ force: true });
  await page.getByRole('textbox', { name: 'Width, measurement 1' }).fill('12.47 mm');
  await page.getByRole('textbox', { name: 'Thickness, measurement 1' }).fill('6.1 mm');
  await page.getByRole('textbox', { name: 'Gauge length L0, measurement 1' }).fill('50 mm');
  await page.getByRole('button', { name: 'Keep this specimen' }).click();
  await page.getByText('COARSE-1 is kept.').first().waitFor();
}

/** The number that a cell begins with; a power of ten is never written there. */
const numberIn = (text: string | null): number => Number.parseFloat((text ?? '').replaceAll('\u202f', ''));

it('tells uncertainty with its budget, speed of testing and too coarse an instrument, on the sheet and in the archive', async () => {
  const window = await GaugemarkWindow.open({ folder: scratch() });
  try {
    await window.connected();
    const { page } = window;
    await chooseSi(page);
    await enterCoarselyMeasured(page);
    await pullSimulated(window);

    await station(page, 'Result').click();
    await uncertaintyIsTold(page);
    await speedIsTold(page);
    await coarseInstrumentIsTold(page);
    await boardEndsWithTheCurve(page);

    await page.getByRole('button', { name: 'Archive' }).click();
    await page.getByRole('button', { name: 'Open the pull of COARSE-1' }).click();
    await uncertaintyIsTold(page);
    await speedIsTold(page);
    await coarseInstrumentIsTold(page);
    await evaluationIsKept(page);
  } finally {
    await window.end();
  }
});

/** The table is checked against the law of propagation and U = k·u (GUM, JCGM 100:2008, 5.1.2 and 6.2.1). */
async function uncertaintyIsTold(page: Page): Promise<void> {
  const row = page.locator('[data-symbol="Rm"]');
  await row.getByText(/^± [\d.]+ MPa \(k = [\d.]+\)$/).waitFor();
  await row.getByRole('button').click();
  const table = row.getByRole('region', { name: 'Uncertainty of Rm' });
  await table.waitFor();
  const contributions = await table.locator('tbody tr td:nth-of-type(3)').allTextContents();
  expect(contributions.length).toBeGreaterThan(1);
  const [combined, expanded] = await table.locator('tfoot tr td:nth-of-type(1)').allTextContents();
  const squares = contributions.reduce((sum, text) => sum + numberIn(text) ** 2, 0);
  expect(numberIn(combined ?? null) / Math.sqrt(squares)).toBeCloseTo(1, 2);
  const beside = (await row.getByText(/^± /).textContent()) ?? '';
  const [, u = '', k = ''] = /^± ([\d.]+) MPa \(k = ([\d.]+)\)$/.exec(beside) ?? [];
  expect(Number(u)).toBe(numberIn(expanded ?? null));
  // U is stated to two digits.
  expect(Number(u) / (Number(k) * numberIn(combined ?? null))).toBeCloseTo(1, 1);
}

/** More steps than any specimen has; the last one stays. */
const STEPS_MAX = 60;

async function boardEndsWithTheCurve(page: Page): Promise<void> {
  await page.locator('#to-board').click();
  const board = page.getByRole('dialog', { name: 'Arithmetic of COARSE-1' });
  await board.getByText('SIMULATED', { exact: true }).waitFor();
  const curve = board.locator('.board-curve .curve-plot:visible');
  for (let step = 0; step < STEPS_MAX && (await curve.count()) === 0; step++)
    await page.keyboard.press('Space');
  const [plot, whole] = [await curve.boundingBox(), await board.boundingBox()];
  // For a room: the curve has the most of the screen, and all of it is on it.
  expect((plot?.height ?? 0) / (whole?.height ?? 1)).toBeGreaterThan(0.5);
  expect((plot?.y ?? 0) + (plot?.height ?? 0)).toBeLessThanOrEqual(whole?.height ?? 0);
  await page.keyboard.press('Escape');
  await board.waitFor({ state: 'hidden' });
}

async function speedIsTold(page: Page): Promise<void> {
  const block = page.locator('[data-block="speed"]');
  const checks = block.getByRole('listitem');
  expect(await checks.first().isVisible()).toBe(false);
  await block.getByText('Speed of testing').click();
  const told = await checks.allTextContents();
  expect(told.length).toBeGreaterThan(5);
  for (const line of told) expect(line).toMatch(/^(within|outside|can’t tell)(ASTM E8\/E8M|ISO 6892-1), /);
  const shapes = await checks.locator('.verdict-word svg').count();
  expect(shapes).toBe(told.length);
  const measured = block.getByRole('region', { name: 'Measured rates' });
  await measured.getByText(/MPa\/s$/).waitFor();
  // The simulated frame is read through an extensometer: each stage has a strain rate that a check rests on.
  expect(told.join('\n')).toMatch(/(within|outside)ISO 6892-1, method A, through yieldstrain rate/);
}

async function coarseInstrumentIsTold(page: Page): Promise<void> {
  const block = page.locator('[data-block="measuring"]');
  // A warning is not folded away.
  const warnings = block.getByRole('listitem').filter({ hasText: /^too coarse/ });
  await warnings.first().waitFor();
  const told = await warnings.allTextContents();
  expect(told.some((line) => /thickness of 6\.1\smm; the instrument shows 0\.1\smm/.test(line))).toBe(true);
  expect(told.some((line) => line.includes('width'))).toBe(false);
}

/** Remarks, reasons, checks and stated options say no metric unit where the American ones are chosen. */
async function sentencesFollowTheUnits(page: Page): Promise<void> {
  await page.getByRole('radio', { name: 'US' }).check({ force: true });
  // 7606.7 N / 4.448222 N/lbf (NIST SP 811, appendix B).
  await page.getByText('Zero of the load: 1710.1 lbf').waitFor();
  const sentences = await page
    .locator(
      '.withheld li, .remarks li, .result-doubt, [data-block="measuring"] .checks p:not(.pencil), .stated li',
    )
    .allTextContents();
  expect(sentences.length).toBeGreaterThan(5);
  for (const sentence of sentences) expect(sentence).not.toMatch(/\d (?:mm|N|kN|MPa|J)\b/);
  await chooseSi(page);
}

/** Another evaluation is kept with a reason, stands in the archive and in the station, and goes back as recorded. */
async function evaluationIsKept(page: Page): Promise<void> {
  const strength = async (): Promise<number> =>
    numberIn(await page.locator('[data-symbol="Rm"] .result-value').first().textContent());
  const block = page.locator('[data-block="evaluation"]');
  const recorded = await strength();
  await block.getByRole('button', { name: 'Evaluate again…' }).click();
  const sheet = page.getByRole('dialog', { name: 'Evaluate again' });
  await sheet.getByText('Corrections of the readings').click();
  await sheet.getByRole('textbox', { name: 'Zero of the load' }).fill('7');
  await sheet.getByRole('button', { name: 'Show old and new', exact: true }).click();
  await sheet.getByText('"7" has no unit').waitFor();
  // 12.47 mm × 6.1 mm = 76.067 mm²: 7.6067 kN are 100 MPa.
  await sheet.getByRole('textbox', { name: 'Zero of the load' }).fill('7.6067 kN');
  await sheet.getByRole('button', { name: 'Show old and new', exact: true }).click();
  const changed = sheet.locator('[data-changed="Rm"] td');
  await changed.first().waitFor();
  const [before, after] = (await changed.allTextContents()).map(numberIn);
  expect([before, after]).toEqual([recorded, recorded - 100]);
  await sheet.getByRole('button', { name: 'Keep this evaluation' }).click();
  await sheet.getByText('Say in a few words why').waitFor();
  await sheet.getByRole('textbox', { name: 'Reason' }).fill('the grip was not zeroed');
  await sheet.getByRole('button', { name: 'Keep this evaluation' }).click();
  await block.getByText(/^Evaluation 1 stands, kept .*Reason: the grip was not zeroed$/).waitFor();
  expect(await strength()).toBe(recorded - 100);

  await station(page, 'Result').click();
  await block.getByText('Zero of the load: 7606.7 N').waitFor();
  expect(await strength()).toBe(recorded - 100);
  await sentencesFollowTheUnits(page);
  await block.getByRole('button', { name: 'Back to as recorded…' }).click();
  const back = page.getByRole('dialog', { name: 'Back to as recorded' });
  await back.locator('[data-changed="Rm"]').waitFor();
  await back.getByRole('textbox', { name: 'Reason' }).fill('it was zeroed after all');
  await back.getByRole('button', { name: 'Go back and keep that' }).click();
  await block.getByText('All 2 kept, newest first').waitFor();
  expect(await strength()).toBe(recorded);
}
