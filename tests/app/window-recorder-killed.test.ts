/**
 * The recorder is killed (−9) twenty times in one pull that the real window shows, at moments drawn at random (the seed
 * is printed). The window starts it again by itself, and asks
 * a person after RECORDER_RESTARTS_MAX deaths in a minute. What had been read from the port is known to within
 * one read: a line counts as lost by a kill only where it stands on neither side of it.
 */
import { expect, it } from 'vitest';
import { seededRandom } from './recorder-random.ts';
import { lineOf, makeReadout, scratch } from './recorder-process.ts';
import { GaugemarkWindow } from './support/gaugemark-window.ts';
import { killAndWait } from './support/processes.ts';
import { ENDLESS, keptPull, openPullId, readyAtPort, untilState } from './support/window-steps.ts';
import { until } from './support/until.ts';

const KILLS = 20;
const LINE_INTERVAL_MS = 5;
const SEED = Number(process.env['GAUGEMARK_TEST_SEED'] ?? Date.now() % 1_000_000);

it(`the recorder is killed ${KILLS} times in one pull in the window: at most one reading that it had read is missing a kill, none is invented`, async () => {
  process.stderr.write(`window-recorder-killed: seed ${SEED} (GAUGEMARK_TEST_SEED=${SEED} repeats it)\n`);
  const random = seededRandom(SEED);
  const folder = scratch();
  const readout = await makeReadout(folder);
  const window = await GaugemarkWindow.open({ folder });
  const session = async () => {
    const answer = await window.request('session.get', {});
    return answer.ok ? answer.value : null;
  };
  try {
    await readyAtPort(window, readout.port);
    const pullId = await openPullId(window);
    const tryAgain = window.page.getByRole('button', { name: 'Try again' });
    readout.run(LINE_INTERVAL_MS, ENDLESS);
    await untilState(window, 'pulling');
    await readout.pause();
    /** Lines that had left the port's queue before each kill. */
    const readBefore: number[] = [];
    /** Lines that were never read: this test took them out of the queue itself while no recorder lived. */
    const neverRead = new Set<number>();
    for (let kill = 0; kill < KILLS; kill++) {
      readout.run(LINE_INTERVAL_MS, ENDLESS);
      const enough = readout.sent() + 5 + Math.floor(random() * 40);
      await until(() => readout.sent() >= enough, 'lines are sent');
      await new Promise((done) => setTimeout(done, random() * 2 * LINE_INTERVAL_MS));
      const [recorder = 0] = window.recorderPids();
      expect(recorder).toBeGreaterThan(0);
      await killAndWait(recorder);
      // Before the window has started the next recorder: what stands in the queue was not read.
      const unread = readout.unread();
      await readout.pause();
      const rest = (unread + readout.unread()).split('\r\n').slice(0, -1);
      const sent = readout.sent();
      // The first may be the rest of a line that was read in part; the others are the last ones sent, whole.
      const last = rest.slice(1).map((_, i) => sent - rest.length + 1 + i);
      expect(rest.slice(1)).toEqual(last.map((count) => lineOf(count, ENDLESS(count)).trimEnd()));
      for (let count = sent - rest.length; count < sent; count++) neverRead.add(count);
      readBefore.push(sent - rest.length);
      await until(async () => {
        // After so many deaths within a minute the window asks a person, who wants it tried again.
        if (await tryAgain.isVisible()) await tryAgain.click({ timeout: 2_000 }).catch(() => undefined);
        const now = await session();
        return now !== null && now.recorder.pid !== recorder && now.readout?.link === 'open';
      }, 'the window has started a recorder again, and the port is open');
      expect((await session())?.state).toBe('pulling');
      expect(await openPullId(window)).toBe(pullId);
    }
    readout.run(LINE_INTERVAL_MS, ENDLESS);
    const end = readout.sent() + 20;
    await until(() => readout.sent() >= end, 'lines are sent');
    await readout.pause();
    await window.page.getByText('Pulling', { exact: true }).first().waitFor();
    expect((await window.request('pull.close', {})).ok).toBe(true);

    const { counts, raw, pull } = await keptPull(window, pullId);
    const kept = new Set(counts);
    // None invented: each reading is a line that was sent, once, in order, with the bytes that were sent.
    expect(counts).toEqual([...kept].sort((a, b) => a - b));
    expect(counts.every((count) => count >= 0 && count < readout.sent())).toBe(true);
    for (const count of counts) expect(raw).toContain(lineOf(count, ENDLESS(count)));
    const lost = Array.from({ length: readout.sent() }, (_, count) => count).filter(
      (count) => !kept.has(count) && !neverRead.has(count),
    );
    const lostByKill = readBefore.map((before, kill) =>
      lost.filter((count) => count < before && count >= (readBefore[kill - 1] ?? 0)),
    );
    process.stderr.write(
      `window-recorder-killed: ${counts.length} kept of ${readout.sent()} sent, ${neverRead.size} never read, lost a kill: ${lostByKill.map((l) => l.length).join(' ')}\n`,
    );
    expect(lostByKill.flat()).toEqual(lost);
    for (const losses of lostByKill) expect(losses.length).toBeLessThanOrEqual(1);
    expect(pull.marks.filter(({ kind }) => kind === 'recovered')).toHaveLength(KILLS);
  } finally {
    await window.end();
  }
}, 240_000);
