/**
 * Opening a pull of 10⁶ readings in the real window: from the press of its row to its first picture, against reading and
 * decoding all of its blocks in the same run. The window is open, its table shown, and the pull was opened before.
 */
import { Archive } from '../../core/archive/archive.ts';
import { GaugemarkWindow, archiveIn } from '../app/support/gaugemark-window.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { chunksOfLines, makePull } from './support/made-pull.ts';
import { PROFILE } from './support/pull-lines.ts';
import { alternate, milliseconds, wait } from './support/rounds.ts';
import { comparedRow, printTable } from './support/table.ts';

const READINGS = 1_000_000;
const ROUNDS = 7;
/** Scales alone ink some hundred points; a curve of this window some thousands. */
const INKED_POINTS = 1_500;

const folder = benchFolder();
const archivePath = archiveIn(folder);
const openArchive = (path: string): Archive =>
  new Archive(path, { programVersion: 'bench', wallMs: Date.now });

/** The window has the one it shows for itself alone, so the blocks are read from a second one, of the same pull. */
const beside = openArchive(`${archivePath}-beside`);
const order = { profile: PROFILE, chunksPerBatch: 64 };
const { pullId } = makePull({ ...order, archive: beside, chunks: chunksOfLines(READINGS, 16) });
const shown = openArchive(archivePath);
makePull({ ...order, archive: shown, chunks: chunksOfLines(READINGS, 16) });
shown.close();

const window = await GaugemarkWindow.open({ folder });
const { page } = window;

function openedMs(): Promise<number> {
  return page.evaluate(
    (inked) =>
      new Promise<number>((resolve) => {
        const from = performance.now();
        document.querySelector<HTMLElement>('.open-pull')?.click();
        const look = (): void => {
          let points = 0;
          for (const canvas of document.querySelectorAll<HTMLCanvasElement>('.opened canvas')) {
            const drawn = canvas
              .getContext('2d')
              ?.getImageData(0, 0, Math.max(canvas.width, 1), Math.max(canvas.height, 1)).data;
            for (let i = 3; i < (drawn?.length ?? 0); i += 4) if ((drawn?.[i] ?? 0) > 0) points++;
          }
          if (points >= inked) resolve(performance.now() - from);
          else requestAnimationFrame(look);
        };
        look();
      }),
    INKED_POINTS,
  );
}

async function openedAndLeftMs(): Promise<number> {
  const ms = await openedMs();
  // What is still read and evaluated of it belongs to no round.
  await wait(3_000);
  await page.keyboard.press('Escape');
  await page.locator('.opened').waitFor({ state: 'detached' });
  await wait(500);
  return ms;
}

try {
  await window.connected();
  await page.locator('#go-archive').click();
  await page.locator('.open-pull').first().waitFor();
  await openedAndLeftMs();
  for (let i = 0; i < 3; i++) beside.curve(pullId);
  const { floor, measured } = await alternate(ROUNDS, {
    floor: () => milliseconds(() => beside.curve(pullId)),
    measured: openedAndLeftMs,
  });
  printTable('Opening a long pull', [
    comparedRow({
      what: '10⁶ readings, from the press to the first picture',
      unit: 'ms',
      floor,
      measured,
      atMost: 2,
    }),
  ]);
} finally {
  await window.end();
  beside.close();
}
