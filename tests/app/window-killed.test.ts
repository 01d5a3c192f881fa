/**
 * Faults P1, P3, P4, P5 and P8 of the program shell: window, main process and recorder die in the middle of a pull. The pull
 * goes on being recorded, and what is shown afterwards is the whole curve.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { ReplyOf } from '../../core/contract/index.ts';
import { seededRandom } from './recorder-random.ts';
import { station } from '../../electron/setup/demonstration-pull.mjs';
import { residentBytes } from '../bench/support/process-facts.ts';
import { type Readout, makeReadout, scratch } from './recorder-process.ts';
import { expectAllKeptIn } from './support/all-kept.ts';
import { type Columns, curveColumns } from './support/drawn-curve.ts';
import { GaugemarkWindow, settingsIn } from './support/gaugemark-window.ts';
import { killAndWait } from './support/processes.ts';
import { recorderClient } from './support/recorder-client.ts';
import { countSentToPage } from './support/sent-to-page.ts';
import {
  ENDLESS,
  gapsBesidePauses,
  keptPull,
  openPullId,
  readyAtPort,
  shownEnds,
  untilReadings,
  untilState,
} from './support/window-steps.ts';
import { until } from './support/until.ts';

const ROUNDS = 8;
const LINE_INTERVAL_MS = 10;
const SEED = Number(process.env['GAUGEMARK_TEST_SEED'] ?? Date.now() % 1_000_000);

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
    await expectAllKeptIn(window.archivePath, pullId, readout.sent(), { loadOf: ENDLESS });
    expect(gapsBesidePauses(kept.pull, readout)).toEqual([]);
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
    await expectAllKeptIn(window.archivePath, pullId, readout.sent(), { loadOf: ENDLESS });
  } finally {
    await window.end();
  }
});

it('the main process is stopped for seconds, the page while 10 000 lines a second flow: what is sent to it and held for it stays bounded; then the main process is killed: the recorder goes on, and a new start shows the running pull (D15, P3, P5)', async () => {
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
    await stoppedWhileReadingsCome(first, first.mainPid, 200);
    await frozenInAFlood(first, page, readout);
    readout.run(10, ENDLESS);
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
      await expectAllKeptIn(second.archivePath, pullId, readout.sent(), { loadOf: ENDLESS });
      expect(gapsBesidePauses(kept.pull, readout)).toEqual([]);
    } finally {
      await second.end();
    }
  } finally {
    await first.end();
  }
});

/** Stopped until the recorder has so many readings more (P3, P5). */
async function stoppedWhileReadingsCome(
  window: GaugemarkWindow,
  pid: number,
  readings: number,
  { atFirst, atLast }: { readonly atFirst?: () => Promise<void>; readonly atLast?: () => Promise<void> } = {},
): Promise<void> {
  const recorder = await recorderClient(window.archivePath);
  const count = async (): Promise<number> => {
    const answer = await recorder.request('session.get', {});
    return answer.ok ? (answer.value.pull?.readingCount ?? 0) : 0;
  };
  process.kill(pid, 'SIGSTOP');
  try {
    const enough = (await count()) + readings;
    await atFirst?.();
    await until(async () => (await count()) >= enough, 'the recorder goes on while a process is stopped');
    await atLast?.();
  } finally {
    process.kill(pid, 'SIGCONT');
    recorder.close();
  }
}

/** As many as three hundred readings a second are in a minute. */
const FLOOD_READINGS = 18_000;
const FLOOD = { everyMs: 10, lines: 100 } as const;
/** What engines breathe by; the curve of so many readings takes a megabyte in the recorder. */
const GROWTH_BYTES_MAX = 64 * 1_048_576;
/** Batches of readings that main lets be under way to the page, see page-outbox.ts. */
const BATCHES_UNDER_WAY_MAX = 8;

/** Of what the page had taken just before it was stopped, and main hears of afterwards. */
const LATE_ANSWERS_MAX = 1;

/** The page takes nothing while lines flow: what main sends it, and what main and recorder hold, is bounded (P5). */
async function frozenInAFlood(window: GaugemarkWindow, page: number, readout: Readout): Promise<void> {
  await readout.pause();
  const [recorder = 0] = window.recorderPids();
  const held = (): number[] => [window.mainPid, recorder].map(residentBytes);
  let before: number[] = [];
  let sent = (): Promise<Readonly<Record<string, number>>> => Promise.resolve({});
  let counts: Readonly<Record<string, number>> = {};
  await stoppedWhileReadingsCome(window, page, FLOOD_READINGS, {
    atFirst: async () => {
      sent = await countSentToPage(window);
      before = held();
      readout.run(FLOOD.everyMs, ENDLESS, FLOOD.lines);
    },
    // Before the page goes on: then it takes what waits for it, and more is sent.
    atLast: async () => {
      counts = await sent();
    },
  });
  const grown = held().map((bytes, i) => bytes - (before[i] ?? 0));
  process.stderr.write(
    `window-killed: sent to a frozen page ${JSON.stringify(counts)}, main and recorder grew by ${grown.map((bytes) => (bytes / 1_048_576).toFixed(1)).join(' and ')} MiB\n`,
  );
  for (const bytes of grown) expect(bytes).toBeLessThan(GROWTH_BYTES_MAX);
  await readout.pause();
  for (const [name, count] of Object.entries(counts))
    expect([name, count <= (name === 'readings' ? BATCHES_UNDER_WAY_MAX : 1) + LATE_ANSWERS_MAX]).toEqual([
      name,
      true,
    ]);
}

/** After so many readings, by which signal, and what the system then says of its end. On SIGTERM it ends as if all were done. */
const ENDS = [
  [30, 'SIGKILL', 'SIGKILL'],
  [70, 'SIGSEGV', 'SIGSEGV'],
  [110, 'SIGTERM', '0'],
] as const;

/** How each recorder that the window had started has ended, by the window's own log. */
const endsTold = (folder: string): string[] =>
  [
    ...readFileSync(join(settingsIn(folder), 'logs', 'window.log'), 'utf8').matchAll(
      /recorder ended \((\w+)\)/g,
    ),
  ].map(([, how = '']) => how);

it('the recorder is killed, crashes and ends with exit code 0 in the middle of one pull: each time it is missed all the same, started again, goes on in the same record, names the gap, and nothing is drawn over it (P4, C4)', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const window = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(window, readout.port);
    const pullId = await openPullId(window);
    readout.run(25, ENDLESS);
    for (const [readings, signal, told] of ENDS) {
      await untilReadings(window, readings);
      const [recorder] = window.recorderPids();
      expect(recorder).toBeDefined();
      await killAndWait(recorder ?? 0, signal);
      // The end was of that kind, and it is not what the window goes by.
      await until(() => endsTold(folder).at(-1) === told, `the log tells that the recorder ended (${told})`);
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
    const sent = Array.from({ length: readout.sent() }, (_, i) => i);
    const missing = new Set(sent.filter((count) => !kept.counts.includes(count)));
    await expectAllKeptIn(window.archivePath, pullId, sent.length, { loadOf: ENDLESS, except: missing });
    // Where readings are missing, a gap is named there.
    const restarts = kept.pull.gaps.filter((gap) => gap.cause === 'recorder-restarted');
    expect(restarts).toHaveLength(3);
    const namedAt = new Set(restarts.map((gap) => gap.beforeSeq));
    kept.counts.forEach((count, seq) => {
      const before = seq === 0 ? -1 : (kept.counts[seq - 1] ?? -1);
      if (count !== before + 1) expect(namedAt).toContain(seq);
    });
    // A readout that a slow machine kept silent has a gap of its own; curve on both sides has none at the end of the record.
    const between = kept.pull.gaps.filter(({ beforeSeq }) => beforeSeq > 0 && beforeSeq < kept.counts.length);
    await expectGapsUndrawn(window, pullId, between);
  } finally {
    await window.end();
  }
});

/** Beside a gap: half of a line's width and the round of two readings. */
const GAP_END_PX_MAX = 5;

/** On the canvas of the load over the time nothing is drawn from the last reading before a gap to the first behind it (C4). */
async function expectGapsUndrawn(
  window: GaugemarkWindow,
  pullId: number,
  gaps: ReplyOf<'pull.get'>['gaps'],
): Promise<void> {
  const { page } = window;
  const read = await window.request('pull.readings', { pullId, fromSeq: 0, count: 200_000, shown: false });
  if (!read.ok) throw new Error(read.fault.sentence);
  const us = read.value.columns.elapsedUs;
  await station(page, 'Result').click();
  const plot = page.getByRole('slider', { name: 'Load – time' });
  await plot.waitFor();
  let drawn: Columns[] = [];
  await until(async () => (drawn = await curveColumns(plot)).length > 1, 'the curve is in pieces');
  // The axis of time, by the first and the last reading.
  const [firstUs = 0, lastUs = 0] = [us[0], us.at(-1)];
  const [firstPx = 0, lastPx = 0] = [drawn[0]?.from, drawn.at(-1)?.to];
  const pxAt = (seq: number): number =>
    firstPx + (((us[seq] ?? Number.NaN) - firstUs) / (lastUs - firstUs)) * (lastPx - firstPx);
  const wide = gaps
    .map(({ beforeSeq }) => ({
      from: pxAt(beforeSeq - 1) + GAP_END_PX_MAX,
      to: pxAt(beforeSeq) - GAP_END_PX_MAX,
    }))
    .filter(({ from, to }) => to > from);
  expect(wide.length, 'a gap is wide enough to be seen').toBeGreaterThan(0);
  for (const gap of wide)
    expect(
      drawn.filter(({ from, to }) => from <= gap.to && to >= gap.from),
      JSON.stringify({ drawn, gap }),
    ).toEqual([]);
}

/** Why readings are missing, for tests that stop the readout while nobody reads: that may be told as silence. */
const lossesBesideSilence = ({ gaps }: Pick<ReplyOf<'pull.get'>, 'gaps'>): string[] =>
  gaps.map(({ cause }) => cause).filter((cause) => cause !== 'silence');

/** Taken out of the port's queue by this test, while nobody has it open. */
async function leftUnread(
  readout: Readout,
): Promise<{ readBefore: number; neverRead: readonly number[]; notWhole: readonly number[] }> {
  await readout.pause();
  const unread = await readout.unread();
  const rest = unread.split('\r\n').slice(0, -1).length;
  const readBefore = readout.sent() - rest;
  return {
    /** Lines that had been read. */
    readBefore,
    neverRead: Array.from({ length: rest }, (_, i) => readBefore + i),
    // CR had ended the line, its LF stood in the queue still.
    notWhole: unread.startsWith('\n') ? [readBefore - 1] : [],
  };
}

async function portIsOpen(window: GaugemarkWindow): Promise<void> {
  await until(async () => {
    const now = await window.request('session.get', {});
    return now.ok && now.value.readout?.link === 'open';
  }, 'the port is open again');
  // A line that comes at once could be the rest of one.
  await new Promise((done) => setTimeout(done, 100));
}

it(`page, main process and everything at once are killed by turns while lines flow, ${ROUNDS} times in one pull, at moments drawn at random: all is there but one reading a death of the recorder (P1, P7)`, async () => {
  process.stderr.write(`window-killed: seed ${SEED} (GAUGEMARK_TEST_SEED=${SEED} repeats it)\n`);
  const random = seededRandom(SEED);
  const folder = scratch();
  const readout = await makeReadout(folder);
  let window = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(window, readout.port);
    const pullId = await openPullId(window);
    readout.run(LINE_INTERVAL_MS, ENDLESS);
    await untilState(window, 'pulling');
    /** Lines that had been read before each death of the recorder. */
    const readBefore: number[] = [];
    const neverRead = new Set<number>();
    const notWhole = new Set<number>();
    for (let round = 0; round < ROUNDS; round++) {
      const page = await window.pagePid();
      const recorders = window.recorderPids();
      expect(recorders).toHaveLength(1);
      const enough = readout.sent() + 5 + Math.floor(random() * 40);
      await until(() => readout.sent() >= enough, 'lines are sent');
      await new Promise((done) => setTimeout(done, random() * 2 * LINE_INTERVAL_MS));
      if (round % 3 === 0) {
        await killAndWait(page);
        await window.pageThatCameBack(page);
      } else if (round % 3 === 1) {
        await window.killMain();
        window = await GaugemarkWindow.open({ folder });
      } else {
        await window.killGroup();
        const left = await leftUnread(readout);
        for (const count of left.neverRead) neverRead.add(count);
        for (const count of left.notWhole) notWhole.add(count);
        readBefore.push(left.readBefore);
        window = await GaugemarkWindow.open({ folder });
      }
      await window.connected();
      expect(await openPullId(window)).toBe(pullId);
      if (round % 3 === 2) {
        await portIsOpen(window);
        readout.run(LINE_INTERVAL_MS, ENDLESS);
      } else expect(window.recorderPids()).toEqual(recorders);
    }
    const end = readout.sent() + 20;
    await until(() => readout.sent() >= end, 'lines are sent');
    await readout.pause();
    await until(
      async () => (await keptPull(window, pullId)).counts.at(-1) === readout.sent() - 1,
      'the last line is read',
    );
    expect((await window.request('pull.close', {})).ok).toBe(true);

    const { counts, pull } = await keptPull(window, pullId);
    const kept = new Set(counts);
    const lost = Array.from({ length: readout.sent() }, (_, count) => count).filter(
      (count) => !kept.has(count) && !neverRead.has(count),
    );
    process.stderr.write(
      `window-killed: ${counts.length} kept of ${readout.sent()} sent, ${neverRead.size} never read, lost: ${lost.length} in ${readBefore.length} deaths of the recorder\n`,
    );
    // Only the one in the hand of a recorder that died; page and main cost nothing.
    for (const count of lost) expect(readBefore.map((before) => before - 1)).toContain(count);
    await expectAllKeptIn(window.archivePath, pullId, readout.sent(), {
      loadOf: ENDLESS,
      except: new Set([...neverRead, ...lost, ...notWhole]),
    });
    expect(lossesBesideSilence(pull)).toEqual(readBefore.map(() => 'recorder-restarted'));
    expect(pull.marks.filter(({ kind }) => kind === 'recovered')).toHaveLength(readBefore.length);
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

/** Systems wait so long between asking and killing. */
const ASKED_BEFORE_KILLED_MS = 2_000;

it('SIGTERM while a pull is recorded ends the window at once, without a question, and the recorder goes on; SIGTERM, SIGHUP and two seconds later SIGKILL to all of it cost nothing that was read, and the pull goes on (P7)', async () => {
  const folder = scratch();
  const readout = await makeReadout(folder);
  const window = await GaugemarkWindow.open({ folder });
  try {
    await readyAtPort(window, readout.port);
    const pullId = await openPullId(window);
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
      // Asked to end, the recorder lets go of its port: what is sent after that nobody reads.
      await readout.pause();
      await untilReadings(again, readout.sent());
      // The computer is shut down, with everything of it at once.
      again.signalGroup('SIGTERM');
      again.signalGroup('SIGHUP');
      await new Promise((done) => setTimeout(done, ASKED_BEFORE_KILLED_MS));
      await again.killGroup();
      expect(again.recorderPids()).toEqual([]);
    } finally {
      await again.end();
    }
    const next = await GaugemarkWindow.open({ folder });
    try {
      await next.connected();
      await untilState(next, 'pulling');
      expect(await openPullId(next)).toBe(pullId);
      await portIsOpen(next);
      readout.run(20, ENDLESS);
      const enough = readout.sent() + 20;
      await until(() => readout.sent() >= enough, 'lines are sent');
      await readout.pause();
      await until(
        async () => (await keptPull(next, pullId)).counts.at(-1) === readout.sent() - 1,
        'the last line is read',
      );
      expect((await next.request('pull.close', {})).ok).toBe(true);
      const { pull } = await keptPull(next, pullId);
      await expectAllKeptIn(next.archivePath, pullId, readout.sent(), { loadOf: ENDLESS });
      expect(lossesBesideSilence(pull)).toEqual(['recorder-restarted']);
    } finally {
      await next.end();
    }
  } finally {
    await window.end();
  }
});
