/**
 * The window's page stands still for a minute (SIGSTOP) while 10 000 lines a second come: what main hands over to it, what
 * main and recorder hold, and how soon the newest reading is shown once it may run. The program has given such a page up by
 * then; a stopped process ends only when it goes on, so the page that shows it is another one.
 */
import { countSentToPage } from '../app/support/sent-to-page.ts';
import { shownEnds } from '../app/support/window-steps.ts';
import { until } from '../app/support/until.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { BenchWindow } from './support/bench-window.ts';
import { prepareLines } from './support/line-sender.ts';
import { residentBytes } from './support/process-facts.ts';
import { wait } from './support/rounds.ts';
import { median, short, spreadText } from './support/statistics.ts';
import { type Row, goalText, printTable } from './support/table.ts';

const LINES_PER_S = 10_000;
const BATCH_MS = 16;
const MINUTE_S = 60;
/** A garbage collector breathes by so much. */
const GROWTH_MIB_MAX = 64;
/** Batches of readings that main lets be under way, see page-outbox.ts; of every other name one. */
const UNDER_WAY_MAX = 8;
const LOOK_MS = 250;
const MIB = 2 ** 20;

const bench = await BenchWindow.open(benchFolder());
const { window } = bench;
await bench.show('Pull');
// Until everything has run once.
await bench.send({ linesPerS: LINES_PER_S, batchMs: BATCH_MS, count: LINES_PER_S * 4 });

const page = await window.pagePid();
const [recorder = Number.NaN] = window.recorderPids();
interface Held {
  readonly main: number[];
  readonly recorder: number[];
}

/** What main and recorder hold, MiB, while lines come for a minute; asks nothing of the page. */
async function minute(): Promise<Held> {
  const sender = await prepareLines({
    path: bench.pair.readoutSide,
    linesPerS: LINES_PER_S,
    batchMs: BATCH_MS,
    count: LINES_PER_S * MINUTE_S,
    from: bench.sent,
  });
  bench.sent += LINES_PER_S * MINUTE_S;
  const held: Held = { main: [], recorder: [] };
  const untilMs = performance.now() + MINUTE_S * 1000;
  sender.begin();
  while (performance.now() < untilMs) {
    held.main.push(residentBytes(window.mainPid) / MIB);
    held.recorder.push(residentBytes(recorder) / MIB);
    await wait(LOOK_MS);
  }
  await sender.done;
  return held;
}

const running = await minute();
process.kill(page, 'SIGSTOP');
const sent = await countSentToPage(window);
const frozen = await minute();
const counts = await sent();
const againMs = performance.now();
process.kill(page, 'SIGCONT');
const shown = await window.pageThatCameBack(page);
await until(async () => (await bench.readingCount()) >= bench.sent - 1, 'the last line is a reading');
await shown.getByRole('slider').first().waitFor();
await until(async () => {
  const { first, last } = await shownEnds(shown);
  return first === 0 && last >= bench.sent - 2;
}, 'the page shows the curve from the first reading to the last');
const shownAfterS = (performance.now() - againMs) / 1000;
const lost = Math.max(0, bench.sent - 1 - (await bench.readingCount()));
await bench.end();

/** By how much the middle of the last third lies above that of the first. */
function growthMib(all: readonly number[]): number {
  const third = Math.max(1, Math.floor(all.length / 3));
  return median(all.slice(-third)) - median(all.slice(0, third));
}
const flat = (which: 'main' | 'recorder'): Row => {
  const [floor, measured] = [growthMib(running[which]), growthMib(frozen[which])];
  return {
    what: `${which === 'main' ? 'the window’s main program' : 'the recorder'}: grows in the minute, against one with the page running`,
    floor: `${short(floor)} MiB`,
    measured: `${short(measured)} MiB`,
    ratio: '',
    goal: goalText(`≤ ${String(GROWTH_MIB_MAX)} MiB more`, measured - Math.max(floor, 0) <= GROWTH_MIB_MAX),
    spread: `${spreadText(frozen[which])} MiB`,
  };
};
const row = (what: string, measured: string, goal = ''): Row => ({
  what,
  floor: '',
  measured,
  ratio: '',
  goal,
  spread: '',
});
const isBounded = Object.entries(counts).every(
  ([name, count]) => count <= (name === 'readings' ? UNDER_WAY_MAX : 1),
);
printTable(`The page stopped for ${String(MINUTE_S)} s beside ${String(LINES_PER_S)} lines a second`, [
  row('lines lost', `${String(lost)} of ${String(bench.sent)}`, goalText('0', lost === 0)),
  row(
    'handed over to the page that took nothing',
    Object.entries(counts)
      .map(([name, count]) => `${name} ${String(count)}`)
      .join(', '),
    goalText(`readings ≤ ${String(UNDER_WAY_MAX)}, others ≤ 1`, isBounded),
  ),
  flat('main'),
  flat('recorder'),
  row('the newest reading shown, from the end of the minute on', `${short(shownAfterS)} s`),
]);
process.exit(0);
