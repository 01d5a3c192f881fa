/** What is read at the frame, measured in the real window: height of digits, and that nothing is cut off or covered. */
import type { CDPSession, Page } from 'playwright';
import { afterAll, beforeAll, expect, it } from 'vitest';
import {
  enterSpecimen,
  listenToSimulatedFrame,
  makeReady,
  stateIs,
  station,
} from '../../electron/setup/demonstration-pull.mjs';
import { DIGIT_SIZES } from '../../renderer/store/view-settings.ts';
import { GaugemarkWindow, scratchFolder } from './support/gaugemark-window.ts';
import { chooseSi } from './support/simulated-readout.ts';
import { until } from './support/until.ts';

const SIZES = [
  [1024, 700],
  [1366, 768],
  [1920, 1080],
  [3840, 2160],
] as const;
/** Issue 7. CSS: 96 px are 25.4 mm. */
const DIGIT_MM_MIN = 13;
/** Hinting and whole pixels. */
const OFF_MM = 0.3;
/** A plot that is lower shows no course any more: the least is where 25 mm high digits with tenths of lbf fill the smallest window. */
const PLOT_PX_MIN = 85;

const { folder, remove } = scratchFolder();
let window: GaugemarkWindow;
let page: Page;
let tools: CDPSession;

beforeAll(async () => {
  window = await GaugemarkWindow.open({ folder });
  ({ page } = window);
  tools = await page.context().newCDPSession(page);
  await window.connected();
  await chooseSi(page);
  await enterSpecimen(page, 'D-1');
  await listenToSimulatedFrame(page);
  await station(page, 'Pull').click();
  await makeReady(page);
  await stateIs(page, ['pulling']);
});
afterAll(async () => {
  await window.end();
  remove();
});

interface Shown {
  readonly name: string;
  readonly mm: number;
  readonly family: boolean;
  /** Ink of the digits. */
  readonly ink: Box;
  /** Name, digits and unit together. */
  readonly whole: Box;
  readonly nameBottom: number;
}
interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Measured with the page's own canvas in the font that the figure really has. */
function figures(): Promise<{
  shown: Shown[];
  frame: Box;
  plots: number[];
  footBottom: number;
  height: number;
}> {
  return page.evaluate(() => {
    const context = document.createElement('canvas').getContext('2d');
    if (context === null) throw new Error('no canvas');
    const box = ({ left, top, right, bottom }: DOMRect) => ({ left, top, right, bottom });
    const textBox = (node: Node): DOMRect => {
      const range = document.createRange();
      range.selectNodeContents(node);
      return range.getBoundingClientRect();
    };
    const shown = [...document.querySelectorAll('.figure')].map((figure) => {
      const part = (name: string): HTMLElement => {
        const found = figure.querySelector<HTMLElement>(name);
        if (found === null) throw new Error(name);
        return found;
      };
      const number = part('.figure-number');
      const style = getComputedStyle(number);
      context.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
      const zero = context.measureText('0');
      const seven = context.measureText('7');
      const text = textBox(number);
      const baseline = text.top + zero.fontBoundingBoxAscent;
      const name = part('.figure-name');
      const nameStyle = getComputedStyle(name);
      const unit = textBox(part('.figure-unit'));
      context.font = `${nameStyle.fontWeight} ${nameStyle.fontSize} ${nameStyle.fontFamily}`;
      const nameText = textBox(name);
      return {
        name: name.textContent,
        mm: (Math.min(zero.actualBoundingBoxAscent, seven.actualBoundingBoxAscent) / 96) * 25.4,
        family: document.fonts.check(`700 16px B612`) && style.fontFamily.startsWith('B612'),
        ink: {
          left: text.left,
          top: baseline - zero.actualBoundingBoxAscent,
          right: text.right,
          bottom: baseline + zero.actualBoundingBoxDescent,
        },
        whole: {
          left: Math.min(text.left, nameText.left),
          top: nameText.top,
          right: Math.max(unit.right, nameText.right),
          bottom: baseline + zero.actualBoundingBoxDescent,
        },
        nameBottom:
          nameText.top +
          context.measureText(name.textContent).fontBoundingBoxAscent +
          context.measureText('g').actualBoundingBoxDescent,
      };
    });
    const frame = document.querySelector('.figures');
    const foot = document.querySelector('.pull-foot');
    if (frame === null || foot === null) throw new Error('the pull is not shown');
    return {
      shown,
      frame: box(frame.getBoundingClientRect()),
      plots: [...document.querySelectorAll('.curve-plot-canvas')].map((plot) => plot.clientHeight),
      footBottom: foot.getBoundingClientRect().bottom,
      height: innerHeight,
    };
  });
}

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

async function chooseDigits(chosen: string): Promise<void> {
  await until(async () => {
    const now = await page.evaluate(
      () =>
        (JSON.parse(localStorage.getItem('gaugemark.view') ?? '{}') as { digitsMm?: string }).digitsMm ??
        'fit',
    );
    if (now === chosen) return true;
    await page.keyboard.press('Control+d');
    return false;
  }, `digits are ${chosen}`);
}

/** Until layout and drawing have followed the size. */
async function sized(width: number, height: number): Promise<void> {
  await tools.send('Emulation.setDeviceMetricsOverride', {
    width,
    height,
    deviceScaleFactor: 1,
    mobile: false,
  });
  await until(
    () =>
      page.evaluate(
        ([w, h]) =>
          innerWidth === w &&
          innerHeight === h &&
          [...document.querySelectorAll('.curve-plot-canvas')].every((plot) => {
            const canvas = plot.querySelector('canvas');
            return canvas !== null && Math.abs(canvas.clientHeight - plot.clientHeight) <= 1;
          }),
        [width, height] as const,
      ),
    `the page has ${String(width)} × ${String(height)} px`,
  );
}

it.each(DIGIT_SIZES.flatMap((chosen) => SIZES.map(([width, height]) => ({ chosen, width, height }))))(
  'digits "$chosen" in $width × $height px are 13 mm high at least, and nothing is cut off or covered',
  async ({ chosen, width, height }) => {
    await chooseDigits(chosen);
    await sized(width, height);
    for (const units of ['SI', 'US']) {
      await page.getByRole('radio', { name: units }).check({ force: true });
      const { shown, frame, plots, footBottom, height: inner } = await figures();
      expect(shown.map(({ name }) => name.replace('SIMULATED', ''))).toEqual([
        'Load',
        'Peak',
        'Extension',
        'Load rate',
        'Extension rate',
      ]);
      for (const figure of shown) {
        expect(figure.family).toBe(true);
        expect(figure.mm, figure.name).toBeGreaterThanOrEqual(DIGIT_MM_MIN - OFF_MM);
        expect(figure.ink.top, `${figure.name} under its digits`).toBeGreaterThanOrEqual(
          figure.nameBottom - 1,
        );
        expect(figure.whole.left, figure.name).toBeGreaterThanOrEqual(frame.left);
        expect(figure.whole.right, figure.name).toBeLessThanOrEqual(frame.right + 0.5);
        expect(figure.whole.top, figure.name).toBeGreaterThanOrEqual(frame.top - 0.5);
        expect(figure.ink.bottom, figure.name).toBeLessThanOrEqual(frame.bottom + 0.5);
      }
      shown.forEach((one, i) =>
        shown.slice(i + 1).forEach((other) => {
          expect(overlap(one.whole, other.whole), `${one.name} over ${other.name}`).toBe(false);
        }),
      );
      const [load, ...others] = shown.map(({ mm }) => mm);
      if (chosen !== 'fit') {
        const wanted = Number(chosen);
        expect(load).toBeGreaterThan(wanted - OFF_MM);
        expect(load).toBeLessThan(wanted + 2 * OFF_MM);
        // A window with room for it gives every figure what was chosen.
        if (width === 3840) for (const mm of others) expect(mm).toBeGreaterThan(wanted - OFF_MM);
      }
      for (const mm of others) expect(mm).toBeLessThanOrEqual((load ?? 0) + OFF_MM);
      for (const plot of plots) expect(plot).toBeGreaterThan(PLOT_PX_MIN);
      expect(footBottom).toBeLessThanOrEqual(inner);
    }
  },
);

it('tells the time at the head of the plot over time', async () => {
  expect(await page.locator('.plots .elapsed').innerText()).toMatch(/^Time \d+:\d\d\.\d min:s$/);
});

it('has the key values as a table that is renewed while it is open, says nothing by itself, and is copied', async () => {
  const table = page.locator('#live-values');
  await table.locator('summary').click();
  const rows = (): Promise<string[][]> =>
    table
      .locator('tbody tr')
      .evaluateAll((all) =>
        all.map((row) => [...(row as HTMLTableRowElement).cells].map((cell) => cell.textContent)),
      );
  await until(async () => (await rows()).length >= 3, 'the rows stand there');
  const [start, peak, now] = await rows();
  expect([start?.[0], peak?.[0], now?.[0]]).toEqual(['start', 'peak', 'now']);
  const before = Number(now?.[1]);
  await until(async () => Number((await rows())[2]?.[1]) > before, 'the present reading goes on');
  // What is renewed every second must not be read aloud every second.
  expect(await table.locator('[aria-live], [role="status"]').count()).toBe(0);
  expect(await table.evaluate((node) => node.closest('[aria-live]'))).toBeNull();
  await table.locator('summary').focus();
  const copied = await page.evaluate(() => {
    const clipboardData = new DataTransfer();
    document.activeElement?.dispatchEvent(
      new ClipboardEvent('copy', { bubbles: true, cancelable: true, clipboardData }),
    );
    return clipboardData.getData('text/plain');
  });
  const lines = copied.split('\n').map((line) => line.split('\t'));
  expect(lines[0]?.[0]).toBe('Point');
  expect(lines.map(({ length }) => length)).toEqual(lines.map(() => lines[0]?.length));
  expect(lines.slice(1).map(([name]) => name)).toEqual(['start', 'peak', 'now']);
  await table.locator('summary').click();
});
