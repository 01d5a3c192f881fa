/**
 * The recorder is killed with SIGKILL in the middle of a pull, at moments drawn at random (the seed is printed).
 * What it had read from the port is known to the byte: what it had not read is still in the port's queue. Lines come
 * singly, as an adapter hands them over every 16 ms, or as a flood, of which one read may be lost.
 */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { SINGLE_LINES_MAX } from '../../drivers/serial/line-pace.ts';
import { seededRandom } from './recorder-random.ts';
import { BY_HAND, RecorderProcess, lineOf, makeReadout, scratch } from './recorder-process.ts';
import { expectAllKept } from './support/all-kept.ts';
import { until } from './support/until.ts';

const LINE_INTERVAL_MS = 5;
/** Kills at most until one has fallen into lines that are no longer taken singly. */
const FLOOD_KILLS_MAX = 30;
/** A terminal hands out so much at a time (N_TTY_BUF_SIZE of Linux), and a port is read once before it is written down. */
const ONE_READ_BYTES = 4_096;

interface Sending {
  readonly how: string;
  readonly kills: number;
  /** Lines that come at once, so many ms apart. */
  readonly atOnce: number;
  readonly intervalMs: number;
  readonly isFlood: boolean;
}
const SENDINGS: readonly Sending[] = [
  { how: 'line by line', kills: 20, atOnce: 1, intervalMs: LINE_INTERVAL_MS, isFlood: false },
  { how: 'three lines every 16 ms', kills: 8, atOnce: 3, intervalMs: 16, isFlood: false },
  { how: 'a flood', kills: 8, atOnce: 6 * SINGLE_LINES_MAX, intervalMs: 30, isFlood: true },
];
const SEED = Number(process.env['GAUGEMARK_TEST_SEED'] ?? Date.now() % 1_000_000);

it.each(SENDINGS)(
  'loses at most one reading that it had read ($how), invents none and names the gap, killed $kills times in one pull (D2, S3)',
  async ({ kills, atOnce, intervalMs, isFlood }) => {
    process.stderr.write(`recorder-killed: seed ${SEED} (GAUGEMARK_TEST_SEED=${SEED} repeats the moments)\n`);
    const random = seededRandom(SEED);
    const folder = scratch();
    const archivePath = join(folder, 'a.gaugemark');
    const readout = await makeReadout(folder);
    let recorder = await RecorderProcess.start(archivePath);
    const pullId = await recorder.ready(readout.port, BY_HAND);
    await recorder.ask('pull.start', {});
    await new Promise((done) => setTimeout(done, 100));
    /** Lines that had been read whole before each kill, and could have been lost by it. */
    const readBefore: number[] = [];
    /** Lines sent until the recorder was dead. */
    const sentUntil: number[] = [];
    /** Lines that were never read: they stood in the queue of a port that nobody had open. */
    const neverRead = new Set<number>();
    const notWhole = new Set<number>();
    let mostRead = 0;
    for (
      let kill = 0;
      kill < kills || (isFlood && mostRead <= SINGLE_LINES_MAX && kill < FLOOD_KILLS_MAX);
      kill++
    ) {
      const from = readout.sent();
      if (isFlood) readout.burst(atOnce);
      else {
        readout.run(intervalMs, undefined, atOnce);
        const enough = readout.sent() + 10 + Math.floor(random() * 60);
        await until(() => readout.sent() >= enough, 'lines are sent');
      }
      await new Promise((done) => setTimeout(done, random() * 2 * intervalMs));
      await recorder.kill();
      await readout.pause();
      const unread = await readout.unread();
      // The queue's first line may be the rest of one that was read in part.
      const rest = unread.split('\r\n').slice(0, -1);
      const sent = readout.sent();
      for (let count = sent - rest.length; count < sent; count++) neverRead.add(count);
      if (rest.length > 0) expect(unread.endsWith(lineOf(sent - 1))).toBe(true);
      // CR has ended a line; its LF stood in the queue still.
      if (unread.startsWith('\n')) notWhole.add(sent - rest.length - (rest[0] === '' ? 0 : 1));
      readBefore.push(sent - rest.length);
      mostRead = Math.max(mostRead, sent - rest.length - from);
      sentUntil.push(sent);
      recorder = await RecorderProcess.start(archivePath);
      await until(
        async () => (await recorder.ask('session.get', {})).readout?.link === 'open',
        'the port is open again',
      );
      expect((await recorder.ask('session.get', {})).state).toBe('pulling');
      await new Promise((done) => setTimeout(done, 100));
    }
    readout.run(LINE_INTERVAL_MS);
    await recorder.untilReadings(1);
    const end = readout.sent() + 20;
    await until(() => readout.sent() >= end, 'lines are sent');
    await readout.pause();
    await until(
      async () => (await recorder.countsOf(pullId)).at(-1) === readout.sent() - 1,
      'the last line is read',
    );
    await recorder.ask('pull.close', {});

    const counts = await recorder.countsOf(pullId);
    const kept = new Set(counts);
    // None invented: each reading is a line that was sent, once, in order.
    expect(counts.length).toBe(kept.size);
    expect(counts).toEqual([...counts].sort((a, b) => a - b));
    expect(counts.every((count) => Number.isInteger(count) && count >= 0 && count < readout.sent())).toBe(
      true,
    );
    // At most one lost a kill, of those that had been read.
    const lost = Array.from({ length: readout.sent() }, (_, count) => count).filter(
      (count) => !kept.has(count) && !neverRead.has(count),
    );
    const lostByKill = readBefore.map((before, kill) =>
      lost.filter((count) => count < before && count >= (readBefore[kill - 1] ?? 0)),
    );
    process.stderr.write(
      `recorder-killed: ${counts.length} readings kept of ${readout.sent()} lines sent, ${neverRead.size} never read, lost a kill: ${lostByKill.map((l) => l.length).join(' ')}\n`,
    );
    expect(lostByKill.flat()).toEqual(lost);
    if (isFlood) expect(mostRead).toBeGreaterThan(SINGLE_LINES_MAX);
    for (const [kill, losses] of lostByKill.entries()) {
      if (!isFlood) expect(losses.length).toBeLessThanOrEqual(1);
      // One read: what came last, in one piece. A line that was read in part before it is missing with it.
      expect(losses).toEqual(losses.map((_, i) => (readBefore[kill] ?? 0) - losses.length + i));
      const whole = losses.slice(1).map((count) => lineOf(count));
      expect(whole.join('').length).toBeLessThanOrEqual(ONE_READ_BYTES);
    }
    await expectAllKept(recorder, pullId, readout.sent(), {
      except: new Set([...neverRead, ...lost, ...notWhole]),
    });

    const { marks, gaps, state } = await recorder.ask('pull.get', { pullId });
    expect(state).toBe('ended');
    expect(marks.filter((m) => m.kind === 'recovered').length).toBe(readBefore.length);
    // A recorder that is killed before it has read anything leaves the gap of the one before as it lasts.
    const readSomething = sentUntil.filter(
      (until, kill) =>
        kill === 0 || counts.some((count) => count >= (sentUntil[kill - 1] ?? 0) && count < until),
    );
    expect(gaps.map((g) => g.cause)).toEqual(readSomething.map(() => 'recorder-restarted'));
    for (const { fromElapsedUs, toElapsedUs } of gaps)
      expect(toElapsedUs ?? -1).toBeGreaterThan(fromElapsedUs);
    expect((await recorder.ask('archive.check', {})).lines.filter((line) => !line.ok)).toEqual([]);
  },
  600_000,
);
