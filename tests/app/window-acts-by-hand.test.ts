/** The operator's acts in the real window over a real pty: each leaves its mark in the archive, in the order made. */
import { expect, it } from 'vitest';
import { noteFracture, station } from '../../electron/setup/demonstration-pull.mjs';
import { makeReadout, scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import {
  COURSE,
  ENDLESS,
  hold,
  holdWhileItMoves,
  keptPull,
  openPullId,
  readyAtPort,
  untilReadings,
  untilState,
} from './support/window-steps.ts';
import { until } from './support/until.ts';

const LOW = (): number => 3;

/** What is said stands below everything that can be pressed or written into, at natural size and at 200 %. */
async function coversNothing(window: GaugemarkWindow): Promise<void> {
  const { app, page } = window;
  for (const zoom of [1, 2]) {
    await app.evaluate(({ BrowserWindow }, factor) => {
      const [first] = BrowserWindow.getAllWindows();
      first?.setContentSize(1_024, 700);
      first?.webContents.setZoomFactor(factor);
    }, zoom);
    await until(
      () => page.evaluate((factor) => innerWidth <= 1_024 / factor, zoom),
      `the page is drawn at ${String(zoom * 100)} %`,
    );
    const { line, above } = await page.evaluate(() => ({
      line: document.querySelector('.said')?.getBoundingClientRect().top ?? Number.NaN,
      above: document.querySelector('#page')?.getBoundingClientRect().bottom ?? Number.NaN,
    }));
    expect(above).toBeLessThanOrEqual(line + 0.5);
  }
  await app.evaluate(({ BrowserWindow }) => {
    BrowserWindow.getAllWindows()[0]?.webContents.setZoomFactor(1);
  });
}

it('start, break, its undoing, stop, going on and the end, all by hand, stand in the archive as they were made', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const window = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(window, readout.port);
    const { page } = window;
    const pullId = await openPullId(window);
    // No load comes: the rule never starts this pull.
    readout.run(20, LOW);
    await untilReadings(window, 10);
    const press = (name: string) => page.getByRole('button', { name, exact: true }).click();
    // A hold button that is only pressed says what it would do.
    await page.getByRole('button', { name: 'Hold: close the record' }).press('Enter');
    await page.getByRole('status').getByText('the frame is stopped at the frame').waitFor();
    await coversNothing(window);
    await press('Mark start');
    await untilState(window, 'pulling');
    await readout.pause();
    readout.run(20, ENDLESS);
    await press('Mark break');
    await untilState(window, 'broken');
    await press('It has not broken: go on');
    await untilState(window, 'pulling');
    // Let go too early, it says how it is held.
    await press('Hold: mark end of pull');
    await page
      .getByRole('status')
      .getByText('Hold the button for a second, or hold Ctrl and Backspace')
      .waitFor();
    await hold(page, 'Hold: mark end of pull');
    await untilState(window, 'stopped');
    await press('Take the end back: go on');
    await untilState(window, 'pulling');
    await holdWhileItMoves(page, 'Hold: close the record');
    await untilState(window, 'ended');
    await page.getByText('Record closed', { exact: true }).first().waitFor();
    await readout.pause();

    const { pull, counts } = await keptPull(window, pullId);
    const made = pull.marks.map(({ kind, cause }) => `${kind} ${cause}`);
    expect(made.filter((mark) => mark.endsWith(' person'))).toEqual([
      'trigger person',
      'break person',
      'undo-break person',
      'stop person',
      'continue person',
      'record-ends person',
    ]);
    expect(made[0]).toBe('record-begins program');
    expect(made.at(-1)).toBe('record-ends person');
    const seqs = pull.marks.map(({ seq }) => seq);
    expect(seqs).toEqual([...seqs].sort((a, b) => a - b));
    // Marks cut nothing off: every reading from the first on is kept.
    expect(counts).toEqual(counts.map((_, i) => i));
    expect(counts.length).toBeGreaterThan(10);
    expect(pull.broke).toBe(false);
  } finally {
    await window.end();
  }
});

it('slipped grips: the break is taken back after its tail in the fracture station, the pull goes on to the real one', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const window = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(window, readout.port);
    const { page } = window;
    const pullId = await openPullId(window);
    // Rises to 30.2 kN and falls to nothing: to the rule a break like any other.
    readout.run(10, COURSE);
    await untilState(window, 'broken');
    // The tail over, the page calls for the next station; the record runs on.
    await station(page, 'Fracture').filter({ hasText: 'next' }).waitFor();
    await page.getByRole('button', { name: 'Note where it broke' }).click();
    const running = page.getByRole('region', { name: 'The record still runs.' });
    await running.getByText(/by itself in \d+:\d\d/).waitFor();
    await station(page, 'Result').click();
    const strength = page.locator('[data-symbol="Fm"] .result-value');
    await expect.poll(() => strength.textContent(), { timeout: 30_000 }).toContain('30.20');
    await station(page, 'Fracture').click();
    await running.getByRole('button', { name: 'It has not broken: go on' }).click();
    await page.getByText('Pulling', { exact: true }).first().waitFor();
    // The rail says so already before the page has gone there.
    await page.locator('main[data-place="pull"]').waitFor();

    await readout.pause();
    const from = readout.sent();
    readout.run(10, (count) => (count < from + 60 ? 1_000 * (count - from) : 12));
    await untilState(window, 'broken');
    await station(page, 'Result').click();
    await expect.poll(() => strength.textContent(), { timeout: 30_000 }).toContain('59.00');
    await noteFracture(page, 'Base metal');
    await untilState(window, 'ended');
    await readout.pause();

    const { pull, counts } = await keptPull(window, pullId);
    expect(pull.marks.map(({ kind, cause }) => `${kind} ${cause}`)).toEqual([
      'record-begins program',
      'trigger rule',
      'break rule',
      'undo-break person',
      'break rule',
      'record-ends person',
    ]);
    // The last mark of a break counts; it stands on the first reading after the second peak.
    expect(pull).toMatchObject({ peakForceN: 59_000, breakSeq: counts.indexOf(from + 60), broke: true });
    expect(counts).toEqual(counts.map((_, i) => i));
  } finally {
    await window.end();
  }
});

it('says since when there is no fresh reading while the readout is quiet, takes it back when it sends again, and says how fast it is pulled', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const window = await GaugemarkWindow.open({ folder });
  try {
    const { page } = window;
    await window.connected();
    await station(page, 'Pull').click();
    await page.locator('#speed-method').selectOption('astm-e8-a');
    await readyAtPort(window, readout.port);
    readout.run(20, ENDLESS);
    await page.getByText('Pulling', { exact: true }).first().waitFor();
    const trouble = page.getByText(/No fresh reading for [\d.]+ s, since \d/);
    await until(async () => (await trouble.count()) === 0, 'readings are fresh');
    await readout.pause();
    await trouble.first().waitFor();
    // Quiet is no end: the pull stays open.
    await untilState(window, 'pulling');
    readout.run(20, ENDLESS);
    await until(async () => (await trouble.count()) === 0, 'the page takes it back');
    await untilState(window, 'pulling');

    // 10 000 to 100 000 psi/min by method A of ASTM E8/E8M (a laboratory's published page, see speed-windows.ts).
    const strip = page.locator('.rate-strip');
    await strip.getByText('allowed 1.15–11.5 MPa/s').waitFor();
    // 50 N/s at most, then up to 600 N/s, then 20 kN/s over 78 mm²: a busy machine may send at a fifth of that.
    const isSaid = async (place: string, said: string): Promise<void> => {
      await page.locator(`.rate-strip[data-place="${place}"]`).getByText(said).waitFor();
    };
    await isSaid('below', '▼ too slow');
    await readout.pause();
    const [inside, insideN] = [readout.sent(), ENDLESS(readout.sent())];
    const asAllowed = (count: number): number => insideN + 12 * (count - inside);
    readout.run(20, asAllowed);
    await isSaid('inside', '■ as allowed');
    await readout.pause();
    const [above, aboveN] = [readout.sent(), asAllowed(readout.sent())];
    readout.run(20, (count) => aboveN + 400 * (count - above));
    await isSaid('above', '▲ too fast');
    await readout.pause();
  } finally {
    await window.end();
  }
});
