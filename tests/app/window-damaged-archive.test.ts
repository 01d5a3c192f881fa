/** A really damaged archive in the real window: the page names it, sets it aside after asking, and goes on. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { enterSpecimen } from '../../electron/setup/demonstration-pull.mjs';
import { scratch } from './recorder-process.ts';
import { archiveIn, GaugemarkWindow } from './support/gaugemark-window.ts';
import { damagedArchive } from './support/damaged-archive.ts';
import { until } from './support/until.ts';
import { chooseSi } from './support/simulated-readout.ts';

it('a damaged archive is set aside only after it was asked for twice; nothing is deleted, a fresh one is in use (D7)', async () => {
  const folder = scratch();
  const archivePath = archiveIn(folder);
  const bytes = await damagedArchive(archivePath);

  const window = await GaugemarkWindow.open({ folder });
  try {
    await window.connected();
    const { page } = window;
    const setAside = page.getByRole('button', { name: 'Set this archive aside…' });
    await setAside.click();
    await page.getByText('nothing is deleted').first().waitFor();
    await page.getByRole('button', { name: 'Leave it as it is' }).click();
    expect(readFileSync(archivePath).equals(bytes)).toBe(true);

    await setAside.click();
    await page.getByRole('button', { name: 'Rename it and begin a fresh one' }).click();
    await page.getByText('A fresh archive has begun.').first().waitFor();
    await until(async () => (await setAside.count()) === 0, 'the alarm is over');
    const aside = readdirSync(folder).find((name) => /\.damaged-[^/]*Z$/.test(name)) ?? '';
    expect(readFileSync(join(folder, aside)).equals(bytes)).toBe(true);
    expect(existsSync(archivePath)).toBe(true);

    await chooseSi(page);
    await enterSpecimen(page, 'AFTER-1');
    const kept = await window.request('specimen.list', { limit: 10 });
    expect(kept.ok && kept.value.items.map(({ specimen }) => specimen.id)).toEqual(['AFTER-1']);
  } finally {
    await window.end();
  }
});
