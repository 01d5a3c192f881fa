/**
 * The load that the program promises to bear: 10 000 lines a second into one pull, its live plots in the real window,
 * beside an archive of 100 000 pulls in which somebody looks for pulls meanwhile. Nothing may be lost, memory must stay
 * flat, a press must be taken up at once. Twenty seconds; `--long`: the ten minutes of the goal; `--pulls=N`: fewer.
 */
import { createHash } from 'node:crypto';
import type { Page } from 'playwright';
import { Archive } from '../../core/archive/archive.ts';
import { makeAnew } from '../../core/archive/search/make-index.ts';
import { archiveIn } from '../app/support/gaugemark-window.ts';
import { makeRows } from './support/archive-of-many.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { BenchWindow } from './support/bench-window.ts';
import { takeInputs, watchInputs } from './support/input-delays.ts';
import { LINE_BYTES, linesBytes } from './support/pull-lines.ts';
import { isLong, wait } from './support/rounds.ts';
import { median, shareOf, short, spreadText } from './support/statistics.ts';
import { type Row, goalText, printTable } from './support/table.ts';
import { type MemorySample, columnsMib, memoryUntil, pageMemory } from './support/window-memory.ts';

const asked = process.argv.find((one) => one.startsWith('--pulls='))?.slice('--pulls='.length);
const PULLS = Number(asked ?? 100_000);
const LINES_PER_S = 10_000;
const BATCH_MS = 16;
const FLOOD_S = isLong ? 600 : 20;
/** Compiled code and buffers find their size meanwhile. */
const SETTLE_S = isLong ? 60 : 8;
/** A garbage collector breathes by so much. */
const GROWTH_MIB_MAX = 64;
const INPUT_DELAY_MS_MAX = 50;
const PRESS_PAUSE_MS = 400;
const LINES_AT_ONCE = 100_000;
const OPTIONS = { programVersion: 'bench', wallMs: Date.now };

const folder = benchFolder();
const years = new Archive(archiveIn(folder), OPTIONS);
makeRows(years, PULLS);
makeAnew(years.connection);
years.close();

const bench = await BenchWindow.open(folder);
const { page } = bench.window;
await watchInputs(page);
const heldByPage = await pageMemory(bench.window);
const searches: number[] = [];

/** As one who records and looks something up: a press at the plot, a word in the archive, back. */
async function pressAndSearch(inputs: Page, untilMs: number): Promise<void> {
  while (performance.now() < untilMs) {
    await bench.show('Pull');
    const plot = inputs.locator('[role="slider"]').last();
    for (let presses = 0; presses < 8; presses++) {
      await plot.focus();
      await inputs.keyboard.press('ArrowLeft');
      await wait(PRESS_PAUSE_MS);
    }
    await inputs.getByRole('button', { name: 'Archive' }).first().click();
    const field = inputs.locator('#archive-search');
    for (const text of ['undercut', `T-${String(1 + (searches.length % PULLS))}`]) {
      const fromMs = performance.now();
      await bench.ask('archive.search', { query: { text }, limit: 50 });
      searches.push(performance.now() - fromMs);
      await field.fill(text);
      await wait(PRESS_PAUSE_MS);
    }
  }
}

async function flood(
  seconds: number,
): Promise<{ readonly samples: MemorySample[]; readonly readings: number }> {
  let samples: MemorySample[] = [];
  await bench.send({
    linesPerS: LINES_PER_S,
    batchMs: BATCH_MS,
    count: LINES_PER_S * seconds,
    meanwhile: async () => {
      const untilMs = performance.now() + seconds * 1000;
      [samples] = await Promise.all([memoryUntil(bench.window, untilMs), pressAndSearch(page, untilMs)]);
    },
  });
  return { samples, readings: await bench.readingCount() };
}

// Until everything has run once.
const { readings: readingsBefore } = await flood(6);
await takeInputs(page);
searches.length = 0;
const before = await heldByPage();
const { samples, readings } = await flood(FLOOD_S);
const inputs = (await takeInputs(page)).map(({ takenUpMs }) => takenUpMs);
const after = await heldByPage();
const { pull } = await bench.ask('session.get', {});
await bench.ask('pull.close', {});
await bench.end();

const kept = new Archive(archiveIn(folder), OPTIONS);
const end = kept.connection
  .prepare('SELECT reading_count, raw_byte_count, raw_sha256 FROM pull_end WHERE pull_id = ?')
  .get(pull?.pullId) as { reading_count: number; raw_byte_count: number; raw_sha256: Buffer };
kept.close();
const hash = createHash('sha256');
for (let from = 0; from < bench.sent; from += LINES_AT_ONCE)
  hash.update(linesBytes(from, Math.min(LINES_AT_ONCE, bench.sent - from)));
if (end.raw_byte_count === bench.sent * LINE_BYTES && !hash.digest().equals(end.raw_sha256))
  throw new Error('the bytes kept are not the bytes sent');
// The very first line of a serial port may have lost its beginning, and is then kept as bytes only.
const lost = Math.max(bench.sent - end.raw_byte_count / LINE_BYTES, bench.sent - 1 - end.reading_count, 0);

const settled = samples.slice(SETTLE_S);
const third = Math.max(1, Math.floor(settled.length / 3));
const flat = (which: 'main' | 'recorder'): Row => {
  const all = settled.map((one) => one[which]);
  const [early, late] = [median(all.slice(0, third)), median(all.slice(-third))];
  return {
    what: `memory of the ${which === 'main' ? 'window’s main program' : 'recorder'}: first third, last third`,
    floor: `${short(early)} MiB`,
    measured: `${short(late)} MiB`,
    ratio: `${short(late / early)} ×`,
    goal: goalText('flat', late - early <= GROWTH_MIB_MAX),
    spread: `${spreadText(all)} MiB`,
  };
};
const recordMib = columnsMib(readings) - columnsMib(readingsBefore);
const pageGrowth = after.resident - before.resident;
printTable(
  `${String(LINES_PER_S)} lines a second for ${String(FLOOD_S)} s, live in the window, beside ${String(PULLS)} pulls`,
  [
    {
      what: 'lines lost',
      floor: `${String(bench.sent)} sent`,
      measured: String(lost),
      ratio: '',
      goal: goalText('0', lost === 0),
      spread: '',
    },
    flat('recorder'),
    flat('main'),
    {
      what: 'page: what it holds grows by, against the columns of the record',
      floor: `${short(recordMib)} MiB`,
      measured: `${short(pageGrowth)} MiB`,
      ratio: `from ${short(before.resident)} MiB`,
      goal: goalText(`≤ ${String(GROWTH_MIB_MAX)} MiB more`, pageGrowth - recordMib <= GROWTH_MIB_MAX),
      spread: '',
    },
    {
      what: 'from a press until the page takes it up: slowest',
      floor: '',
      measured: `${short(Math.max(...inputs))} ms`,
      ratio: '',
      goal: goalText(`< ${String(INPUT_DELAY_MS_MAX)} ms`, Math.max(...inputs) < INPUT_DELAY_MS_MAX),
      spread: `median ${short(median(inputs))} ms, p99 ${short(shareOf(inputs, 0.99))} ms of ${String(inputs.length)}`,
    },
    {
      what: 'a search of the archive meanwhile, there and back: slowest',
      floor: '',
      measured: `${short(Math.max(...searches))} ms`,
      ratio: '',
      goal: '',
      spread: `median ${short(median(searches))} ms of ${String(searches.length)}`,
    },
  ],
);
process.exit(0);
