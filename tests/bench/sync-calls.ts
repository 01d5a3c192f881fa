/**
 * That the record is really power-safe at least every COMMIT_INTERVAL_MS_MAX: the sync calls that the recorder makes
 * while lines come, as the kernel sees them (strace), not as the program says. strace slows every call it watches,
 * so the intervals are on the large side. Where there is no strace it says so and measures nothing.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { COMMIT_INTERVAL_MS_MAX } from '../../core/limits.ts';
import { openPortPair } from '../app/support/port-pair.ts';
import { BenchRecorder, benchFolder } from './support/bench-recorder.ts';
import { prepareLines } from './support/line-sender.ts';
import { wait } from './support/rounds.ts';

const LINES_PER_S = 1_000;
const SECONDS = 10;
/** `1795605894.052123 fdatasync(17<bench.gaugemark-wal>) = 0`; a call that another thread overtook ends in a line of its own. */
const SYNC = /^(?:\[pid +)?\d*\]?\s*(\d+\.\d+) (?:fsync|fdatasync)\(\d+<([^>]*)>/;

interface Sync {
  readonly atMs: number;
  readonly path: string;
}

function syncsIn(trace: string): Sync[] {
  return trace.split('\n').flatMap((line) => {
    const match = SYNC.exec(line);
    return match === null ? [] : [{ atMs: Number(match[1]) * 1000, path: match[2] ?? '' }];
  });
}

function share(sorted: readonly number[], part: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? Number.NaN;
}

async function measure(): Promise<void> {
  if (spawnSync('strace', ['--version']).status !== 0) {
    console.log('There is no strace here, so the sync calls can not be watched; nothing was measured.');
    return;
  }
  const folder = benchFolder();
  const trace = join(folder, 'syncs');
  const ports = await openPortPair(folder);
  const watched = ['strace', '-f', '-ttt', '-y', '-e', 'trace=fsync,fdatasync', '-o', trace];
  const recorder = await BenchRecorder.start(folder, watched);
  const pid = await recorder.pid();
  try {
    await recorder.beginPull(ports.port);
    const sender = await prepareLines({
      path: ports.readoutSide,
      linesPerS: LINES_PER_S,
      batchMs: 1,
      count: LINES_PER_S * SECONDS,
    });
    await wait(300);
    const fromMs = Date.now();
    sender.begin();
    await sender.done;
    const toMs = Date.now();
    await recorder.endPull();
    const times = syncsIn(readFileSync(trace, 'utf8'))
      .filter(({ path, atMs }) => path.endsWith('-wal') && atMs >= fromMs && atMs <= toMs)
      .map(({ atMs }) => atMs);
    const intervals = times
      .slice(1)
      .map((at, i) => at - (times[i] ?? at))
      .sort((a, b) => a - b);
    const late = intervals.filter((interval) => interval > COMMIT_INTERVAL_MS_MAX).length;
    console.log(
      `${times.length} syncs of the archive's log in ${SECONDS} s at ${LINES_PER_S} lines/s, under strace`,
    );
    console.log(
      `from one sync to the next: p50 ${share(intervals, 0.5).toFixed(1)} ms, p99 ${share(intervals, 0.99).toFixed(1)} ms, longest ${(intervals.at(-1) ?? Number.NaN).toFixed(1)} ms`,
    );
    console.log(
      `longer than the ${COMMIT_INTERVAL_MS_MAX} ms that are promised: ${late} of ${intervals.length}`,
    );
  } finally {
    // strace hands no signal on: the recorder itself is ended, and strace with it.
    process.kill(pid, 'SIGTERM');
    await recorder.end();
    await ports.end();
  }
}

await measure();
