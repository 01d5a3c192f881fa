/** What is measured on the broken specimen, typed into the real window: A and Z stand in the result, nothing is lost. */
import type { Page } from 'playwright';
import { expect, it } from 'vitest';
import { DEMONSTRATION_SPECIMEN, enterSpecimen, station } from '../../electron/setup/demonstration-pull.mjs';
import { scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { until } from './support/until.ts';
import { chooseSi } from './support/simulated-readout.ts';
import { keptPull, openPullId, pullSimulated } from './support/window-steps.ts';

const form = (page: Page) => page.getByRole('region', { name: 'Measured after the break' });

const entry = (page: Page, name: string, nth = 1) =>
  form(page).getByRole('textbox', { name: `${name}, measurement ${String(nth)}` });

/** The shown value is rounded; neither standard rounds A or Z more coarsely than to a whole percent (from memory). */
const ROUNDED_BY_PERCENT = 0.5;

async function stands(page: Page, symbol: string, percent: number): Promise<void> {
  const value = page.locator(`[data-symbol="${symbol}"] .result-value`);
  await until(
    async () =>
      Math.abs(Number.parseFloat((await value.textContent()) ?? '') - percent) <= ROUNDED_BY_PERCENT,
    `${symbol} stands in the result`,
  );
  expect(await value.textContent()).toContain('%');
}

it('gives A from the refitted halves and Z in the result, and keeps the specimen record from before the pull', async () => {
  const window = await GaugemarkWindow.open({ folder: scratch() });
  try {
    await window.connected();
    const { page } = window;
    await chooseSi(page);
    await enterSpecimen(page);
    await pullSimulated(window);
    const pullId = await openPullId(window);
    const { pull } = await keptPull(window, pullId);

    await station(page, 'Fracture').click();
    await page.getByRole('button', { name: 'Keep these measurements' }).click();
    await form(page).getByText('Nothing is entered yet. Measure at least one of these.').waitFor();
    // Shorter than before is told beside the field, as the reason why there will be no A.
    await entry(page, 'Final gauge length Lu').fill('6.15 mm');
    await form(page)
      .getByText(/are shorter than the original gauge length/)
      .waitFor();
    await entry(page, 'Final gauge length Lu').fill('61.5 mm');
    await entry(page, 'Final width bu').fill('9');
    await entry(page, 'Final thickness tu').fill('4.0 mm');
    await form(page).getByRole('button', { name: 'Final thickness tu: measure once more' }).click();
    await entry(page, 'Final thickness tu', 2).fill('0.42 cm');
    const distance = form(page).getByRole('textbox', { name: /^Fracture to nearest mark/ });
    await distance.fill('22 parsec');
    await page.getByRole('button', { name: 'Keep these measurements' }).click();
    expect(await distance.getAttribute('aria-invalid')).toBe('true');
    await distance.fill('22');
    await page.getByRole('button', { name: 'Keep these measurements' }).click();
    await page.getByText('The measurements are kept; the result is worked out with them.').first().waitFor();

    // Closed forms: A = (Lu − L0)/L0 and Z = (S0 − Su)/S0 with S0 and Su from mean width times mean thickness.
    const a = ((61.5 - 50) / 50) * 100;
    const s0 = 12.47 * 6.11;
    const z = ((s0 - 9 * 4.1) / s0) * 100;
    await station(page, 'Result').click();
    await stands(page, 'A', a);
    await stands(page, 'Z', z);
    const evaluated = await window.request('pull.evaluate', { pullId });
    const results = evaluated.ok ? evaluated.value.results : [];
    const valueOf = (symbol: string) => results.find((one) => one.symbol === symbol)?.value;
    expect(valueOf('A')).toBeCloseTo(a, 9);
    expect(valueOf('Z')).toBeCloseTo(z, 9);

    // The record from before the pull is as it was; the pull still names it, and it names its correction.
    const { specimen: before } = (await keptPull(window, pullId)).pull;
    expect(before.specimen).toEqual(pull.specimen.specimen);
    expect(before.specimenId).toBe(pull.specimen.specimenId);
    const after = await window.request('pull.specimen', { pullId });
    expect(after.ok && after.value).toMatchObject({
      specimenId: before.supersededBy,
      supersedes: pull.specimen.specimenId,
      reason: 'measured after the break',
      specimen: {
        ...pull.specimen.specimen,
        finalGaugeLength: ['61.5 mm'],
        finalWidth: ['9 mm'],
        finalThickness: ['4.0 mm', '0.42 cm'],
        distanceToNearestMark: '22 mm',
      },
    });

    // Opened from the archive it can be corrected again; the correction supersedes the newest record.
    await page.getByRole('button', { name: 'Archive' }).click();
    await page.getByRole('button', { name: `Open the pull of ${DEMONSTRATION_SPECIMEN.id}` }).click();
    await stands(page, 'Z', z);
    // A stands already, and an evaluation was kept since: what becomes of both is looked at before anything is kept.
    const keptOne = await window.request('evaluation.keep', {
      pullId,
      options: {},
      supersedes: null,
      reason: 'looked at by the engineer',
    });
    expect(keptOne.ok).toBe(true);
    await entry(page, 'Final gauge length Lu').fill('65 mm');
    await page.getByRole('button', { name: 'Keep these measurements' }).click();
    await page.getByText('Show old and new first', { exact: false }).first().waitFor();
    const history = async () => {
      const answer = await window.request('evaluation.history', { pullId });
      return answer.ok ? answer.value.evaluations : [];
    };
    expect(await history()).toHaveLength(1);
    await page.locator('#show-after-fracture').click();
    const corrected = page.locator(`[data-corrected-pull="${String(pullId)}"]`);
    await corrected.getByText(/^Evaluation 1 stands on pull/).waitFor();
    // (61.5 − 50) / 50 and (65 − 50) / 50.
    expect(await corrected.locator('[data-changed="A"] td').allTextContents()).toEqual(['23.0 %', '30.0 %']);
    await page.getByRole('button', { name: 'Keep these measurements' }).click();
    await stands(page, 'A', 30);
    expect((await history()).at(-1)).toMatchObject({ evaluationId: 2, supersedes: 1 });
    await photosAreKept(window);
    await pullIsMadeVoid(window, pullId);
    await station(page, 'Result').click();
    await stands(page, 'A', 30);
  } finally {
    await window.end();
  }
});

const fixture = (path: string): string => new URL(`../../fixtures/${path}`, import.meta.url).pathname;

async function choosing(window: GaugemarkWindow, path: string): Promise<void> {
  await window.app.evaluate(({ dialog }, chosen) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [chosen] });
  }, path);
  await window.page.getByRole('button', { name: 'Add a photo…' }).click();
}

/** By its content, whatever its name; shown small, and withdrawn with a reason. */
async function photosAreKept(window: GaugemarkWindow): Promise<void> {
  const photos = window.page.getByRole('region', { name: 'Photos of the broken specimen' });
  await choosing(window, fixture('schemas/pull-4.schema.json'));
  await photos.getByText(/its content is neither JPEG nor PNG/).waitFor();
  await photos.getByRole('textbox', { name: 'What it shows' }).fill('<b>both halves</b>');
  await choosing(window, fixture('photos/grey-ramp.jpg'));
  const picture = photos.getByRole('img', { name: '<b>both halves</b>' });
  await until(
    async () => (await picture.evaluate((image) => (image as HTMLImageElement).naturalWidth)) === 64,
    'the photo is shown',
  );
  await photos.getByRole('button', { name: 'Withdraw the photo <b>both halves</b>' }).click();
  await window.page.getByRole('textbox', { name: 'Reason', exact: true }).fill('of another specimen');
  await window.page.getByRole('button', { name: 'Withdraw the photo', exact: true }).click();
  await photos.getByText(/^Withdrawn by .*: of another specimen$/).waitFor();
}

async function pullIsMadeVoid(window: GaugemarkWindow, pullId: number): Promise<void> {
  const { page } = window;
  await page.getByRole('button', { name: 'Make this pull void…' }).click();
  await page.getByRole('button', { name: 'Make it void' }).click();
  await page.getByText('Say why, in a few words.').waitFor();
  await page.getByRole('textbox', { name: 'Reason', exact: true }).fill('the grips slipped');
  await page.getByRole('button', { name: 'Make it void' }).click();
  await page.getByText(/^VOID since .*: the grips slipped$/).waitFor();
  const { pull } = await keptPull(window, pullId);
  expect(pull.voided).toMatchObject({ reason: 'the grips slipped' });
}
