/** The tour in the real window: real stations, a simulated specimen, an archive of its own, left in the middle of the pull. */
import { expect, it } from 'vitest';
import { stateIs } from '../../electron/setup/demonstration-pull.mjs';
import { scratch } from './recorder-process.ts';
import { PROFILE } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { until } from './support/until.ts';

it('leads a simulated specimen through the stations, apart from what is one’s own, and gives that back', async () => {
  const window = await GaugemarkWindow.open({ folder: scratch() });
  try {
    await window.connected();
    const { page } = window;
    await page.locator('#take-tour').waitFor();
    const identity = page.locator('#specimen-identity');
    await identity.fill('MINE-1');
    // Found by writing it, since the offer has gone with the first letter typed.
    await page.keyboard.press('Control+J');
    await page.keyboard.type('tour');
    await page.keyboard.press('Enter');
    const tour = page.getByRole('region', { name: 'Tour' });
    await tour.getByText('step 1 of 6').waitFor();
    await tour.getByText('SIMULATED', { exact: true }).waitFor();
    await until(async () => (await identity.inputValue()) !== 'MINE-1', 'a simulated specimen is entered');
    await window.connected();

    const archivePath = async () => {
      const answer = await window.request('session.get', {});
      return answer.ok ? answer.value.archive.path : null;
    };
    await until(async () => (await archivePath()) !== null, 'the recorder of the tour answers');
    expect(await archivePath()).not.toBe(window.archivePath);
    /** As soon as it can act: what it needs may have to be read first. */
    const press = (id: string): Promise<void> =>
      page.locator(`#${id}:not([aria-disabled="true"])`).press('Enter');
    await press('keep-specimen');
    await tour.getByText('step 2 of 6').waitFor();
    await page.locator('#tour-on').press('Enter');
    await press('listen');
    await tour.getByText('step 3 of 6').waitFor();
    for (const refused of [
      await window.request('readout.open', {
        source: { kind: 'serial', path: '/dev/null' },
        profile: PROFILE,
      }),
      await window.request('pull.type', { specimenId: 1, typed: { load: '10 kN' } }),
    ])
      expect(refused).toMatchObject({ ok: false, fault: { code: 'tour' } });
    await page.locator('#tour-on').press('Enter');
    await press('act-ready');
    await stateIs(page, ['ready', 'pulling']);

    await page.locator('#leave-tour').press('Enter');
    await tour.waitFor({ state: 'detached' });
    await until(async () => (await archivePath()) === window.archivePath, 'one’s own archive is back');
    await until(async () => (await identity.inputValue()) === 'MINE-1', 'what was typed is back');
    const kept = [
      await window.request('specimen.list', { limit: 5 }),
      await window.request('pull.list', { limit: 5 }),
    ];
    for (const answer of kept) expect(answer).toMatchObject({ ok: true, value: { items: [] } });
  } finally {
    await window.end();
  }
});
