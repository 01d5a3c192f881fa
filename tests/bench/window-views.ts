/**
 * Going from one view to another in the real window, with an archive of 100 000 pulls: from the press to the new view on
 * the screen, each place many times; then through the table of all pulls, by keys and wheel. `--pulls=N`: fewer; `--file=PATH`: keeps the archive there for the next run.
 */
import { existsSync, symlinkSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Page } from 'playwright';
import { Archive } from '../../core/archive/archive.ts';
import { makeAnew } from '../../core/archive/search/make-index.ts';
import { GaugemarkWindow, archiveIn } from '../app/support/gaugemark-window.ts';
import { makeRows } from './support/archive-of-many.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { longFrameText, takeLongFrames, watchLongFrames } from './support/long-frames.ts';
import { MachineStalls } from './support/machine-stalls.ts';
import { framesDuring } from './support/page-frames.ts';
import { wait } from './support/rounds.ts';
import { median, shareOf, short, spreadText } from './support/statistics.ts';
import { type Row, goalText, printTable } from './support/table.ts';

const optionOf = (name: string): string | undefined =>
  process.argv.find((one) => one.startsWith(`${name}=`))?.slice(name.length + 1);
const PULLS = Number(optionOf('--pulls') ?? 100_000);
const FILE = optionOf('--file');
const ROUNDS = 25;
const GOAL_MS = 100;
/** Along the table: as a key repeats that is held down. */
const STEPS = 120;
const STEP_PAUSE_MS = 33;
const WHEEL_PX = 600;
/** Longer than any view may take: what comes later is told as not come. */
const WAIT_MS_MAX = 10_000;
const LONG_FRAMES_TOLD = 12;
/** By their keys; what must stand there besides the place itself, so that an empty frame doesn't count. */
const PLACES: readonly (readonly [place: string, key: string, filledBy: string])[] = [
  ['set', 'Alt+1', '.set-list button'],
  ['specimen', 'Alt+2', '#specimen-identity'],
  ['readout', 'Alt+3', '#listen'],
  ['pull', 'Alt+4', 'h1 ~ *'],
  ['fracture', 'Alt+5', 'h1 ~ *'],
  ['result', 'Alt+6', 'h1 ~ *'],
  ['certificate', 'Alt+7', 'h1 ~ *'],
  ['archive', 'Alt+8', '.found-rows .open-pull'],
  ['instruments', 'Alt+9', 'h1 ~ *'],
];

const folder = benchFolder();
if (FILE !== undefined) symlinkSync(resolve(FILE), archiveIn(folder));
if (FILE === undefined || !existsSync(FILE)) {
  const years = new Archive(FILE ?? archiveIn(folder), { programVersion: 'bench', wallMs: Date.now });
  makeRows(years, PULLS);
  makeAnew(years.connection);
  years.close();
}

/** In the page: from the key as the system timed it to the second frame in which the view stands there. */
async function switched(page: Page, place: string, key: string, filledBy: string): Promise<number> {
  await page.evaluate(
    ([where, what, limitMs]) => {
      Object.assign(globalThis, {
        viewIsThere: new Promise<number>((resolve) => {
          addEventListener(
            'keydown',
            ({ timeStamp }) => {
              const look = (): void => {
                const isThere = document.querySelector(`main[data-place="${where}"] ${what}`) !== null;
                if (!isThere && performance.now() - timeStamp < limitMs) requestAnimationFrame(look);
                // Drawn in this frame, on the screen before the next one.
                else requestAnimationFrame(() => resolve(isThere ? performance.now() - timeStamp : Infinity));
              };
              requestAnimationFrame(look);
            },
            { once: true, capture: true },
          );
        }),
      });
    },
    [place, filledBy, WAIT_MS_MAX] as const,
  );
  await page.keyboard.press(key);
  return page.evaluate(() => (globalThis as unknown as { viewIsThere: Promise<number> }).viewIsThere);
}

/** How the table is gone along, and by what. */
const WAYS: readonly (readonly [way: string, step: (page: Page) => Promise<void>])[] = [
  ['nothing pressed', () => Promise.resolve()],
  ['arrow down', (page) => page.keyboard.press('ArrowDown')],
  ['Page Down', (page) => page.keyboard.press('PageDown')],
  ['wheel', (page) => page.mouse.wheel(0, WHEEL_PX)],
];

/** Frame times while it is gone along; it stands at its top before. */
async function alongTable(page: Page, step: (page: Page) => Promise<void>): Promise<number[]> {
  await page.locator('#found-pulls').focus();
  await page.keyboard.press('Home');
  await page.locator('#found-pulls').hover();
  const { frames } = await framesDuring(page, async () => {
    for (let taken = 0; taken < STEPS; taken++) {
      await step(page);
      await wait(STEP_PAUSE_MS);
    }
  });
  return frames;
}

const window = await GaugemarkWindow.open({ folder });
const notes: string[] = [];
const along = new Map<string, number[]>();
const times = new Map<string, number[]>(PLACES.map(([place]) => [place, []]));
try {
  await window.connected();
  const { page } = window;
  for (const [place, key, filledBy] of PLACES) await switched(page, place, key, filledBy);
  await watchLongFrames(page);
  const stalls = new MachineStalls();
  for (let round = 0; round < ROUNDS; round++)
    for (const [place, key, filledBy] of PLACES)
      times.get(place)?.push(await switched(page, place, key, filledBy));
  notes.push(stalls.told(), ...(await takeLongFrames(page, LONG_FRAMES_TOLD)).map(longFrameText));
  await switched(page, 'archive', 'Alt+8', '.found-rows .open-pull');
  for (const [way, step] of WAYS) along.set(way, await alongTable(page, step));
} finally {
  await window.end();
}

const rows: Row[] = [...times].map(([place, ms]) => ({
  what: place,
  floor: '',
  ratio: '',
  measured: `p50 ${short(shareOf(ms, 0.5))} ms, longest ${short(Math.max(...ms))} ms`,
  spread: spreadText(ms),
  goal: goalText(`≤ ${String(GOAL_MS)} ms`, Math.max(...ms) <= GOAL_MS),
}));
printTable(`Going to a view, ${String(PULLS)} pulls in the archive, ${String(ROUNDS)} times each`, rows, [
  'From the key to the frame after the one in which the view stands there with its content.',
  ...notes,
]);

const still = along.get('nothing pressed') ?? [];
printTable(
  `Along the table of ${String(PULLS)} pulls, ${String(STEPS)} steps, one every ${String(STEP_PAUSE_MS)} ms or as soon as the one before was taken`,
  [...along].slice(1).map(([way, frames]) => ({
    what: `frames: ${way}`,
    floor: `${short(median(still))} ms, p95 ${short(shareOf(still, 0.95))} (nothing pressed)`,
    measured: `${short(median(frames))} ms, p95 ${short(shareOf(frames, 0.95))}`,
    ratio: `${short(median(frames) / median(still))} ×`,
    spread: spreadText(frames),
    goal: '',
  })),
);
