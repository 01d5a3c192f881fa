/**
 * One pull at 1 000 readings a second with both live plots in the real window: its longest frame, how long a press
 * waits, what page and pixels take of a core, and whether page and main stay as large as they are. A minute; `--long`: the ten minutes of the goal.
 */
import type { Page } from 'playwright';
import { benchFolder } from './support/bench-recorder.ts';
import { BenchWindow } from './support/bench-window.ts';
import { type InputDelay, takeInputs, watchInputs } from './support/input-delays.ts';
import { longFrameText, takeLongFrames, watchLongFrames } from './support/long-frames.ts';
import { MachineStalls } from './support/machine-stalls.ts';
import { framesDuring } from './support/page-frames.ts';
import { isLong, wait } from './support/rounds.ts';
import { median, shareOf, short, spreadText } from './support/statistics.ts';
import { goalText, printTable } from './support/table.ts';
import { type MemorySample, columnsMib, memoryUntil, pageMemory } from './support/window-memory.ts';

const LINES_PER_S = 1_000;
const BATCH_MS = 16;
const PULL_S = isLong ? 600 : 60;
/** As long as the pull: a machine stands still now and then by itself, and the longest of ten such times is longer than that of one. */
const IDLE_S = PULL_S;
const PERIODS_MORE_MAX = 2;
const SHARE_OF_CORE_MAX = 0.55;
const INPUT_DELAY_MS_MAX = 50;
const INPUT_PAUSE_MS = 400;
/** The engines' own steps: what was thrown away and is not collected yet, code that became fast. */
const MEMORY_PLAY_MIB = 16;
const LONG_FRAMES_TOLD = 8;

const bench = await BenchWindow.open(benchFolder());
const { page } = bench.window;
await bench.show('Pull');
await watchInputs(page);
await watchLongFrames(page);
const heldByPage = await pageMemory(bench.window);

/** What a person can press in mid-pull without changing the record: along the curve, other units, the sound. */
async function pressAll(inputs: Page, untilMs: number): Promise<void> {
  const plot = inputs.locator('[role="slider"]').last();
  while (performance.now() < untilMs) {
    await plot.focus();
    await inputs.keyboard.press('ArrowLeft');
    await wait(INPUT_PAUSE_MS);
    await inputs.keyboard.press('Control+u');
    await wait(INPUT_PAUSE_MS);
    await inputs.locator('#sound-on').click();
    await wait(INPUT_PAUSE_MS);
  }
}

// Until everything has run once, also what a press brings.
await bench.send({
  linesPerS: LINES_PER_S,
  batchMs: BATCH_MS,
  count: LINES_PER_S * 6,
  meanwhile: () => pressAll(page, performance.now() + 5_000),
});
await takeInputs(page);
await takeLongFrames(page, 0);

const idleStalls = new MachineStalls();
const idle = await framesDuring(page, () => pressAll(page, performance.now() + IDLE_S * 1000));
const stoodIdle = idleStalls.told();
const idleInputs = await takeInputs(page);
const idleLong = await takeLongFrames(page, LONG_FRAMES_TOLD);

const stalls = new MachineStalls();
const [before, readingsBefore] = [await heldByPage(), await bench.readingCount()];
let memory: MemorySample[] = [];
let shareOfCore = Number.NaN;
const live = await framesDuring(page, async () => {
  await bench.send({
    linesPerS: LINES_PER_S,
    batchMs: BATCH_MS,
    count: LINES_PER_S * PULL_S,
    meanwhile: async () => {
      const [fromMs, drawnBefore] = [performance.now(), bench.drawingSeconds()];
      const untilMs = fromMs + PULL_S * 1000;
      [memory] = await Promise.all([memoryUntil(bench.window, untilMs), pressAll(page, untilMs)]);
      shareOfCore = (bench.drawingSeconds() - drawnBefore) / ((performance.now() - fromMs) / 1000);
    },
  });
});
const stood = stalls.told();
const liveInputs = await takeInputs(page);
const liveLong = await takeLongFrames(page, LONG_FRAMES_TOLD);
const [after, readingsAfter] = [await heldByPage(), await bench.readingCount()];

const periodMs = median(idle.frames);
const [idleMs, liveMs] = [Math.max(...idle.frames), Math.max(...live.frames)];
const recordMib = columnsMib(readingsAfter) - columnsMib(readingsBefore);
const pageGrowth = after.resident - before.resident;
const tenth = Math.max(1, Math.floor(memory.length / 10));
const mainOf = (samples: readonly MemorySample[]): number => median(samples.map(({ main }) => main));
const [mainEarly, mainLate] = [mainOf(memory.slice(tenth, 2 * tenth)), mainOf(memory.slice(-tenth))];
const painted = (inputs: readonly InputDelay[]): number[] => inputs.map(({ paintedMs }) => paintedMs);
const takenUp = (inputs: readonly InputDelay[]): number[] => inputs.map(({ takenUpMs }) => takenUpMs);
const byKind = [...new Set(liveInputs.map(({ what }) => what))].map((what) => {
  const these = painted(liveInputs.filter((one) => one.what === what));
  return `${what} ${short(median(these))}, slowest ${short(Math.max(...these))} ms`;
});
printTable(
  `One pull of ${String(PULL_S)} s at 1 000 readings a second in the real window`,
  [
    {
      what: 'longest frame, with presses on both sides',
      floor: `${short(idleMs)} ms in ${String(IDLE_S)} s`,
      measured: `${short(liveMs)} ms`,
      ratio: `${short((liveMs - idleMs) / periodMs)} periods more`,
      goal: goalText(
        `≤ ${String(PERIODS_MORE_MAX)} periods more`,
        liveMs - idleMs <= PERIODS_MORE_MAX * periodMs + 0.5,
      ),
      spread: `p99 ${short(shareOf(live.frames, 0.99))} ms, idle ${short(shareOf(idle.frames, 0.99))} ms`,
    },
    {
      what: 'input delay, from a press until the page takes it up: slowest',
      floor: `${short(Math.max(...takenUp(idleInputs)))} ms`,
      measured: `${short(Math.max(...takenUp(liveInputs)))} ms`,
      ratio: '',
      goal: goalText(
        `< ${String(INPUT_DELAY_MS_MAX)} ms`,
        Math.max(...takenUp(liveInputs)) < INPUT_DELAY_MS_MAX,
      ),
      spread: `median ${short(median(takenUp(liveInputs)))} ms, p99 ${short(shareOf(takenUp(liveInputs), 0.99))} ms`,
    },
    {
      what: 'from a press until the frame with all that it changed: slowest',
      floor: `${short(Math.max(...painted(idleInputs)))} ms`,
      measured: `${short(Math.max(...painted(liveInputs)))} ms`,
      ratio: '',
      goal: '',
      spread: `median ${short(median(painted(liveInputs)))} ms, p99 ${short(shareOf(painted(liveInputs), 0.99))} ms of ${String(liveInputs.length)}`,
    },
    {
      what: 'page and its pixels: share of a core over the whole pull, presses and all that is not drawing included',
      floor: '',
      measured: `${short(shareOfCore * 100)} %`,
      ratio: '',
      goal: goalText('≤ 55 %', shareOfCore <= SHARE_OF_CORE_MAX),
      spread: '',
    },
    {
      what: 'page: what it holds grows by, against the columns of the record',
      floor: `${short(recordMib)} MiB`,
      measured: `${short(pageGrowth)} MiB`,
      ratio: `from ${short(before.resident)} MiB`,
      goal: goalText(`≤ ${String(MEMORY_PLAY_MIB)} MiB more`, pageGrowth - recordMib <= MEMORY_PLAY_MIB),
      spread: `heap ${short(before.heap)} to ${short(after.heap)} MiB; uncollected ${spreadText(memory.map((one) => one.page))} MiB`,
    },
    {
      what: 'main: memory in the second and the last tenth',
      floor: `${short(mainEarly)} MiB`,
      measured: `${short(mainLate)} MiB`,
      ratio: `${short(mainLate - mainEarly)} MiB more`,
      goal: goalText(`≤ ${String(MEMORY_PLAY_MIB)} MiB more`, mainLate - mainEarly <= MEMORY_PLAY_MIB),
      spread: `${spreadText(memory.map((one) => one.main))} MiB`,
    },
  ],
  [
    `${String(readingsAfter - readingsBefore)} readings; each plot drawn ${short(live.draws / 2 / PULL_S)} times a second; a frame takes ${short(periodMs)} ms.`,
    `Presses: ${byKind.join('; ')}.`,
    `Idle: ${stoodIdle}`,
    ...idleLong.map((frame) => `Idle, ${longFrameText(frame)}`),
    `Live: ${stood}`,
    ...liveLong.map((frame) => `Live, ${longFrameText(frame)}`),
  ],
);
await bench.end();
process.exit(0);
