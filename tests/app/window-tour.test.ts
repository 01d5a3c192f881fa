/**
 * The tour in the real window: real stations, a simulated specimen, an archive of its own; through all its steps, and left
 * in the middle of another pull.
 */
import { expect, it } from 'vitest';
import { noteFracture, stateIs, tailIsOver } from '../../electron/setup/demonstration-pull.mjs';
import { enTour } from '../../renderer/words/en-tour.ts';
import { BY_HAND, PROFILE, scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { openSimulated } from './support/simulated-readout.ts';
import { until } from './support/until.ts';

const STEPS = Object.keys(enTour.steps);

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
    /** The strip counts it, says what is to be done, and nothing else. */
    const stepIs = async (step: keyof typeof enTour.steps): Promise<void> => {
      await tour.getByText(`step ${String(STEPS.indexOf(step) + 1)} of 6`).waitFor();
      expect(await tour.getByRole('status').innerText()).toBe(enTour.steps[step]);
    };
    await stepIs('specimen');
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
    await stepIs('readout');
    await page.locator('#tour-on').press('Enter');
    await press('listen');
    await stepIs('pull');
    for (const refused of [
      await window.request('readout.open', {
        source: { kind: 'serial', path: '/dev/null' },
        profile: PROFILE,
      }),
      await window.request('pull.type', { specimenId: 1, typed: { load: '10 kN' } }),
    ])
      expect(refused).toMatchObject({ ok: false, fault: { code: 'tour' } });
    const goOn = async (place: string): Promise<void> => {
      await press('tour-on');
      await page.locator(`main[data-place="${place}"]`).waitFor();
    };
    await goOn('pull');
    // The same frame in less time, but long enough to be met while it pulls.
    await window.request('readout.close', {});
    await openSimulated(window, 8);
    await press('act-ready');
    await stateIs(page, ['pulling']);
    await tour.getByText(enTour.pulling).waitFor();
    await stateIs(page, ['broken', 'ended']);
    await tailIsOver(page);
    await stepIs('fracture');
    await noteFracture(page, 'Base metal');
    await stepIs('result');
    await goOn('result');
    // The shipped steel yields, so it has both kinds of strength: nothing of a real result is left out.
    for (const symbol of ['ReH', 'Rm']) await page.locator(`[data-symbol="${symbol}"]`).first().waitFor();
    await goOn('archive');
    await stepIs('archive');
    await page.locator('#found-0').getByText('SIMULATED').waitFor();
    expect(await page.locator('#tour-on').count(), 'the last step leads nowhere on').toBe(0);

    // Once more, to be left in the middle.
    expect(await window.request('pull.ready', { specimenId: 1, ...BY_HAND })).toMatchObject({ ok: true });
    expect(await window.request('pull.start', {})).toMatchObject({ ok: true });
    await stateIs(page, ['pulling']);
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
