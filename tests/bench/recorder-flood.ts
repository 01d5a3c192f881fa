/**
 * Lines in a flood: how many a second the recorder takes from a pty without losing one, against reads of the same
 * pty that keep nothing; then 10 000 lines a second for 20 s (`--long`: ten minutes), with its memory.
 * Nothing lost means: the raw bytes in the archive are, to the byte, what was sent, and every line is a reading.
 */
import { createHash } from 'node:crypto';
import { openPortPair } from '../app/support/port-pair.ts';
import { startReader } from './support/bare-reader.ts';
import { BenchRecorder, benchFolder } from './support/bench-recorder.ts';
import { prepareLines } from './support/line-sender.ts';
import { residentBytes } from './support/process-facts.ts';
import { LINE_BYTES, linesBytes } from './support/pull-lines.ts';
import { alternate, isLong, wait } from './support/rounds.ts';
import { median, ratioOf, ratios, short, spreadText } from './support/statistics.ts';
import { goalText, printTable } from './support/table.ts';

const FLOOD_LINES = 150_000;
const ROUNDS = 5;
const STEADY_LINES_PER_S = 10_000;
const STEADY_S = isLong ? 600 : 20;
/** Memory may still grow while compiled code and buffers find their size; after that it must not. */
const SETTLE_S = isLong ? 60 : 8;
/** A garbage collector breathes by so much. */
const GROWTH_BYTES_MAX = 64 * 2 ** 20;

const folder = benchFolder();
const pair = await openPortPair(folder);
const recorder = await BenchRecorder.start(folder);
const pid = await recorder.pid();

/** Milliseconds until the lines are in the hands of the reader. */
async function bareMs(): Promise<number> {
  const reader = await startReader('read', pair.port, FLOOD_LINES * LINE_BYTES);
  const sender = await prepareLines({ path: pair.readoutSide, linesPerS: 0, batchMs: 1, count: FLOOD_LINES });
  sender.begin();
  await sender.done;
  return reader.took;
}

/** Milliseconds until the lines are readings of the record; nothing else is waited for. */
async function recordedMs(): Promise<number> {
  const pullId = await recorder.beginPull(pair.port);
  const sender = await prepareLines({ path: pair.readoutSide, linesPerS: 0, batchMs: 1, count: FLOOD_LINES });
  const from = performance.now();
  sender.begin();
  await recorder.untilReadings(FLOOD_LINES - 1);
  const took = performance.now() - from;
  await sender.done;
  await recorder.endPull();
  const lost = await lostOf(pullId, FLOOD_LINES);
  if (lost > 0) throw new Error(`${lost} of ${FLOOD_LINES} lines were lost in the flood`);
  return took;
}

/** Lines that are missing or altered. */
async function lostOf(pullId: number, count: number): Promise<number> {
  const kept = createHash('sha256');
  const sent = createHash('sha256');
  let bytes = 0;
  for (let from = 0, total = 1; from < total; from += CHUNKS_AT_ONCE) {
    const raw = await recorder.ask('pull.raw', { pullId, fromChunk: from, count: CHUNKS_AT_ONCE });
    total = raw.total;
    bytes += raw.bytes.length;
    kept.update(raw.bytes);
  }
  for (let from = 0; from < count; from += LINES_AT_ONCE)
    sent.update(linesBytes(from, Math.min(LINES_AT_ONCE, count - from)));
  if (bytes !== count * LINE_BYTES) return count - Math.floor(bytes / LINE_BYTES);
  if (kept.digest('hex') !== sent.digest('hex')) throw new Error('the bytes kept are not the bytes sent');
  const { readingCount } = await recorder.ask('pull.get', { pullId });
  // The very first line of a serial port is not believed: it may have lost its beginning.
  return Math.max(0, count - 1 - readingCount);
}
const CHUNKS_AT_ONCE = 5_000;
const LINES_AT_ONCE = 100_000;

await bareMs();
await recordedMs();
const { floor, measured } = await alternate(ROUNDS, { floor: bareMs, measured: recordedMs });
const perS = (ms: readonly number[]): number => (FLOOD_LINES / median(ms)) * 1000;

const pullId = await recorder.beginPull(pair.port);
const count = STEADY_LINES_PER_S * STEADY_S;
const sender = await prepareLines({
  path: pair.readoutSide,
  linesPerS: STEADY_LINES_PER_S,
  batchMs: 4,
  count,
});
const beganMs = performance.now();
sender.begin();
const memory: { readonly s: number; readonly bytes: number }[] = [];
let isSending = true;
const sentAll = sender.done.then(() => {
  isSending = false;
  return performance.now() - beganMs;
});
// As a function: the flag changes while this waits.
const stillSending = (): boolean => isSending;
while (stillSending()) {
  await wait(500);
  memory.push({ s: (performance.now() - beganMs) / 1000, bytes: residentBytes(pid) });
}
const sendingMs = await sentAll;
await recorder.untilReadings(count - 1);
const behindMs = performance.now() - beganMs - sendingMs;
await recorder.endPull();
const lost = await lostOf(pullId, count);
const settled = memory.filter(({ s }) => s >= SETTLE_S).map(({ bytes }) => bytes);
const third = Math.max(1, Math.floor(settled.length / 3));
const early = median(settled.slice(0, third));
const late = median(settled.slice(-third));
const mebi = (bytes: number): string => `${short(bytes / 2 ** 20)} MiB`;

printTable('Recorder: floods', [
  {
    what: 'lines/s taken without loss, as fast as the pty gives them',
    floor: `${short(perS(floor))}/s`,
    measured: `${short(perS(measured))}/s`,
    ratio: `${short(1 / ratioOf(floor, measured))} ×`,
    goal: '',
    spread: spreadText(ratios(measured, floor)),
  },
  {
    what: `lines lost at ${short(count / (sendingMs / 1000))}/s for ${short(sendingMs / 1000)} s`,
    floor: `${count} sent`,
    measured: `${lost} lost`,
    ratio: '',
    goal: goalText('0', lost === 0),
    spread: `the last was kept ${short(Math.max(0, behindMs))} ms after it was sent`,
  },
  {
    what: `memory of the recorder meanwhile, from ${SETTLE_S} s on: first third, last third`,
    floor: mebi(early),
    measured: mebi(late),
    ratio: `${short(late / early)} ×`,
    goal: goalText('flat', late - early <= GROWTH_BYTES_MAX),
    spread: `at most ${mebi(Math.max(...memory.map(({ bytes }) => bytes)))}`,
  },
]);
await recorder.end();
await pair.end();
process.exit(0);
