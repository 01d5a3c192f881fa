/** The page as axe-core and a ruler see it: what is at fault in the present view, in the looks that were chosen. */
import axe from 'axe-core';
import type { Page } from 'playwright';

/** The page's policy lets in nothing from outside; the driver puts it there as the debugger would. */
export async function bringAxe(page: Page): Promise<void> {
  await page.evaluate(axe.source);
}

/** One line for each element at fault. */
async function axeFaults(page: Page, rules: readonly string[] | null): Promise<string[]> {
  return page.evaluate(async (only) => {
    const { axe: here } = globalThis as unknown as { axe: typeof axe };
    const found = await here.run(document, {
      resultTypes: ['violations'],
      ...(only === null ? {} : { runOnly: { type: 'rule', values: [...only] } }),
    });
    return found.violations.flatMap(({ id, help, nodes }) =>
      nodes.map(
        ({ html, any }) =>
          `${id} (${help}): ${html.slice(0, 200)} ${any.map((one) => one.message).join(' ')}`,
      ),
    );
  }, rules);
}

/** Everything that a hand in a glove has to hit: at least 44 px each way (WCAG 2.2, 2.5.5 "Target Size (Enhanced)"). */
const MAIN_TARGETS = '.act, .stop, .places label';
const MAIN_TARGET_PX = 44;

function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(
    ([targets, least]) =>
      [...document.querySelectorAll(targets)]
        .map((element) => ({ element, box: element.getBoundingClientRect() }))
        // Half a pixel is how boxes are rounded.
        .filter(({ box }) => box.width > 0 && Math.min(box.width, box.height) < least - 0.5)
        .map(
          ({ element, box }) =>
            `target of ${box.width.toFixed(0)} × ${box.height.toFixed(0)} px: ${element.textContent.slice(0, 60)}`,
        ),
    [MAIN_TARGETS, MAIN_TARGET_PX] as const,
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
export async function faultsIn(page: Page, view: string, grounds: readonly Ground[]): Promise<string[]> {
  const faults: string[] = [];
  for (const ground of grounds) {
    await page.emulateMedia(GROUNDS[ground]);
    await page.locator(`html[data-theme="${ground}"]`).waitFor();
    const all = ground === 'chalk';
    const found = await axeFaults(page, all ? null : ['color-contrast']);
    found.push(...(await smallTargets(page)));
    faults.push(...found.map((fault) => `${view}, ${ground}: ${fault}`));
  }
  return faults;
}
