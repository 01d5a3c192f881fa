/**
 * The recorder is killed (−9) twenty times in one pull that the real window shows, at moments drawn at random (the seed
 * is printed). The window starts it again by itself, and asks
 * a person after RECORDER_RESTARTS_MAX deaths in a minute. What had been read from the port is known to within
 * one read: a line counts as lost by a kill only where it stands on neither side of it.
 */
import { expect, it } from 'vitest';
import { seededRandom } from './recorder-random.ts';
import { lineOf, makeReadout, scratch } from './recorder-process.ts';
import { expectAllKeptIn } from './support/all-kept.ts';
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
      // Before the window has started the next recorder: what stands in the queue was not read. What socat carries
      // still is read by the next one, or by this test.
      const unread = readout.unreadNow();
      await readout.pause();
      const taken = linesOf(unread + readout.unreadNow(), readout.sent());
      for (const count of taken) neverRead.add(count);
      readBefore.push(taken[0] ?? readout.sent());
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
    await until(
      async () => (await keptPull(window, pullId)).counts.at(-1) === readout.sent() - 1,
      'the last line is read',
    );
    await window.page.getByText('Pulling', { exact: true }).first().waitFor();
    await window.page.getByText(/The recorder ended unexpectedly and is back/).waitFor();
    expect((await window.request('pull.close', {})).ok).toBe(true);

    const { counts, raw, pull } = await keptPull(window, pullId);
    const kept = new Set(counts);
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
    // CR has ended the line; its LF may have stood in the queue still when the recorder was killed.
    const bare = [...raw.matchAll(/(\d+),[^\r\n]*\r(?!\n)/g)].map(([, count]) => Number(count));
    expect(bare.length).toBeLessThanOrEqual(KILLS);
    await expectAllKeptIn(window.archivePath, pullId, readout.sent(), {
      loadOf: ENDLESS,
      except: new Set([...neverRead, ...lost, ...bare]),
    });
    expect(pull.marks.filter(({ kind }) => kind === 'recovered')).toHaveLength(KILLS);
  } finally {
    await window.end();
  }
}, 600_000);

/**
 * The lines of which this text holds all or a part, by their counts. A part at its beginning is the rest of a line, one
 * at its end the start of one; one in between was torn where the next recorder had begun to read.
 */
function linesOf(text: string, sent: number): number[] {
  const pieces = text.split('\r\n');
  if (pieces.at(-1) === '') pieces.pop();
  const counts = pieces.map((piece) => {
    const count = Number(piece.split(',')[0]);
    return Number.isInteger(count) && piece === lineOf(count, ENDLESS(count)).trimEnd() ? count : null;
  });
  const whole = counts.filter((count) => count !== null);
  expect(whole).toEqual(whole.toSorted((a, b) => a - b));
  const torn = counts.flatMap((count, i) => {
    if (count !== null) return [];
    const before = counts[i - 1];
    const after = counts[i + 1];
    const beside = [
      ...(before === null || before === undefined ? [] : [before + 1]),
      ...(after === null || after === undefined ? [] : [after - 1]),
    ];
    return beside.length === 0 ? [sent - 1] : beside;
  });
  return [...whole, ...torn].toSorted((a, b) => a - b);
}
