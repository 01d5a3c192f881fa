/** The way of the focus by Tab: past every stop of what is on top, in the order of the page, each seen to have it. */
import type { Page } from 'playwright';

/** Thinner than the ring that the page draws, and still seen at arm's length (WCAG 2.2, 2.4.13 asks for two CSS pixels). */
const RING_PX_MIN = 2;
/** Pressed once more than there are stops: past the last one the focus may rest on the page itself. */
const SPARE_PRESSES = 2;

/** Leads the focus round once by real presses of Tab. One line for each stop at fault. */
export async function faultsOfFocus(page: Page, view: string): Promise<string[]> {
  const presses = await page.evaluate((ringPx): number => {
    const top = document.querySelector('dialog[open]') ?? document.body;
    const said = (element: Element): string =>
      (element.id === '' ? element.outerHTML.slice(0, 100) : `#${element.id}`).replaceAll(/\s+/g, ' ');
    const isSeen = (element: Element): boolean =>
      element.checkVisibility({ visibilityProperty: true }) && element.closest('[inert]') === null;
    /** Where Tab stops: of radio buttons of one name the one that is chosen, or the first. */
    const stopsNow = (): HTMLElement[] => {
      const groups = new Set<string>();
      const all = [
        ...top.querySelectorAll<HTMLElement>(
          'a[href], button, input, select, textarea, summary, iframe, [contenteditable], [tabindex]',
        ),
      ].filter((one) => one.tabIndex >= 0 && !one.matches(':disabled') && isSeen(one));
      return all.filter((one) => {
        if (!(one instanceof HTMLInputElement) || one.type !== 'radio') return true;
        const group = all.filter(
          (other) => other instanceof HTMLInputElement && other.type === 'radio' && other.name === one.name,
        ) as HTMLInputElement[];
        const chosen = group.find(({ checked }) => checked);
        if (chosen !== undefined) return chosen === one;
        if (groups.has(one.name)) return false;
        groups.add(one.name);
        return true;
      });
    };
    interface Ring {
      readonly on: Element;
      readonly px: number;
      readonly offset: number;
    }
    /** What carries the mark: itself, what stands around a hidden or a small button, or the row that it stands for. */
    const ringsAround = (element: HTMLElement): Ring[] => {
      const active = element.getAttribute('aria-activedescendant');
      return [
        element,
        element.closest('label') ?? element.parentElement,
        active === null ? null : document.getElementById(active),
      ].flatMap((on) => {
        if (on === null) return [];
        const { outlineStyle, outlineWidth, outlineOffset, opacity } = getComputedStyle(on);
        const px = outlineStyle === 'none' ? 0 : Number.parseFloat(outlineWidth);
        const { width, height } = on.getBoundingClientRect();
        return px >= ringPx && opacity !== '0' && Math.min(width, height) > 2 * px
          ? [{ on, px, offset: Number.parseFloat(outlineOffset) }]
          : [];
      });
    };
    /** How many of its four sides are not cut off by a box around it. */
    const sidesSeen = ({ on, px, offset }: Ring): number => {
      const box = on.getBoundingClientRect();
      const out = Math.max(0, offset) + px;
      const ring = {
        left: box.left - (offset < 0 ? 0 : out),
        right: box.right + (offset < 0 ? 0 : out),
        top: box.top - (offset < 0 ? 0 : out),
        bottom: box.bottom + (offset < 0 ? 0 : out),
      };
      // A pixel of it that is left is no side; half of it is one.
      const tolerated = px / 2;
      const seen = { left: true, right: true, top: true, bottom: true };
      for (let one = on.parentElement; one !== null; one = one.parentElement) {
        const { overflowX, overflowY } = getComputedStyle(one);
        const edge = one.getBoundingClientRect();
        if (overflowX !== 'visible') {
          seen.left &&= ring.left >= edge.left - tolerated;
          seen.right &&= ring.right <= edge.right + tolerated;
        }
        if (overflowY !== 'visible') {
          seen.top &&= ring.top >= edge.top - tolerated;
          seen.bottom &&= ring.bottom <= edge.bottom + tolerated;
        }
      }
      seen.left &&= ring.left >= -tolerated;
      seen.right &&= ring.right <= innerWidth + tolerated;
      seen.top &&= ring.top >= -tolerated;
      seen.bottom &&= ring.bottom <= innerHeight + tolerated;
      return Object.values(seen).filter(Boolean).length;
    };
    /** The next stop lies wholly above this one, or beside it towards the beginning of the line. */
    const goesBack = (from: Element, to: Element): boolean => {
      if ((from.compareDocumentPosition(to) & Node.DOCUMENT_POSITION_FOLLOWING) === 0) return true;
      // Their parts of the nearest box around both: columns are read one after the other.
      let [one, other]: [Element, Element] = [from, to];
      while (one.parentElement !== null && !one.parentElement.contains(to)) one = one.parentElement;
      while (other.parentElement !== null && !other.parentElement.contains(from)) other = other.parentElement;
      const [a, b] = [one.getBoundingClientRect(), other.getBoundingClientRect()];
      const isBeside = b.top < a.bottom - 1 && a.top < b.bottom - 1;
      return b.bottom <= a.top + 1 || (isBeside && b.right <= a.left + 1);
    };

    /** Of four: one may lie at the edge of a box that scrolls. */
    const SIDES_MIN = 3;
    const faults: string[] = [];
    const visited = new Set<Element>();
    let last: Element | null = null;
    let isBegun = false;
    const first = stopsNow()[0];
    const look = (): void => {
      const now = document.activeElement;
      if (!(now instanceof HTMLElement) || now === document.body || now === top) return;
      // Put there by a script, which need not show it; Tab comes by in the end.
      if (!isBegun && now === first) {
        isBegun = true;
        last = now;
        return;
      }
      if (now === first && visited.size > 1) last = null;
      if (visited.has(now)) {
        // The only stop of a sheet is its next one too.
        if (last === now && visited.size > 1) faults.push(`Tab does not leave ${said(now)}`);
        return;
      }
      visited.add(now);
      if (!top.contains(now)) faults.push(`the focus leaves the sheet on top, to ${said(now)}`);
      const rings = ringsAround(now);
      if (rings.length === 0) faults.push(`nothing shows that the focus is on ${said(now)}`);
      else if (!rings.some((ring) => sidesSeen(ring) >= SIDES_MIN))
        faults.push(`most of the mark is cut off at ${said(now)}`);
      const bearer = rings[0]?.on ?? now;
      const { left, top: y, width, height } = bearer.getBoundingClientRect();
      const over = document.elementFromPoint(left + width / 2, y + height / 2);
      if (over === null || !(bearer.contains(over) || over.contains(bearer)))
        faults.push(`${said(now)} has the focus below ${over === null ? 'the window' : said(over)}`);
      if (last !== null && goesBack(last, now)) faults.push(`from ${said(last)} back to ${said(now)}`);
      last = now;
    };
    // Before the next press: by then it stands where the focus has scrolled it.
    document.addEventListener('keydown', look, { capture: true });
    Object.assign(globalThis, {
      walked: (): string[] => {
        look();
        document.removeEventListener('keydown', look, { capture: true });
        for (const stop of stopsNow())
          if (!visited.has(stop)) faults.push(`Tab does not come by ${said(stop)}`);
        return faults;
      },
    });
    first?.focus();
    return stopsNow().length;
  }, RING_PX_MIN);
  for (let press = 0; press < presses + SPARE_PRESSES; press++) await page.keyboard.press('Tab');
  const faults = await page.evaluate(() => (globalThis as unknown as { walked: () => string[] }).walked());
  return faults.map((fault) => `${view}: ${fault}`);
}
