/** The register of instruments in the real window, by keyboard alone: entered, calibrated, verified, and asked about before a pull. */
import { execFileSync } from 'node:child_process';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { enterSpecimen, station } from '../../electron/setup/demonstration-pull.mjs';
import { PROFILE } from './recorder-process.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';
import { type PortPair, openPortPair } from './support/port-pair.ts';
import { chooseSi } from './support/simulated-readout.ts';
import { openPullId, untilState } from './support/window-steps.ts';

let window: GaugemarkWindow;
let ports: PortPair;
const { folder, remove } = scratchFolder();
beforeAll(async () => {
  window = await GaugemarkWindow.open({ folder });
  await window.connected();
  ports = await openPortPair(folder);
});
afterAll(async () => {
  await window.end();
  await ports.end();
  remove();
});

const instruments = async () => {
  const answer = await window.request('instrument.list', {});
  if (!answer.ok) throw new Error(answer.fault.sentence);
  return answer.value.instruments;
};

/** Types each text into the field that has the focus and goes to the next one. */
async function type(page: Page, ...texts: readonly string[]): Promise<void> {
  for (const text of texts) {
    if (text !== '') await page.keyboard.type(text);
    await page.keyboard.press('Tab');
  }
}

/** Text of the PDF that the button beside a calibration writes. */
async function writtenCertificate(page: Page, certificateNumber: string): Promise<string> {
  const out = join(folder, `${certificateNumber}.pdf`);
  await window.app.evaluate(({ dialog }, path) => {
    dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: path });
  }, out);
  await page
    .getByRole('button', { name: new RegExp(`^Certificate \\(PDF\\)… ${certificateNumber}`) })
    .focus();
  await page.keyboard.press('Enter');
  await page.getByText(`Written to ${out}.`).waitFor();
  return execFileSync('pdftotext', ['-layout', out, '-'], { encoding: 'utf8' });
}

it('enters an instrument, its calibration and a verification, with errors and class beside the figures', async () => {
  const { page } = window;
  await chooseSi(page);
  await page.keyboard.press('Alt+9');
  await page.getByText('No instrument is entered yet.').waitFor();
  await page.keyboard.press('Control+Enter');
  await page.getByLabel('Name as on its label').waitFor();
  // A range without a unit is told beside its field, and nothing is kept.
  await type(page, 'LC-20', '4711', 'load cell', '', '200');
  await page.keyboard.press('Control+Enter');
  await page.getByText('has no unit').waitFor();
  expect(await instruments()).toEqual([]);
  // The field at fault has the focus.
  await page.keyboard.press('End');
  await page.keyboard.type(' kN');
  await page.keyboard.press('Control+Enter');
  await page.getByRole('heading', { name: 'LC-20' }).waitFor();
  await page.getByText('NO CALIBRATION ON RECORD').first().waitFor();

  await page.keyboard.press('Control+Enter');
  await page.getByLabel('Certificate number').waitFor();
  await type(page, 'K-17', '2024-01-31', '2025-01-31');
  await page.keyboard.press('Control+Enter');
  await page.getByText('OVERDUE').first().waitFor();
  expect(await instruments()).toMatchObject([
    { form: { name: 'LC-20', serialNumber: '4711', range: { from: '0', to: '200 kN' } }, state: 'overdue' },
  ]);

  await page.locator('#verify-instrument').focus();
  await page.keyboard.press('Enter');
  await page.getByLabel('Resolution of the display').waitFor();
  await type(page, '0.01');
  await page.getByLabel('Applied, line 1').focus();
  for (const force of ['20', '40', '60', '80', '100'])
    for (const text of [force, `${force}.02`, `${force}.05`, `${force}.03`, `${force}.08`]) {
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
  // What was typed so far is worked out already; without the zeros no class is stated.
  const verdict = page.locator('#worksheet-verdict');
  await verdict.getByText('no class is stated').waitFor();
  for (const zero of ['0', '0.01', '0']) {
    await page.keyboard.type(zero);
    await page.keyboard.press('Enter');
  }
  await verdict.getByText('ISO 7500-1: class 0.5 over the whole range.').waitFor();
  // A reader hears it once the keys rest, and not at every figure.
  expect(await verdict.getAttribute('role')).toBeNull();
  await page.locator('.said').getByText('ISO 7500-1: class 0.5 over the whole range.').waitFor();
  const [first] = await page.locator('.worksheet-table tbody tr').all();
  expect(await first?.locator('td.worksheet-figure').allInnerTexts()).toEqual([
    '0.167',
    '0.150',
    '0.250',
    '0.050',
    '0.5',
    'within',
  ]);
  await page.locator('#calibration-certificateNumber').focus();
  await type(page, 'V-2024-3', '2024-02-01', '2025-01-30', 'A. Person');
  await page.keyboard.press('Control+Enter');
  await page.getByText('Certificate V-2024-3 is kept.').waitFor();
  expect(await instruments()).toMatchObject([
    {
      state: 'overdue',
      calibration: {
        form: {
          certificateNumber: 'V-2024-3',
          class: 'class 0.5 (ISO 7500-1), within ±1 % (ASTM E4)',
          verifiedRange: { from: '20 kN', to: '100 kN' },
        },
      },
    },
  ]);
});

it('writes the certificate of the verification as a PDF from what is kept', async () => {
  const text = await writtenCertificate(window.page, 'V-2024-3');
  expect(text).toContain('Certificate of verification');
  expect(text).toContain('ISO 7500-1: class 0.5');
  expect(text).toMatch(/20 +20\.02 +20\.05 +20\.03 +20\.08 +0\.167 +0\.150 +0\.250 +0\.050 +0\.5/);
  expect(text).toContain('page 1 of');
});

it('asks once before a pull is made ready with it, and keeps answer, certificate and due date', async () => {
  const { page } = window;
  await window.request('readout.save-profile', { profile: PROFILE });
  await enterSpecimen(page, 'P-1');
  await station(page, 'Readout').click();
  await page.getByRole('textbox', { name: 'Port by path' }).fill(ports.port);
  await page.getByRole('combobox', { name: 'Readout profile' }).selectOption(PROFILE.name);
  await page.getByRole('button', { name: 'Listen', exact: true }).click();
  await page.getByText('No frame or force channel is named').waitFor();
  // Scale and offset are come by from the caution: listening stops, and the entry has the focus.
  await page.locator('#set-factors').click();
  await page.locator('#channel-factors[open]').waitFor();
  await untilState(window, 'closed');
  const scale = page.getByRole('group', { name: 'load' }).getByRole('textbox', { name: /^Scale/ });
  await expect.poll(() => scale.evaluate((entry) => entry === document.activeElement)).toBe(true);
  // From the plan of a pull too, and from the command field.
  await page.getByRole('button', { name: 'Listen', exact: true }).click();
  await untilState(window, 'listening');
  await page.keyboard.press('Alt+4');
  await page.locator('main[data-place="pull"] #set-factors').waitFor();
  await page.keyboard.press('Control+J');
  await page.keyboard.type('scale and offset');
  await page.getByText('stops listening first').waitFor();
  await page.keyboard.press('Enter');
  await page.locator('main[data-place="readout"] #channel-factors[open]').waitFor();
  await untilState(window, 'closed');
  await page.getByRole('button', { name: 'Listen', exact: true }).click();
  await page.getByText('No frame or force channel is named').waitFor();
  await page.getByRole('combobox', { name: 'Force channel' }).focus();
  await page.keyboard.type('LC-20');
  const sentence = 'Force channel LC-20: calibration overdue since 2025-01-30 (certificate V-2024-3).';
  await page.getByText(sentence).waitFor();

  await page.keyboard.press('Alt+4');
  await page.getByText(sentence).waitFor();
  await page.keyboard.press('Control+R');
  const dialog = page.getByRole('dialog', { name: 'Before the start' });
  await dialog.getByText(sentence).waitFor();
  await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'hidden' });
  await untilState(window, 'listening');
  await page.keyboard.press('Control+R');
  await dialog.waitFor();
  await page.keyboard.press('Control+Enter');
  await page.getByText('Ready, waiting for load').first().waitFor();

  const pullId = await openPullId(window);
  await window.request('pull.close', {});
  const kept = await window.request('pull.get', { pullId });
  if (!kept.ok) throw new Error(kept.fault.sentence);
  expect(kept.value.instruments).toMatchObject({
    used: [{ name: 'LC-20', certificateNumber: 'V-2024-3', dueOn: '2025-01-30', state: 'overdue' }],
    confirmed: 'person',
  });
  expect(kept.value.acts.filter(({ kind }) => kind === 'calibration-known')).toHaveLength(1);
});

it('verifies an extensometer beside its figures, and keeps classes and worksheet with its calibration', async () => {
  const { page } = window;
  const saved = await window.request('instrument.save', {
    form: { kind: 'extensometer', name: 'EX-50', range: { from: '0', to: '5 mm' } },
  });
  if (!saved.ok) throw new Error(saved.fault.sentence);
  // The page reads the register anew when it comes.
  await page.reload();
  await window.connected();
  await page.getByRole('button', { name: 'Archive', exact: true }).waitFor();
  await page.keyboard.press('Alt+9');
  await page.getByRole('button', { name: /EX-50/ }).click();
  await page.locator('#verify-instrument').click();
  const sheet = page.getByRole('region', { name: /EX-50/ });
  await sheet.getByLabel('Unit').selectOption('mm');
  await sheet.getByLabel(/^Nominal gauge length/).fill('50');
  await sheet.getByLabel(/^Resolution/).fill('0.0001');
  for (const [place, applied] of [0.1, 0.2, 0.5, 1, 2].entries())
    for (const [column, text] of [
      ['Displacement applied', String(applied)],
      ['Run 1', (applied + 0.0028).toFixed(4)],
      ['Run 2', String(applied)],
    ] as const)
      await sheet.getByLabel(`${column}, line ${String(place + 1)}`).fill(text);
  await sheet.getByText('ISO 9513: class 1').waitFor();
  await sheet.getByText('ASTM E83: class B-1').waitFor();
  // Means that do not grow make no table: the box says so and is not kept silently without one.
  const table = sheet.getByLabel('Keep the means as correction table');
  expect(await table.isDisabled()).toBe(false);
  const second = sheet.getByLabel('Run 1, line 2');
  await second.fill('0.0000');
  await page.getByText('The means of what was indicated do not grow').waitFor();
  expect(await table.isDisabled()).toBe(true);
  await second.fill('0.2028');
  await page.getByText('The means of what was indicated do not grow').waitFor({ state: 'detached' });
  await page.locator('#calibration-certificateNumber').fill('X-1');
  await page.locator('#calibration-calibratedOn').fill('2026-01-31');
  await page.locator('#calibration-dueOn').fill('2027-01-31');
  await page.locator('#keep-verification').click();
  await page.getByText('Certificate X-1 is kept.').waitFor();
  const kept = await window.request('instrument.get', { instrumentId: saved.value.instrumentId });
  expect(kept.ok && kept.value.calibrations[0]?.form).toMatchObject({
    class: 'class 1 (ISO 9513), class B-1 (ASTM E83)',
    verifiedRange: { from: '0.1 mm', to: '2 mm' },
    extensionSheet: { gaugeLength: '50' },
  });
  const text = await writtenCertificate(page, 'X-1');
  expect(text).toContain('ISO 9513: class 1');
  expect(text).toContain('ASTM E83: class B-1');
  expect(text).toMatch(/q = 100 × 0\.0028 \/ 0\.1 = 2\.800 %; 2\.80 µm/);
});
