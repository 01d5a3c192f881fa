/**
 * A day at a frame in a few minutes, in one record (six hours; `--long`: all of them): every hour lines come for a while,
 * then the adapter is pulled out and put in again; every third hour the recorder's process is stopped for seconds in the
 * middle of the lines, and wakes with its clocks ten minutes on, as by a computer that sleeps; in the hour before somebody
 * sets the wall clock back by one hour. The clocks are stepped inside the recorder only (`support/stepped-clocks.ts`).
 * Nothing that was sent may be missing or twice, every loss of the port stands as a gap, every sleep and step of the clock
 * is named, times never run backwards, and memory and handles stay where they are.
 */
import { readdirSync } from 'node:fs';
import { until } from '../app/support/until.ts';
import { openPortPair } from '../app/support/port-pair.ts';
import { BenchRecorder, benchFolder } from './support/bench-recorder.ts';
import { prepareLines } from './support/line-sender.ts';
import { residentBytes } from './support/process-facts.ts';
import { LINE_BYTES, linesBytes } from './support/pull-lines.ts';
import { isLong, wait } from './support/rounds.ts';
import { short } from './support/statistics.ts';
import { goalText, printTable } from './support/table.ts';

const HOURS = isLong ? 24 : 6;
const LINES_AN_HOUR = 4_000;
const LINES_PER_S = 1_000;
const SLEEP_EVERY = 3;
const SLEEP_MS = 2_000;
/** After an opening: longer than a line may be under way, so that the first one counts as whole. */
const QUIET_MS = 600;
const CHUNKS_AT_ONCE = 5_000;
const READINGS_MAX = HOURS * LINES_AN_HOUR;
const GROWTH_BYTES_MAX = 64 * 2 ** 20;

const folder = benchFolder();
let pair = await openPortPair(folder);
const recorder = await BenchRecorder.start(
  folder,
  [],
  new URL('./support/stepped-clocks.ts', import.meta.url),
);
const pid = await recorder.pid();
const pullId = await recorder.beginPull(pair.port);
const facts: { readonly bytes: number; readonly handles: number }[] = [];

let [sleeps, steps] = [0, 0];

for (let hour = 0; hour < HOURS; hour++) {
  await wait(QUIET_MS);
  const sender = await prepareLines({
    path: pair.readoutSide,
    linesPerS: LINES_PER_S,
    batchMs: 4,
    count: LINES_AN_HOUR,
    from: hour * LINES_AN_HOUR,
  });
  sender.begin();
  if (hour % SLEEP_EVERY === SLEEP_EVERY - 1) {
    await wait(SLEEP_MS / 2);
    process.kill(pid, 'SIGSTOP');
    await wait(SLEEP_MS);
    // Taken when it goes on: it finds that the other clocks went on without it.
    process.kill(pid, 'SIGUSR2');
    process.kill(pid, 'SIGCONT');
    sleeps++;
  } else if (hour % SLEEP_EVERY === SLEEP_EVERY - 2) {
    await wait(SLEEP_MS / 2);
    process.kill(pid, 'SIGWINCH');
    steps++;
  }
  await sender.done;
  await recorder.untilReadings((hour + 1) * LINES_AN_HOUR - 1);
  facts.push({ bytes: residentBytes(pid), handles: readdirSync(`/proc/${pid}/fd`).length });
  if (hour === HOURS - 1) break;
  await pair.end();
  await until(
    async () => (await recorder.ask('session.get', {})).readout?.link === 'lost',
    'the loss is seen',
  );
  pair = await openPortPair(folder);
  await until(
    async () => (await recorder.ask('session.get', {})).readout?.link === 'open',
    'the port is found again',
  );
}
await recorder.endPull();

const sent = linesBytes(0, HOURS * LINES_AN_HOUR);
const pieces: Buffer[] = [];
for (let from = 0, total = 1; from < total; from += CHUNKS_AT_ONCE) {
  const raw = await recorder.ask('pull.raw', { pullId, fromChunk: from, count: CHUNKS_AT_ONCE });
  total = raw.total;
  pieces.push(Buffer.from(raw.bytes));
}
const same = Buffer.concat(pieces).equals(sent);
const kept = await recorder.ask('pull.get', { pullId });
const { columns } = await recorder.ask('pull.readings', { pullId, fromSeq: 0, count: READINGS_MAX });
const backwards = columns.elapsedUs.filter((us, i) => us < (columns.elapsedUs[i - 1] ?? 0)).length;
const sound = (await recorder.ask('archive.check', {})).sound;
await recorder.end();
await pair.end();

// The first opening may take its first line for the rest of one.
const missing = HOURS * LINES_AN_HOUR - kept.readingCount;
const actsOf = (kind: string, words = ''): number =>
  kept.acts.filter((act) => act.kind === kind && act.words.includes(words)).length;
const slept = kept.gaps.filter(({ cause }) => cause === 'computer-slept').length + actsOf('computer-slept');
const stepped = actsOf('clock-stepped', 'was set back');
const losses = kept.gaps.filter(({ cause }) => cause === 'signal-lost').length;
const [first, last] = [facts[Math.floor(HOURS / 3)], facts.at(-1)];
const mebi = (bytes: number): string => `${short(bytes / 2 ** 20)} MiB`;
printTable(`${HOURS} hours at a frame, compressed`, [
  {
    what: 'raw bytes as sent; readings missing; archive sound',
    floor: `${sent.length / LINE_BYTES} lines`,
    measured: `${same ? 'the same' : 'NOT the same'}, ${missing}, ${sound ? 'sound' : 'NOT sound'}`,
    ratio: '',
    goal: goalText('all', same && missing <= 1 && sound),
    spread: '',
  },
  {
    what: 'losses of the port named as gaps',
    floor: `${HOURS - 1}`,
    measured: `${losses}`,
    ratio: '',
    goal: goalText('each', losses === HOURS - 1),
    spread: kept.gaps.map(({ cause }) => cause).join(' '),
  },
  {
    what: 'sleeps, and clocks set back, named; times that run backwards',
    floor: `${sleeps}, ${steps}`,
    measured: `${slept}, ${stepped}; ${backwards}`,
    ratio: '',
    goal: goalText('each; none', slept === sleeps && stepped === steps && backwards === 0),
    spread: kept.acts
      .filter(({ kind }) => kind === 'clock-stepped' || kind === 'computer-slept')
      .map(({ words }) => words)
      .join(' '),
  },
  {
    what: 'memory and handles, after a third and at the end',
    floor: `${mebi(first?.bytes ?? 0)}, ${first?.handles ?? 0}`,
    measured: `${mebi(last?.bytes ?? 0)}, ${last?.handles ?? 0}`,
    ratio: '',
    goal: goalText(
      'flat',
      (last?.bytes ?? 0) - (first?.bytes ?? 0) <= GROWTH_BYTES_MAX && last?.handles === first?.handles,
    ),
    spread: '',
  },
]);
process.exit(0);
