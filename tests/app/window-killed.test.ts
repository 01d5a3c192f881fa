/**
 * Faults P1, P3, P4, P5 and P8 of the program shell: window, main process and recorder die in the middle of a pull. The pull
 * goes on being recorded, and what is shown afterwards is the whole curve.
 */
import { expect, it } from 'vitest';
import { lineOf, makeReadout, scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { killAndWait } from './support/processes.ts';
import { recorderClient } from './support/recorder-client.ts';
import {
  ENDLESS,
  keptPull,
  openPullId,
  readyAtPort,
  shownEnds,
  untilReadings,
  untilState,
} from './support/window-steps.ts';
import { until } from './support/until.ts';

it("the window's page is killed: it comes back by itself with the full curve, nothing is missing (P1)", async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const window = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(window, readout.port);
    const pullId = await openPullId(window);
    readout.run(10, ENDLESS);
    await untilReadings(window, 60);
    const page = await window.pagePid();
    await killAndWait(page);
    const back = await window.pageThatCameBack(page);
    await back.getByText('Pulling', { exact: true }).first().waitFor();
    await untilReadings(window, 200);
    await readout.pause();
    await back.getByRole('slider').first().waitFor();
    await until(async () => {
      const { first, last } = await shownEnds(back);
      return first === 0 && last === readout.sent() - 1;
    }, 'the plot shows the curve from the first reading to the last');

    expect((await window.request('pull.close', {})).ok).toBe(true);
    const kept = await keptPull(window, pullId);
    expect(kept.counts).toEqual(Array.from({ length: readout.sent() }, (_, i) => i));
    expect(kept.pull.gaps).toEqual([]);
  } finally {
    await window.end();
  }
});

it("the window's page hangs in an endless loop: it is ended and loaded again, the pull goes on (P1)", async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const window = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(window, readout.port);
    const pullId = await openPullId(window);
    readout.run(20, ENDLESS);
    await untilReadings(window, 40);
    const page = await window.pagePid();
    void window.page
      .evaluate(() => {
        for (;;);
      })
      .catch(() => undefined);
    const back = await window.pageThatCameBack(page);
    await back.getByText('Pulling', { exact: true }).first().waitFor();
    await readout.pause();
    await window.connected();
    await untilReadings(window, readout.sent());
    expect((await window.request('pull.close', {})).ok).toBe(true);
    const kept = await keptPull(window, pullId);
    expect(kept.counts).toEqual(Array.from({ length: readout.sent() }, (_, i) => i));
  } finally {
    await window.end();
  }
});

it('the main process and the page are stopped for seconds, then the main process is killed: the recorder goes on, and a new start shows the running pull (D15, P3, P5)', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const first = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(first, readout.port);
    const pullId = await openPullId(first);
    const recorders = first.recorderPids();
    expect(recorders).toHaveLength(1);
    readout.run(10, ENDLESS);
    await untilReadings(first, 60);
    const page = await first.pagePid();
    for (const [pid, what] of [
      [first.mainPid, 'the main process'],
      [page, 'the page'],
    ] as const)
      await stoppedWhileReadingsCome(first, pid, what);
    // Neither of them was taken for dead, and the page shows what came meanwhile.
    expect([first.recorderPids(), await first.pagePid()]).toEqual([recorders, page]);
    const sentBefore = readout.sent();
    await until(async () => {
      const { first: from, last } = await shownEnds(first.page);
      return from === 0 && last >= sentBefore - 1;
    }, 'the page has caught up');
    await first.killMain();
    const sentWithoutWindow = readout.sent() + 60;
    await until(() => readout.sent() >= sentWithoutWindow, 'the readout sends while no window is there');

    const second = await GaugemarkWindow.open({ folder });
    try {
      await second.connected();
      expect(second.recorderPids()).toEqual(recorders);
      expect(await openPullId(second)).toBe(pullId);
      await second.page.getByText('Pulling', { exact: true }).first().waitFor();
      await readout.pause();
      await untilReadings(second, readout.sent());
      expect((await second.request('pull.close', {})).ok).toBe(true);
      const kept = await keptPull(second, pullId);
      expect(kept.counts).toEqual(Array.from({ length: readout.sent() }, (_, i) => i));
      expect(kept.pull.gaps).toEqual([]);
    } finally {
      await second.end();
    }
  } finally {
    await first.end();
  }
});

/** Stopped until the recorder has two seconds more (P3, P5). */
async function stoppedWhileReadingsCome(window: GaugemarkWindow, pid: number, what: string): Promise<void> {
  const recorder = await recorderClient(window.archivePath);
  const count = async (): Promise<number> => {
    const answer = await recorder.request('session.get', {});
    return answer.ok ? (answer.value.pull?.readingCount ?? 0) : 0;
  };
  process.kill(pid, 'SIGSTOP');
  try {
    const enough = (await count()) + 200;
    await until(async () => (await count()) >= enough, `the recorder goes on while ${what} is stopped`);
  } finally {
    process.kill(pid, 'SIGCONT');
    recorder.close();
  }
}

it('the recorder is killed at three moments of one pull: it is started again, goes on in the same record, names each gap', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const window = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(window, readout.port);
    const pullId = await openPullId(window);
    readout.run(25, ENDLESS);
    for (const readings of [30, 70, 110]) {
      await untilReadings(window, readings);
      const [recorder] = window.recorderPids();
      expect(recorder).toBeDefined();
      await killAndWait(recorder ?? 0);
      await until(() => window.recorderPids().some((pid) => pid !== recorder), 'a recorder is started again');
      await window.connected();
      expect(await openPullId(window)).toBe(pullId);
    }
    await untilReadings(window, 150);
    await window.page.getByText('Pulling', { exact: true }).first().waitFor();
    await readout.pause();
    // What the page shows is what is kept, from before the first death to after the last.
    await until(async () => {
      const { first, last } = await shownEnds(window.page);
      const now = await window.request('session.get', {});
      return first === 0 && now.ok && last + 1 === now.value.pull?.readingCount;
    }, 'the plot shows the curve of all recorders');
    expect((await window.request('pull.close', {})).ok).toBe(true);

    const kept = await keptPull(window, pullId);
    // None invented, none twice, each as it was sent.
    const sent = new Set(Array.from({ length: readout.sent() }, (_, i) => i));
    expect(new Set(kept.counts).size).toBe(kept.counts.length);
    expect(kept.counts).toEqual([...kept.counts].sort((a, b) => a - b));
    expect(kept.counts.every((count) => sent.has(count))).toBe(true);
    const lines = kept.raw.split('\r\n').slice(0, -1);
    for (const count of kept.counts) expect(lines).toContain(lineOf(count, ENDLESS(count)).trimEnd());
    // Where readings are missing, a gap is named there.
    const restarts = kept.pull.gaps.filter((gap) => gap.cause === 'recorder-restarted');
    expect(restarts).toHaveLength(3);
    const namedAt = new Set(restarts.map((gap) => gap.beforeSeq));
    kept.counts.forEach((count, seq) => {
      const before = seq === 0 ? -1 : (kept.counts[seq - 1] ?? -1);
      if (count !== before + 1) expect(namedAt).toContain(seq);
    });
  } finally {
    await window.end();
  }
});

it('a recorder that can not live is left alone after a while, with a plain sentence and a way to try again', async () => {
  const folder = scratch();
  const window = await GaugemarkWindow.open({
    folder,
    // Any program that ends at once will do for a recorder that can't live.
    environment: { GAUGEMARK_NODE: '/bin/false' },
  });
  try {
    await window.page
      .getByText(/left alone/)
      .first()
      .waitFor({ timeout: 60_000 });
    const answer = await window.request('session.get', {});
    expect(answer).toMatchObject({ ok: false, fault: { code: 'recorder-failed' } });
    await window.page.getByRole('button', { name: 'Try again' }).click();
    await until(async () => {
      const info = await window.request('window.info', {});
      return info.ok && info.value.recorder.state === 'connecting';
    }, 'it is tried again');
  } finally {
    await window.end();
  }
});

it('SIGTERM while a pull is recorded ends the window at once, without a question, and the recorder goes on (P7)', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const window = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(window, readout.port);
    readout.run(20, ENDLESS);
    await untilReadings(window, 40);
    const main = window.main;
    main.kill('SIGTERM');
    await until(() => main.exitCode !== null, 'the window ends');
    expect(main.exitCode).toBe(0);
    expect(window.recorderPids()).toHaveLength(1);
    const again = await GaugemarkWindow.open({ folder });
    try {
      await again.connected();
      await untilState(again, 'pulling');
    } finally {
      await again.end();
    }
  } finally {
    await window.end();
  }
});
