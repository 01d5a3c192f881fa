/** The self-check in the real window: what a laboratory files as the validation of its software. */
import { expect, it } from 'vitest';
import { bringAxe, faultsIn } from './support/looked-over.ts';
import { DrawnComponents } from './support/drawn-components.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';

it('is opened from the menu, runs every example in the recorder, and shows each with expected, got and verdict', async () => {
  const { folder, remove } = scratchFolder();
  const window = await GaugemarkWindow.open({ folder });
  try {
    await window.connected();
    await window.choose('go-self-check');
    const { page } = window;
    const drawn = await DrawnComponents.from(page);
    await page.locator('#run-self-check').click();
    const verdict = page.locator('#self-check-verdict');
    await verdict.waitFor({ timeout: 60_000 });
    const rows = await page.locator('.self-check-table tbody tr').count();
    expect(rows).toBeGreaterThan(100);
    expect(await verdict.innerText()).toContain(`All ${String(rows)} checks agree.`);
    expect(await page.locator('tr[data-verdict="agrees"]').count()).toBe(rows);
    // Two published figures that the page must carry: with their source, not only with the verdict.
    expect(await page.locator('main').innerText()).toContain('NIST SP 811');
    await bringAxe(page);
    expect(await faultsIn(page, 'self-check that has run', ['chalk', 'contrast'])).toEqual([]);
    expect(await drawn.notDrawnAsSaid('window-self-check')).toEqual([]);
    await page.reload();
    await page.locator('#run-self-check').waitFor();
  } finally {
    await window.end();
    remove();
  }
});
