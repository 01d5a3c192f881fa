/** Faults P2 and P6 of the program shell: the graphics process dies, or nobody sees the window, while a pull is recorded. */
import { expect, it } from 'vitest';
import { lineOf, makeReadout, scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { isAlive } from './support/processes.ts';
import { until } from './support/until.ts';
import {
  ENDLESS,
  gapsBesidePauses,
  keptPull,
  openPullId,
  readyAtPort,
  shownEnds,
  untilReadings,
} from './support/window-steps.ts';

/** The window's graphics process, 0 while there is none. */
const graphicsPid = (window: GaugemarkWindow): Promise<number> =>
  window.app.evaluate(({ app }) => app.getAppMetrics().find(({ type }) => type === 'GPU')?.pid ?? 0);

const drawsInSoftware = async (window: GaugemarkWindow): Promise<boolean | undefined> => {
  const answer = await window.request('window.info', {});
  return answer.ok ? answer.value.softwareDrawing : undefined;
};

it('P2: the graphics process crashes three times in a pull: nothing is lost, the curve is shown, and the next start draws without the graphics card', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const first = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(first, readout.port);
    const pullId = await openPullId(first);
    readout.run(10, ENDLESS);
    for (let crash = 1; crash <= 3; crash++) {
      await untilReadings(first, readout.sent() + 30);
      // Up to here the card is trusted.
      expect(await drawsInSoftware(first)).toBe(false);
      let pid = 0;
      await until(async () => (pid = await graphicsPid(first)) !== 0, 'a graphics process is there');
      process.kill(pid, 'SIGSEGV');
      await until(() => !isAlive(pid), `the graphics process has crashed for the ${crash}. time`);
    }
    await untilReadings(first, readout.sent() + 30);
    await readout.pause();
    await untilReadings(first, readout.sent());
    await until(async () => {
      const { first: from, last } = await shownEnds(first.page);
      return from === 0 && last === readout.sent() - 1;
    }, 'the plot shows the curve from the first reading to the last');
    // A process that has just been started anew draws its first picture a moment later.
    await expect.poll(async () => (await first.page.screenshot()).length).toBeGreaterThan(5_000);
    expect((await first.request('pull.close', {})).ok).toBe(true);
    const kept = await keptPull(first, pullId);
    expect(kept.counts).toEqual(Array.from({ length: readout.sent() }, (_, i) => i));
    expect(kept.raw).toBe(kept.counts.map((count) => lineOf(count, ENDLESS(count))).join(''));
    expect(gapsBesidePauses(kept.pull, readout)).toEqual([]);
  } finally {
    await first.end();
  }

  const second = await GaugemarkWindow.open({ folder });
  try {
    expect(await drawsInSoftware(second)).toBe(true);
    expect(await second.app.evaluate(({ app }) => app.getGPUFeatureStatus().gpu_compositing)).toContain(
      'disabled',
    );
  } finally {
    await second.end();
  }
});

it('P2: a start with a way of drawing that is not there shows the window all the same', async () => {
  const window = await GaugemarkWindow.open({ folder: scratch(), args: ['--use-gl=no-such-way'] });
  try {
    await window.connected();
    await window.page.getByRole('heading').first().waitFor();
    expect((await window.page.screenshot()).length).toBeGreaterThan(5_000);
  } finally {
    await window.end();
  }
});

it('P6: the window is put out of sight while lines come: nothing is lost, and it shows the whole curve when it is back', async () => {
  const readout = await makeReadout(scratch());
  const window = await GaugemarkWindow.open({ folder: scratch() });
  const seen = (how: 'hide' | 'show'): Promise<void> =>
    window.app.evaluate(({ BrowserWindow }, act) => {
      const [shown] = BrowserWindow.getAllWindows();
      // Without a window manager, as on the displays of the tests, nothing can be made small.
      shown?.[act]();
    }, how);
  const isSeen = (): Promise<boolean | undefined> =>
    window.app.evaluate(({ BrowserWindow }) => BrowserWindow.getAllWindows()[0]?.isVisible());
  try {
    await readyAtPort(window, readout.port);
    const pullId = await openPullId(window);
    readout.run(10, ENDLESS);
    await untilReadings(window, 40);
    await seen('hide');
    await until(async () => (await isSeen()) === false, 'nobody sees the window');
    await untilReadings(window, readout.sent() + 200);
    await seen('show');
    await until(async () => (await isSeen()) === true, 'the window is seen again');
    await readout.pause();
    await untilReadings(window, readout.sent());
    await until(async () => {
      const { first, last } = await shownEnds(window.page);
      return first === 0 && last === readout.sent() - 1;
    }, 'the plot shows the curve from the first reading to the last');
    expect((await window.request('pull.close', {})).ok).toBe(true);
    const kept = await keptPull(window, pullId);
    expect(kept.raw).toBe(
      Array.from({ length: readout.sent() }, (_, count) => lineOf(count, ENDLESS(count))).join(''),
    );
    expect(kept.counts).toEqual(Array.from({ length: readout.sent() }, (_, i) => i));
    expect(gapsBesidePauses(kept.pull, readout)).toEqual([]);
  } finally {
    await window.end();
  }
});
