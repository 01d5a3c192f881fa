/**
 * What is looked at in the archive, by the real mouse: an opened pull's values held against evaluation and readings, the
 * elastic window dragged, its curve and curves over each other zoomed and moved.
 */
import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { PageRequestOf } from '../../core/contract/bridge.ts';
import type { ReplyOf } from '../../core/contract/index.ts';
import { UNITS, type UnitSymbol, convert } from '../../core/quantity/units.ts';
import { archiveOfMany } from './support/archive-of-many.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';
import { wholePicture } from './support/whole-picture.ts';

const PULLS = 2;
const { folder, remove } = scratchFolder();
let window: GaugemarkWindow;
let page: Page;

beforeAll(async () => {
  archiveOfMany(folder, PULLS, () => ({
    geometry: { kind: 'round', diameter: '5.003 mm' },
    extensometerGaugeLength: '25 mm',
  })).close();
  window = await GaugemarkWindow.open({ folder });
  ({ page } = window);
  await window.connected();
  await page.keyboard.press('Control+f');
  await page.getByText(`${String(PULLS)} pulls`).waitFor();
});
afterAll(async () => {
  await window.end();
  remove();
});

const isUnit = (text: string | undefined): text is UnitSymbol => Object.hasOwn(UNITS, text ?? '');
const plain = (text: string | null): number => Number((text ?? '').replaceAll(/[^\d.\-−]/gu, ''));
/** "1 234.5 psi" in this unit. */
const amount = (shown: string, unit: UnitSymbol): number => {
  const [, number = '', its = ''] = /^([\d.,\u202f−-]+)\s*(\w+)$/u.exec(shown) ?? [];
  if (!isUnit(its)) throw new Error(`"${shown}" has no unit`);
  return convert(plain(number), its, unit);
};
async function evaluated(
  options: PageRequestOf<'pull.evaluate'>['options'] = {},
): Promise<ReplyOf<'pull.evaluate'>> {
  const answer = await window.request('pull.evaluate', { pullId: PULLS, options });
  if (!answer.ok) throw new Error(answer.fault.sentence);
  return answer.value;
}

it('an opened pull shows the values of its record', async () => {
  await page.getByRole('button', { name: `Open the pull of K-${String(PULLS)}`, exact: true }).click();
  await page.locator('.result-row[data-symbol="Rm"]').waitFor();

  // Each result as the evaluation gives it, rounded by its rule in the unit that is shown.
  const { results } = await evaluated();
  const shown = await page
    .locator('.result-row')
    .evaluateAll((rows) => rows.map((row) => (row.getAttribute('data-row') ?? '').split('\t')));
  expect(shown.length).toBeGreaterThan(5);
  for (const symbol of ['Fm', 'Rm', 'Rp0.2', 'mE']) {
    const [, , text, unit] = shown.find((row) => row[0] === symbol) ?? [];
    const result = results.find((one) => one.symbol === symbol);
    if (result === undefined || !isUnit(unit)) throw new Error(`${symbol} in ${String(unit)}`);
    const rounded = result.rounded.find((one) => one.unit === unit)?.value;
    // To the last digit where its rule gives one in this unit; else as it is shown, to three figures or more.
    if (rounded !== undefined) expect(plain(text ?? ''), symbol).toBe(rounded);
    else expect(plain(text ?? '') / convert(result.value, result.unit, unit), symbol).toBeCloseTo(1, 2);
  }
  // The points of the picture, as its table has them: the largest load is Fm, the last reading the last of the record.
  const table = page.locator('.kept-plots .key-values');
  await table.locator('tbody tr').last().waitFor({ state: 'attached' });
  const rows = await table
    .locator('tbody tr')
    .evaluateAll((all) => all.map((row) => [...row.children].map((cell) => cell.textContent)));
  const pull = await window.request('pull.get', { pullId: PULLS });
  if (!pull.ok) throw new Error(pull.fault.sentence);
  expect(plain(rows.at(-1)?.[1] ?? '')).toBe(pull.value.readingCount - 1);
  const fmN = results.find((result) => result.symbol === 'Fm')?.value ?? Number.NaN;
  const loads = rows.map((row) => amount(row[3] ?? '', 'N'));
  expect(Math.max(...loads) / fmN).toBeCloseTo(1, 3);
  // Copied, each value is a number to a spreadsheet, and its unit stands over it.
  await table.locator('summary').click();
  await table.locator('summary').focus();
  await page.keyboard.press('Control+C');
  await page.getByText(/^\d+ lines copied/).waitFor();
  const copied = await window.app.evaluate(({ clipboard }) => clipboard.readText());
  const [head = [], ...lines] = copied.split('\n').map((line) => line.split('\t'));
  expect(lines).toHaveLength(rows.length);
  expect(head[3]).toMatch(/^Load, (N|kN|lbf)$/);
  for (const [name, ...cells] of lines)
    for (const cell of cells) expect(Number(cell), `${String(name)}: ${cell}`).not.toBeNaN();
});

it('its curve is zoomed about the pointer by the wheel, goes with a drag, and is walked along by keys', async () => {
  const plot = page.locator('.kept-plots .curve-plot-canvas').first();
  const said = page.locator('.kept-plots .curve-plot output').first();
  const box = await plot.boundingBox();
  if (box === null) throw new Error('the plot is not seen');
  /** Over the steep beginning, where a step to the right is many readings along. */
  const at = { x: box.x + box.width * 0.5, y: box.y + box.height * 0.3 };
  /** Reading told with the pointer there; it is moved off first, so that a move comes. */
  const readingAt = async ({ x, y }: Place): Promise<number> => {
    await page.mouse.move(x + 1, y);
    await page.mouse.move(x, y);
    await page.evaluate(
      () => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))),
    );
    return plain(/(?:Reading) ([\d\u202f]+)/u.exec((await said.textContent()) ?? '')?.[1] ?? '');
  };
  const beside = { x: at.x + 60, y: at.y };
  const first = await readingAt(at);
  const apart = Math.abs((await readingAt(beside)) - first);
  expect(apart).toBeGreaterThan(8);

  await page.mouse.move(at.x, at.y);
  for (let notch = 0; notch < 5; notch++) await page.mouse.wheel(0, -100);
  // 1.25⁵ is three: what lay sixty pixels away is three times as far, and the place itself stays where it is.
  await expect.poll(async () => Math.abs((await readingAt(beside)) - first)).toBeLessThan(apart / 2);
  expect(Math.abs((await readingAt(at)) - first)).toBeLessThan(apart / 2);

  const here = await readingAt(at);
  await page.mouse.down();
  await page.mouse.move(at.x + 90, at.y + 30, { steps: 5 });
  await page.mouse.up();
  await expect.poll(() => readingAt({ x: at.x + 90, y: at.y + 30 })).toBe(here);

  // The peak is taken into the picture, and all of it is seen again.
  await plot.focus();
  await plot.press('p');
  const peak = (await said.textContent()) ?? '';
  expect(peak).toMatch(/^Reading \d/);
  await plot.press('ArrowRight');
  await expect.poll(() => said.textContent()).not.toBe(peak);
  await plot.press('y');
  await expect.poll(() => said.textContent()).not.toBe(peak);
  await plot.press('Escape');
  await page.getByRole('button', { name: 'All of Load – extension' }).click();
  await expect.poll(() => readingAt(at)).toBe(first);
});

interface Place {
  readonly x: number;
  readonly y: number;
}

it('the end of the fitted stretch goes with the mouse, picture and all standing still, and the new slope is worked out', async () => {
  await page.locator('#evaluate-again').click();
  await page.locator('.evaluation-group summary', { hasText: 'Elastic slope and toe' }).click();
  const end = (which: 'lower' | 'upper') => page.locator(`#slope-${which}Mpa`);
  const placeOf = async (which: 'lower' | 'upper'): Promise<Place & { mpa: number }> => {
    const box = await end(which).boundingBox();
    if (box === null) throw new Error('the end is not seen');
    return {
      x: box.x + box.width / 2,
      y: box.y + box.height / 2,
      mpa: amount((await end(which).getAttribute('aria-valuetext')) ?? '', 'MPa'),
    };
  };
  await end('upper').evaluate((element) => element.scrollIntoView({ block: 'center' }));
  // Opened, the sheet takes its place over some frames: where the ends are once it stands still and nothing lies over them.
  let stood = '';
  await expect
    .poll(async () => {
      const [lower, upper] = [await placeOf('lower'), await placeOf('upper')];
      const on = await page.evaluate(
        ({ x, y }) => document.elementFromPoint(x, y)?.closest('[id]')?.id,
        upper,
      );
      const now = JSON.stringify([lower, upper, on]);
      const isStill = now === stood && on === 'slope-upperMpa';
      stood = now;
      return isStill;
    })
    .toBe(true);
  const [lower, upper] = [await placeOf('lower'), await placeOf('upper')];
  // Down by half of the stretch: its first move makes the entries of a window by hand.
  const down = Math.round((lower.y - upper.y) / 2);
  await page.mouse.move(upper.x, upper.y);
  await page.mouse.down();
  await page.mouse.move(upper.x, upper.y + down, { steps: 8 });
  await page.locator('#evaluation-slopeUpper').waitFor();
  const wanted = upper.mpa - (down * (upper.mpa - lower.mpa)) / (lower.y - upper.y);
  // A pixel is 6 MPa here.
  await expect.poll(async () => Math.abs((await placeOf('upper')).mpa - wanted)).toBeLessThan(6);
  expect(Math.abs((await placeOf('upper')).y - upper.y - down)).toBeLessThan(1.5);
  expect(Math.abs((await placeOf('lower')).y - lower.y)).toBeLessThan(0.5);
  await page.mouse.up();

  const changed = page.locator('.comparison [data-changed="mE"] td');
  await changed.first().waitFor();
  const [before, after] = (await changed.allTextContents()).map((shown) => amount(shown, 'MPa'));
  // The window as the entries say it, in ksi.
  const typed = async (entry: string) =>
    amount(await page.locator(`#evaluation-${entry}`).inputValue(), 'MPa');
  const slopeWindow = { lowerMpa: await typed('slopeLower'), upperMpa: await typed('slopeUpper') };
  const slopeOf = ({ results }: ReplyOf<'pull.evaluate'>): number =>
    results.find(({ symbol }) => symbol === 'mE')?.value ?? Number.NaN;
  // As they are shown, to the digits that its rule leaves.
  expect((before ?? Number.NaN) / slopeOf(await evaluated())).toBeCloseTo(1, 2);
  expect((after ?? Number.NaN) / slopeOf(await evaluated({ slopeWindow }))).toBeCloseTo(1, 2);
  expect(after).not.toBe(before);
  await page.keyboard.press('Escape');
  await page.locator('.evaluation-sheet').waitFor({ state: 'detached' });
});

it('curves over each other are moved by a drag, zoomed about the pointer by the wheel, and seen whole again by two clicks', async () => {
  await page.getByRole('button', { name: 'Back to the list' }).click();
  await page.locator('#mark-all').click();
  await page.locator('#lay-over').click();
  await expect.poll(() => page.locator('.overlay-legend li[data-state="ready"]').count()).toBe(PULLS);
  const plot = page.locator('#overlay-plot');
  const peak = await standsAt(() => peakOf(plot));

  // It goes with the hand.
  const by = { x: 70, y: 90 };
  await page.mouse.move(peak.x, peak.y + 40);
  await page.mouse.down();
  await page.mouse.move(peak.x + by.x, peak.y + 40 + by.y, { steps: 8 });
  await page.mouse.up();
  const moved = { x: peak.x + by.x, y: peak.y + by.y };
  await isAt(() => peakOf(plot), moved);

  // Two notches about a place beside it: all is 1.25² times as far from there.
  const about = { x: moved.x + 60, y: moved.y + 40 };
  await page.mouse.move(about.x, about.y);
  for (let notch = 0; notch < 2; notch++) await page.mouse.wheel(0, -100);
  await isAt(() => peakOf(plot), { x: about.x - 60 * 1.25 ** 2, y: about.y - 40 * 1.25 ** 2 });

  await page.mouse.dblclick(about.x, about.y);
  await isAt(() => peakOf(plot), peak);
});

/** Where the cursor's two hairs cross when it stands on the peak: what is drawn then and not without it. */
async function peakOf(plot: Locator): Promise<Place | null> {
  const keep = async () => {
    const picture = await wholePicture(plot);
    return picture.canvas.evaluate((canvas, box) => {
      const { width, height } = canvas;
      const seen = globalThis as unknown as { pixels?: Uint8ClampedArray };
      const before = seen.pixels;
      const now = canvas.getContext('2d')?.getImageData(0, 0, width, height).data;
      if (now === undefined) throw new Error('there is no picture');
      seen.pixels = now;
      if (before?.length !== now.length) return null;
      const [rows, columns] = [new Float64Array(height), new Float64Array(width)];
      for (let y = 0; y < height; y++)
        for (let x = 0; x < width; x++) {
          const at = 4 * (y * width + x);
          const change = Math.abs((now[at + 1] ?? 0) - (before[at + 1] ?? 0));
          rows[y] = (rows[y] ?? 0) + change;
          columns[x] = (columns[x] ?? 0) + change;
        }
      /** The middle of the line, which may lie across two pixels. */
      const lineOf = (sums: Float64Array): number => {
        const at = sums.indexOf(Math.max(...sums));
        const [a, b, c] = [sums[at - 1] ?? 0, sums[at] ?? 0, sums[at + 1] ?? 0];
        return at + 0.5 + (c - a) / (a + b + c || 1);
      };
      return {
        x: box.left + (lineOf(columns) * box.width) / width,
        y: box.top + (lineOf(rows) * box.height) / height,
      };
    }, picture.box);
  };
  // With a cursor Escape takes it away; without one it would leave the place.
  await plot.press('p');
  await plot.press('Escape');
  await keep();
  await plot.press('p');
  return keep();
}

/** The place, once it is the same twice. */
async function standsAt(look: () => Promise<Place | null>): Promise<Place> {
  let stood = null as Place | null;
  await expect
    .poll(async () => {
      const now = await look();
      const isStill = now !== null && JSON.stringify(now) === JSON.stringify(stood);
      stood = now;
      return isStill;
    })
    .toBe(true);
  if (stood === null) throw new Error('it never stands still');
  return stood;
}

/** To two pixels. */
async function isAt(look: () => Promise<Place | null>, wanted: Place): Promise<void> {
  await expect
    .poll(async () => {
      const now = await look();
      return now !== null && Math.hypot(now.x - wanted.x, now.y - wanted.y) < 2 ? wanted : now;
    })
    .toEqual(wanted);
}
