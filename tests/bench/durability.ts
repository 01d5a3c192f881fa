/**
 * What a power cut could take: the sync calls that the recorder really makes while readings flow, seen by strace.
 * Counted is the time from one finished sync of the archive or its log to the next, and for every write of raw bytes
 * into the spool how long it waits until a sync of the archive that was begun after it has finished.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { COMMIT_INTERVAL_MS_MAX } from '../../core/limits.ts';
import { openPortPair } from '../app/support/port-pair.ts';
import { BenchRecorder, benchFolder } from './support/bench-recorder.ts';
import { prepareLines } from './support/line-sender.ts';
import { shareOf, short } from './support/statistics.ts';
import { goalText, printTable } from './support/table.ts';

const LINES_PER_S = 1_000;
const WATCHED_S = 10;
/** At both ends of the flow: the first commit follows the first reading, the last one the last. */
const EDGE_S = 1;

if (spawnSync('strace', ['-V'], { stdio: 'ignore' }).status !== 0) {
  console.log(
    'Left out: there is no strace here, so the sync calls can not be seen (Debian: apt-get install strace).',
  );
  process.exit(0);
}

interface Call {
  readonly kind: 'sync' | 'spool';
  readonly beganS: number;
  readonly endedS: number;
}

/** Calls of a trace with `-f -ttt -T -y`, finished ones only, those of one process that were cut in two put together. */
function callsOf(trace: string): Call[] {
  const calls: Call[] = [];
  const unfinished = new Map<string, { kind: Call['kind']; beganS: number }>();
  for (const line of trace.split('\n')) {
    const match = /^(\d+)\s+(\d+\.\d+) (.*)$/.exec(line);
    if (match === null) continue;
    const [, thread = '', timeText = '', text = ''] = match;
    const atS = Number(timeText);
    const tookS = Number(/<(\d+\.\d+)>$/.exec(text)?.[1] ?? Number.NaN);
    if (text.startsWith('<...')) {
      const begun = unfinished.get(thread);
      unfinished.delete(thread);
      if (begun !== undefined) calls.push({ ...begun, endedS: atS });
      continue;
    }
    const isSync = /^(?:fsync|fdatasync)\(\d+<[^>]*\.gaugemark(?:-wal)?>/.test(text);
    const isSpool = /^(?:write|pwrite64)\(\d+<[^>]*-spool-[ab]>/.test(text);
    if (!isSync && !isSpool) continue;
    const kind = isSync ? 'sync' : 'spool';
    if (text.includes('<unfinished')) unfinished.set(thread, { kind, beganS: atS });
    else calls.push({ kind, beganS: atS, endedS: atS + tookS });
  }
  return calls.toSorted((a, b) => a.endedS - b.endedS);
}

const folder = benchFolder();
const traceFile = join(folder, 'trace');
const pair = await openPortPair(folder);
const recorder = await BenchRecorder.start(folder, [
  ...['strace', '-f', '--seccomp-bpf', '-ttt', '-T', '-y', '-s', '0', '-o', traceFile],
  ...['-e', 'trace=fsync,fdatasync,write,pwrite64'],
]);
const pid = await recorder.pid();
await recorder.beginPull(pair.port);
const sender = await prepareLines({
  path: pair.readoutSide,
  linesPerS: LINES_PER_S,
  batchMs: 4,
  count: LINES_PER_S * (WATCHED_S + 2 * EDGE_S),
});
recorder.letGo();
sender.begin();
await sender.done;
await recorder.watchAgain();
await recorder.untilReadings(LINES_PER_S * (WATCHED_S + 2 * EDGE_S) - 1);
await recorder.endPull();
// By its own number: the signal is for the recorder, and strace ends with it.
process.kill(pid, 'SIGTERM');
await recorder.end();
await pair.end();

const calls = callsOf(readFileSync(traceFile, 'latin1'));
const chunks = calls.filter(({ kind }) => kind === 'spool');
const firstS = (chunks.find(({ beganS }) => beganS > 0)?.beganS ?? 0) + EDGE_S;
const flow = chunks.filter(({ beganS }) => beganS >= firstS && beganS <= firstS + WATCHED_S);
const lastS = flow.at(-1)?.endedS ?? 0;
const syncs = calls.filter(
  ({ kind, endedS }) => kind === 'sync' && endedS >= firstS && endedS <= lastS + EDGE_S,
);
const spacingMs = syncs
  .filter(({ endedS }) => endedS <= lastS)
  .map(({ endedS }, i, all) => (endedS - (all[i - 1]?.endedS ?? endedS)) * 1000)
  .slice(1);
const waitMs = flow.flatMap(({ endedS }) => {
  const safe = syncs.find((sync) => sync.beganS > endedS);
  return safe === undefined ? [] : [(safe.endedS - endedS) * 1000];
});
if (spacingMs.length === 0 || waitMs.length === 0)
  throw new Error('no sync call was seen while readings flowed');

const row = (what: string, times: readonly number[]) =>
  ([0.5, 0.99, 1] as const).map((share) => {
    const ms = shareOf(times, share);
    return {
      what: `${what}, ${share === 1 ? 'longest' : `p${share * 100}`}`,
      floor: '',
      measured: `${short(ms)} ms`,
      ratio: '',
      goal: share === 0.5 ? '' : goalText(`≤ ${COMMIT_INTERVAL_MS_MAX} ms`, ms <= COMMIT_INTERVAL_MS_MAX),
      spread: `${times.length} seen`,
    };
  });
printTable(
  'Durability at 1 000 lines/s, under strace (only these calls are stopped)',
  [
    ...row('from one finished sync to the next', spacingMs),
    ...row('from raw bytes in the spool to the sync that makes them power-safe', waitMs),
  ],
  [
    `${flow.length} chunks were handed to the operating system before anything else was done with them, each in a write of its own.`,
  ],
);
process.exit(0);
