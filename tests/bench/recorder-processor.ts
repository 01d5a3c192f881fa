/**
 * What recording costs: processor time of the whole recorder process at 1 000 lines a second of 24 bytes, against a
 * process that reads the same lines with serialport, its readline parser and a split, and keeps nothing.
 */
import { openPortPair } from '../app/support/port-pair.ts';
import { startReader } from './support/bare-reader.ts';
import { BenchRecorder, benchFolder } from './support/bench-recorder.ts';
import { prepareLines } from './support/line-sender.ts';
import { processorSeconds } from './support/process-facts.ts';
import { alternate, wait } from './support/rounds.ts';
import { type Row, comparedRow, goalText, printTable } from './support/table.ts';
import { median, short, spreadText } from './support/statistics.ts';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';

const LINES_PER_S = 1_000;
const ROUNDS = 5;
const SETTLE_S = 0.5;
const WATCH_S = 3;
const SHARE_OF_CORE_MAX = 0.15;

const folder = benchFolder();
mkdirSync(join(folder, 'a'));
mkdirSync(join(folder, 'b'));
const own = await openPortPair(join(folder, 'a'));
const bare = await openPortPair(join(folder, 'b'));
const recorder = await BenchRecorder.start(folder);
const recorderPid = await recorder.pid();
await recorder.beginPull(own.port);
const reader = await startReader('split', bare.port);
let sentSoFar = 0;

/** Share of a core that a process takes while lines come. */
async function shareOfCore(pid: number, path: string, batchMs: number): Promise<number> {
  const sender = await prepareLines({
    path,
    linesPerS: LINES_PER_S,
    batchMs,
    count: LINES_PER_S * (SETTLE_S + WATCH_S + 0.2),
    from: sentSoFar,
  });
  sentSoFar += LINES_PER_S;
  sender.begin();
  await wait(SETTLE_S * 1000);
  const before = processorSeconds(pid);
  const from = performance.now();
  await wait(WATCH_S * 1000);
  const share = (processorSeconds(pid) - before) / ((performance.now() - from) / 1000);
  await sender.done;
  sender.end();
  return share * 100;
}

async function compared(what: string, batchMs: number): Promise<Row[]> {
  const { floor, measured } = await alternate(ROUNDS, {
    floor: () => shareOfCore(reader.pid, bare.readoutSide, batchMs),
    measured: () => shareOfCore(recorderPid, own.readoutSide, batchMs),
  });
  return [
    comparedRow({ what, unit: '% of a core', floor, measured, atMost: 1.5 }),
    {
      what: `${what}: share of a core`,
      floor: '',
      measured: `${short(median(measured))} %`,
      ratio: '',
      goal: goalText('≤ 15 %', median(measured) <= SHARE_OF_CORE_MAX * 100),
      spread: spreadText(measured),
    },
  ];
}

// Once through both, so that no round measures a program that is still being compiled.
await shareOfCore(reader.pid, bare.readoutSide, 1);
await shareOfCore(recorderPid, own.readoutSide, 1);
recorder.letGo();
const rows = [
  ...(await compared('recorder at 1 000 lines/s, a line a write, nobody watching', 1)),
  ...(await compared('the same in writes of 16 ms', 16)),
];
await recorder.watchAgain();
const { floor, measured } = await alternate(3, {
  floor: () => shareOfCore(reader.pid, bare.readoutSide, 16),
  measured: () => shareOfCore(recorderPid, own.readoutSide, 16),
});
rows.push(
  comparedRow({
    what: 'the same in writes of 16 ms, a client watching',
    unit: '% of a core',
    floor,
    measured,
  }),
);
printTable('Recorder: processor time', rows);
reader.end();
await recorder.end();
await own.end();
await bare.end();
process.exit(0);
