/** The whole job by mouse alone: set, specimen, readout, pull, fracture, result, certificate, archive. Signs are typed into fields that were clicked; no key leads anywhere. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { Mouse } from './support/mouse.ts';

/** As it was listened to last, at fifty times true pace: what the station Readout offers first. */
const LISTENED_LAST = {
  source: { kind: 'simulated', scenario: 'mild-steel-yield-point', seed: 1, pace: 50 },
  profileNames: { lines: null, registers: null },
  second: null,
};

it('goes from an empty window to the pull in the archive with nothing but clicks', async () => {
  const folder = scratch();
  const out = join(folder, 'certificate.pdf');
  const window = await GaugemarkWindow.open({ folder });
  try {
    const { page } = window;
    await page.evaluate(
      (choice) => localStorage.setItem('gaugemark.readout', choice),
      JSON.stringify(LISTENED_LAST),
    );
    await page.reload();
    await window.connected();
    await window.app.evaluate(({ dialog }, path) => {
      dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: path });
    }, out);
    const hand = new Mouse(page);
    const button = (name: string | RegExp) => page.getByRole('button', { name });
    const entry = (name: string | RegExp) => page.getByRole('textbox', { name });
    const at = (place: string) => page.locator(`main[data-place="${place}"]`).waitFor();

    await hand.click(page.locator('label', { hasText: /^SI$/ }));

    await hand.click(page.locator('#go-set'));
    await hand.click(page.locator('#make-set'));
    await hand.typeInto(page.locator('#set-name'), 'Hopper seam 14');
    await hand.typeInto(page.locator('#set-base1'), 'our plate');
    await hand.typeInto(page.locator('#set-base1Minimum'), '400 MPa');
    await hand.typeInto(page.locator('#set-requiredCount'), '1');
    await hand.typeInto(page.locator('#set-fewerReason'), 'the coupon gave one specimen');
    await hand.click(page.locator('#keep-set'));

    await hand.click(page.locator('#set-step'));
    await at('specimen');
    await hand.typeInto(page.locator('#specimen-identity'), 'HS-1');
    await hand.typeInto(entry('Width, measurement 1'), '19.05 mm');
    await hand.typeInto(entry('Thickness, measurement 1'), '4.00 mm');
    await hand.typeInto(entry('Gauge length L0, measurement 1'), '50 mm');
    await hand.click(page.locator('#keep-specimen'));
    await page.getByText('HS-1 is kept and in the set Hopper seam 14.').first().waitFor();

    await hand.click(page.locator('#go-readout'));
    await hand.click(page.locator('#listen'));
    await hand.click(page.locator('#to-pull'));
    await at('pull');
    await hand.click(page.locator('#act-ready:not([aria-disabled])'));
    await page.locator('#to-fracture.call').waitFor();
    await hand.click(page.locator('#to-fracture'));

    await hand.click(page.locator('.places label', { hasText: 'Base metal' }));
    await hand.click(page.locator('#keep-fracture'));
    await hand.click(page.locator('#to-result'));
    await at('result');
    await page.getByRole('region', { name: 'Verdict on HS-1' }).getByText('accepted').first().waitFor();

    await hand.click(page.locator('#to-set'));
    await hand.click(button('Make the certificate'));
    await at('certificate');
    await hand.typeInto(page.locator('#laboratory-name'), 'Hall 4');
    await hand.click(page.locator('#keep-laboratory'));
    await hand.click(page.locator('#write-pdf'));
    await page.locator('.written').waitFor();
    expect(existsSync(out)).toBe(true);

    await hand.click(page.locator('#go-archive'));
    await hand.click(button(/^Open the pull of/));
    await page.getByRole('heading', { name: /HS-1/ }).first().waitFor();
    process.stdout.write(`From an empty window to the archive: ${String(hand.clicks)} clicks.\n`);

    // The thing to press at each station was there; what was made by it is in the archive.
    const judged = await window.request('set.judge', { setId: 1 });
    expect(judged).toMatchObject({
      ok: true,
      value: { members: [{ specimenName: 'HS-1', outcome: 'accept' }] },
    });
  } finally {
    await window.end();
  }
});
