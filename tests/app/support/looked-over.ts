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
async function axeFaults(
  page: Page,
  options: axe.RunOptions,
  within = 'html',
  without: readonly string[] = [],
): Promise<string[]> {
  return page.evaluate(
    async ([given, part, leftOut]) => {
      const { axe: here } = globalThis as unknown as { axe: typeof axe };
      // What lies below a sheet was looked at before it was opened.
      const include = document.querySelector('dialog[open]') ?? document.querySelector(part) ?? document;
      const exclude = [...document.querySelectorAll(leftOut.join() || 'no-such-thing')];
      // Nothing of a style sheet that was loaded from elsewhere has to be looked at: there is none.
      const found = await here.run(
        { include: [include], exclude },
        { resultTypes: ['violations'], preload: false, ...given },
      );
      return found.violations.flatMap(({ id, help, nodes }) =>
        nodes.map(
          ({ html, any }) =>
            `${id} (${help}): ${html.slice(0, 200)} ${any.map((one) => one.message).join(' ')}`,
        ),
      );
    },
    [options, within, without] as const,
  );
}

/** Everything that a hand in a glove has to hit: at least 44 px each way (WCAG 2.2, 2.5.5 "Target Size (Enhanced)"). */
const MAIN_TARGETS =
  '.act, .stop, .places label, .choice label, .shapes label, label.source, .source-pick, .by-hand-choice, ' +
  'main:is([data-place="specimen"], [data-place="readout"], [data-place="pull"], [data-place="fracture"]) ' +
  ':is(button, select, summary, input:not([type="checkbox"], [type="radio"], [type="file"]))';
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

/** What an answer that is under way changes is waited for this long. */
const SETTLED_MS_MAX = 30_000;

/** As the system asks for them; the page follows. */
export const GROUNDS = {
  chalk: { colorScheme: 'light', contrast: 'no-preference' },
  soot: { colorScheme: 'dark', contrast: 'no-preference' },
  contrast: { colorScheme: 'dark', contrast: 'more' },
} as const;

export type Ground = keyof typeof GROUNDS;
export const ALL_GROUNDS = Object.keys(GROUNDS) as Ground[];

/** Everything on the light ground; on the others what depends on colours. */
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
    // No ground makes anything larger or smaller.
    if (ground === 'chalk') found.push(...(await smallTargets(page)));
    faults.push(...found.map((fault) => `${view}, ${ground}: ${fault}`));
  }
  return faults;
}

/** Names, roles and targets in another language: longer words, other places. The rail is the same above all of them. */
export async function faultsInWords(page: Page, view: string, isFirst = true): Promise<string[]> {
  const found = await axeFaults(page, OF_WORDS, isFirst ? 'html' : 'body', isFirst ? [] : ['header.rail']);
  found.push(...(await smallTargets(page)));
  return found.map((fault) => `${view}: ${fault}`);
}

/** Between two looks; what an answer changes is drawn in the next frame. */
const LOOK_AGAIN_MS = 80;

/** Until the page stands still but for its figures: on a slow machine an answer may come after the view is there. */
export async function settled(page: Page): Promise<void> {
  const shown = (): Promise<string> =>
    page.evaluate(() => document.body.innerHTML.replaceAll(/[\d.,\u2212-]+/g, ''));
  const endMs = performance.now() + SETTLED_MS_MAX;
  let before = await shown();
  while (performance.now() < endMs) {
    await new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN_MS));
    const now = await shown();
    if (now === before) return;
    before = now;
  }
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

/**
 * A sheet of the job, or the archive's list, without one marked next step that is seen without scrolling (a button, or the line that says what a pull does by itself), or a rail
 * that doesn't name one.
 */
export async function withoutStep(page: Page, view: string): Promise<string[]> {
  const found = await page
    .waitForFunction(
      (isLast) => {
        const stations = ['set', 'specimen', 'readout', 'pull', 'fracture', 'result', 'certificate'];
        const sheet = document.querySelector<HTMLElement>('main.sheet');
        if (document.querySelector('dialog[open]') !== null) return 'none';
        const isList = sheet !== null && sheet.querySelector('.archive-list:not(.narrow)') !== null;
        if (!isList && !stations.includes(sheet?.dataset['place'] ?? '')) return 'none';
        const steps = [...(sheet?.querySelectorAll('.act.call, .pull-state .flag') ?? [])];
        const marked = steps.length;
        const isSeen = steps.every((step) => step.getBoundingClientRect().bottom <= innerHeight);
        const named = document.querySelectorAll('.rail .flag').length;
        // What is marked in the list is looked at next, which is no station's step.
        const isOwn = isList && sheet.querySelector('#open-marked.call, #lay-over.call') !== null;
        if (marked === 1 && isSeen && named === (isOwn ? 0 : 1)) return 'none';
        return (
          performance.now() > isLast &&
          `${String(marked)} marked next steps${isSeen ? '' : ', not to be seen without scrolling'}, the rail names ${String(named)}`
        );
      },
      (await page.evaluate(() => performance.now())) + SETTLED_MS_MAX,
    )
    .then((handle) => handle.jsonValue());
  return found === 'none' || found === false ? [] : [`${view}: ${found}`];
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

/** What moves by itself or blinks while nobody touches anything: nothing does that a person has not begun. */
export async function moving(page: Page, view: string): Promise<string[]> {
  const found = await page.evaluate(() =>
    document.getAnimations().map((animation) => {
      const target = (animation.effect as KeyframeEffect | null)?.target;
      return `moves: ${target?.outerHTML.slice(0, 120) ?? 'something'}`;
    }),
  );
  return found.map((fault) => `${view}: ${fault}`);
}

/** Whose border is gone, and what is chosen or in call by its colour alone, with colours forced. */
export async function faultsForced(page: Page, view: string): Promise<string[]> {
  const found = await page.evaluate(() => {
    const faults: string[] = [];
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
  return [...(await moving(page, view)), ...found.map((fault) => `${view}: ${fault}`)];
}
