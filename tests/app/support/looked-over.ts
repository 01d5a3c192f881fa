/** The page as axe-core and a ruler see it: what is at fault in the present view, in the looks that were chosen. */
import axe from 'axe-core';
import type { Page } from 'playwright';

/** The page's policy lets in nothing from outside; the driver puts it there as the debugger would. */
export async function bringAxe(page: Page): Promise<void> {
  await page.evaluate(axe.source);
}

/** What depends on the colours alone. */
const OF_COLOURS: axe.RunOptions = { runOnly: { type: 'rule', values: ['color-contrast'] } };
/** What depends on words and shape; colours are the same in any language. */
const OF_WORDS: axe.RunOptions = { rules: { 'color-contrast': { enabled: false } } };

/** One line for each element at fault. */
async function axeFaults(page: Page, options: axe.RunOptions, within = 'html'): Promise<string[]> {
  return page.evaluate(
    async ([given, part]) => {
      const { axe: here } = globalThis as unknown as { axe: typeof axe };
      // What lies below a sheet was looked at before it was opened.
      const context = document.querySelector('dialog[open]') ?? document.querySelector(part) ?? document;
      // Nothing of a style sheet that was loaded from elsewhere has to be looked at: there is none.
      const found = await here.run(context, { resultTypes: ['violations'], preload: false, ...given });
      return found.violations.flatMap(({ id, help, nodes }) =>
        nodes.map(
          ({ html, any }) =>
            `${id} (${help}): ${html.slice(0, 200)} ${any.map((one) => one.message).join(' ')}`,
        ),
      );
    },
    [options, within] as const,
  );
}

/** Everything that a hand in a glove has to hit: at least 44 px each way (WCAG 2.2, 2.5.5 "Target Size (Enhanced)"). */
const MAIN_TARGETS = '.act, .stop, .places label, .choice label, .pull summary';
const MAIN_TARGET_PX = 44;
/** Everything else that is pressed: at least 24 px (WCAG 2.2, 2.5.8 "Target Size (Minimum)"), or a line of text. */
const TARGETS = 'button, select, summary, input:not([type="checkbox"], [type="radio"], [type="file"])';
const TARGET_PX = 24;

function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(
    (sizes) =>
      sizes.flatMap(([targets, least]) =>
        [...document.querySelectorAll(targets)]
          .map((element) => ({ element, box: element.getBoundingClientRect() }))
          // Half a pixel is how boxes are rounded; what is for ears only has one pixel.
          .filter(({ box }) => box.width > 1 && Math.min(box.width, box.height) < least - 0.5)
          .map(
            ({ element, box }) =>
              `target of ${box.width.toFixed(0)} × ${box.height.toFixed(0)} px, ${String(least)} wanted: ${element.outerHTML.slice(0, 120)}`,
          ),
      ),
    [
      [MAIN_TARGETS, MAIN_TARGET_PX],
      [TARGETS, TARGET_PX],
    ] as const,
  );
}

/** As the system asks for them; the page follows. */
export const GROUNDS = {
  chalk: { colorScheme: 'light', contrast: 'no-preference' },
  soot: { colorScheme: 'dark', contrast: 'no-preference' },
  contrast: { colorScheme: 'dark', contrast: 'more' },
} as const;

export type Ground = keyof typeof GROUNDS;
export const ALL_GROUNDS = Object.keys(GROUNDS) as Ground[];

/** Everything on the light ground; on the others what depends on colours, and the size of targets. */
export async function faultsIn(
  page: Page,
  view: string,
  grounds: readonly Ground[],
  isFirst = true,
): Promise<string[]> {
  const faults: string[] = [];
  for (const ground of grounds) {
    await page.emulateMedia(GROUNDS[ground]);
    await page.locator(`html[data-theme="${ground}"]`).waitFor();
    // The rail is the same above all of them.
    const found = await axeFaults(
      page,
      ground === 'chalk' ? {} : OF_COLOURS,
      ground === 'chalk' || isFirst ? 'html' : 'main',
    );
    found.push(...(await smallTargets(page)));
    faults.push(...found.map((fault) => `${view}, ${ground}: ${fault}`));
  }
  return faults;
}

/** Names, roles and targets in another language: longer words, other places. */
export async function faultsInWords(page: Page, view: string): Promise<string[]> {
  const found = await axeFaults(page, OF_WORDS);
  found.push(...(await smallTargets(page)));
  return found.map((fault) => `${view}: ${fault}`);
}

/**
 * What can't be read or reached any more: the page goes sideways, or something that is pressed or written into is cut by
 * a box that doesn't scroll, or stands where no scrolling leads (WCAG 2.2, 1.4.10 "Reflow", 1.4.4 "Resize Text").
 */
export async function lostIn(page: Page, view: string): Promise<string[]> {
  const found = await page.evaluate(() => {
    const lost: string[] = [];
    const top = document.querySelector('dialog[open]') ?? document.body;
    const said = (element: Element): string => element.outerHTML.slice(0, 140);
    if (document.documentElement.scrollWidth > innerWidth + 1)
      lost.push(
        `the page is ${String(document.documentElement.scrollWidth)} px wide of ${String(innerWidth)}`,
      );
    const scrolls = (value: string): boolean => value === 'auto' || value === 'scroll';
    for (const element of top.querySelectorAll<HTMLElement>(
      'button, input, select, textarea, summary, h1, h2, h3, p, dt, dd, label',
    )) {
      const box = element.getBoundingClientRect();
      if (box.width <= 1 || box.height <= 1 || getComputedStyle(element).visibility === 'hidden') continue;
      if (element.closest('.heard, [inert]') !== null) continue;
      // Text that is wider than its own box, which cuts it.
      const own = getComputedStyle(element);
      if (
        !element.matches('input, select, textarea') &&
        own.overflowX !== 'visible' &&
        !scrolls(own.overflowX) &&
        own.textOverflow !== 'ellipsis' &&
        element.scrollWidth > element.clientWidth + 1
      )
        lost.push(`its own box cuts it: ${said(element)}`);
      let scrolled = { x: false, y: false };
      for (let around = element.parentElement; around !== null; around = around.parentElement) {
        const style = getComputedStyle(around);
        scrolled = {
          x: scrolled.x || scrolls(style.overflowX),
          y: scrolled.y || scrolls(style.overflowY),
        };
        const edge = around.getBoundingClientRect();
        const cutsX = !scrolled.x && (style.overflowX === 'hidden' || style.overflowX === 'clip');
        const cutsY = !scrolled.y && (style.overflowY === 'hidden' || style.overflowY === 'clip');
        if (
          (cutsX && (box.right > edge.right + 1 || box.left < edge.left - 1)) ||
          (cutsY && box.bottom > edge.bottom + 1)
        )
          lost.push(`${around.tagName}.${around.className} cuts it: ${said(element)}`);
        if (around === top) break;
      }
      if (!scrolled.x && (box.right > innerWidth + 1 || box.left < -1))
        lost.push(`beside the window: ${said(element)}`);
    }
    return lost;
  });
  return found.map((fault) => `${view}: ${fault}`);
}

/** More than one button that stands for the next step, which Ctrl+Enter presses: the first of them may be the wrong one. */
export async function severalCalls(page: Page, view: string): Promise<string[]> {
  const calls = await page.evaluate(() => {
    const top = document.querySelector('dialog[open]') ?? document.querySelector('main.sheet');
    return [...(top?.querySelectorAll('.act.call:not([aria-disabled="true"])') ?? [])].map(
      (one) => one.outerHTML,
    );
  });
  return calls.length < 2
    ? []
    : [`${view}: ${String(calls.length)} next steps: ${calls.join(' ').slice(0, 300)}`];
}

/** What a place without anything in it says to do, in words that name it; and that there is something to do it with. */
const EMPTY_SAYS: Readonly<Record<string, RegExp>> = {
  set: /Make a set/,
  specimen: /Keep this specimen/,
  readout: /Choose where readings come from and listen/,
  pull: /No specimen yet\. Enter it first/,
  fracture: /There is no pull yet\. Make one, or open one from the archive/,
  result: /There is no pull yet\. Make one, or open one from the archive/,
  certificate: /open a set, or make a pull first/,
  archive: /Measure a specimen, listen to a readout.* and pull; or import a file/,
  instruments: /Enter an instrument/,
  people: /Enter a person/,
  'self-check': /Run the self-check/,
};

/** Of a view that is named "place, empty"; nothing is asked of others. */
export async function emptyWithoutWay(page: Page, view: string): Promise<string[]> {
  const place = /^(.*), empty$/.exec(view)?.[1];
  if (place === undefined) return [];
  const says = EMPTY_SAYS[place];
  if (says === undefined) return [`${view}: nobody has written down what it says to do`];
  const main = page.locator('main.sheet');
  // That there is nothing is known only when the archive has answered.
  await main
    .filter({ hasText: says })
    .waitFor()
    .catch(() => undefined);
  const text = await main.innerText();
  const ways = await main.locator('.act:not([aria-disabled="true"])').count();
  return [
    ...(says.test(text) ? [] : [`${view}: it doesn't say what to do: ${text.slice(0, 300)}`]),
    ...(ways > 0 ? [] : [`${view}: there is nothing to press`]),
  ];
}

/** As the system draws it where a person chose the colours and wants nothing to move. */
export const FORCED = { forcedColors: 'active', reducedMotion: 'reduce' } as const;
export const NOT_FORCED = { forcedColors: 'none', reducedMotion: 'no-preference' } as const;

/** What still moves, whose border is gone, and what is chosen or in call by its colour alone, with colours forced. */
export async function faultsForced(page: Page, view: string): Promise<string[]> {
  const found = await page.evaluate(() => {
    const faults: string[] = [];
    for (const animation of document.getAnimations()) {
      const target = (animation.effect as KeyframeEffect | null)?.target;
      faults.push(`moves: ${target?.outerHTML.slice(0, 120) ?? 'something'}`);
    }
    for (const element of document.querySelectorAll<HTMLElement>(
      '.act:not(.quiet), .stop, .measure-remove, input, select, textarea',
    )) {
      const box = element.getBoundingClientRect();
      if (box.width <= 1 || element.matches('[type="checkbox"], [type="radio"]')) continue;
      const style = getComputedStyle(element);
      const hasEdge = Number.parseFloat(style.borderBottomWidth) > 0 && style.borderBottomStyle !== 'none';
      if (!hasEdge) faults.push(`no edge: ${element.outerHTML.slice(0, 120)}`);
    }
    // What is chosen must differ from what isn't in its ground or its frame.
    const looks = (element: Element): string => {
      const { backgroundColor, borderTopWidth } = getComputedStyle(element);
      return `${backgroundColor} ${borderTopWidth}`;
    };
    for (const [all, chosen] of [
      ['.choice label', ':has(:checked)'],
      ['.rail .stop', '[aria-current]'],
      ['.act[aria-pressed]', '[aria-pressed="true"]'],
      ['.act:not([aria-pressed], [aria-disabled="true"], .quiet)', '.call'],
    ] as const) {
      const others = [...document.querySelectorAll(all)].filter((one) => !one.matches(chosen));
      const same = [...document.querySelectorAll(all)]
        .filter((one) => one.matches(chosen))
        .find((one) => others.some((other) => looks(other) === looks(one)));
      if (same !== undefined) faults.push(`looks as if it were not chosen: ${same.outerHTML.slice(0, 120)}`);
    }
    return faults;
  });
  return found.map((fault) => `${view}: ${fault}`);
}
