/** What a view loses in the present size of the window; the tests look at every view so, and `screenshots -- --all --lost`. */

/** Something that stays lost is looked at so often. */
const LOOKS_MAX = 6;
const LOOK_AGAIN_MS = 100;

/**
 * What can't be read or reached any more: the page goes sideways, or something that is read, pressed or written into is
 * cut by a box that doesn't scroll, or stands where no scrolling leads (WCAG 2.2, 1.4.10 "Reflow", 1.4.4 "Resize Text").
 * Words that end in an ellipsis are cut too, unless the focus shows the whole of them (1.4.13): a `title` is read by the
 * mouse alone. So is what is chosen in a list that has no room for it, though the list shows it whole once it is open.
 * @param {import('playwright').Page} page
 * @param {string} view
 * @returns {Promise<string[]>}
 */
export async function lostIn(page, view) {
  const lost = () => page.evaluate(lostNow);
  // What is placed by measuring follows a frame after the window, on a busy machine several.
  let found = await lost();
  for (let looks = 1; found.length > 0 && looks < LOOKS_MAX; looks++) {
    await page.waitForTimeout(LOOK_AGAIN_MS);
    found = await lost();
  }
  return found.map((fault) => `${view}: ${fault}`);
}

/**
 * In the page.
 * @returns {Promise<string[]>}
 */
async function lostNow() {
  /** @type {string[]} */
  const lost = [];
  const top = document.querySelector('dialog[open]') ?? document.body;
  const said = (/** @type {Element} */ element) => element.outerHTML.slice(0, 140);
  if (document.documentElement.scrollWidth > innerWidth + 1)
    lost.push(`the page is ${String(document.documentElement.scrollWidth)} px wide of ${String(innerWidth)}`);
  const scrolls = (/** @type {string} */ value) => value === 'auto' || value === 'scroll';
  const cuts = (/** @type {string} */ value) => value === 'hidden' || value === 'clip';
  /**
   * @typedef {object} Around
   * @property {DOMRect} box
   * @property {boolean} scrollsX
   * @property {boolean} scrollsY
   * @property {boolean} cutsX
   * @property {boolean} cutsY
   * @property {boolean} endsInEllipsis
   */
  // The same boxes stand around most of what is asked about.
  /** @type {Map<Element, Around>} */
  const known = new Map();
  /** @param {Element} element @returns {Around} */
  const around = (element) => {
    let its = known.get(element);
    if (its === undefined) {
      const { overflowX, overflowY, textOverflow } = getComputedStyle(element);
      its = {
        box: element.getBoundingClientRect(),
        scrollsX: scrolls(overflowX),
        scrollsY: scrolls(overflowY),
        cutsX: cuts(overflowX),
        cutsY: cuts(overflowY),
        endsInEllipsis: textOverflow === 'ellipsis',
      };
      known.set(element, its);
    }
    return its;
  };
  /** Its text is wider than its own box, which cuts it, or higher: beyond the descent of a last line. */
  const isCutBox = (/** @type {Element} */ element) => {
    const { overflowX, overflowY, fontSize } = getComputedStyle(element);
    return (
      (cuts(overflowX) && element.scrollWidth > element.clientWidth + 1) ||
      (cuts(overflowY) && element.scrollHeight > element.clientHeight + Number.parseFloat(fontSize) / 2)
    );
  };
  /** What is chosen in a list needs more room than the list has: as wide as a list with nothing else in it would be. */
  const isCutList = (/** @type {HTMLSelectElement} */ list) => {
    const [chosen] = list.selectedOptions;
    if (chosen === undefined) return false;
    const alone = /** @type {HTMLSelectElement} */ (list.cloneNode(false));
    alone.append(new Option(chosen.label));
    alone.removeAttribute('id');
    alone.inert = true;
    for (const [name, value] of /** @type {const} */ ([
      ['position', 'absolute'],
      ['visibility', 'hidden'],
      ['width', 'max-content'],
      ['min-width', '0'],
      ['max-width', 'none'],
    ]))
      alone.style.setProperty(name, value, 'important');
    list.after(alone);
    const wanted = alone.getBoundingClientRect().width;
    alone.remove();
    return wanted > list.getBoundingClientRect().width + 1;
  };
  const isCut = (/** @type {Element} */ element) =>
    element instanceof HTMLSelectElement ? isCutList(element) : isCutBox(element);
  /** @returns {Promise<void>} */
  const drawn = () =>
    new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(() => resolve())));
  const kept = /** @type {{ reachedByFocus?: Set<string> }} */ (globalThis);
  const reached = (kept.reachedByFocus ??= new Set());
  /** What has the focus shows it, or something beside it that is there for that. */
  const isReached = async (/** @type {HTMLElement} */ element) => {
    // Enter opens the pull of the row, and there all of it stands.
    if (element.closest('#found-pulls [role="row"]') !== null) return true;
    /** @type {HTMLElement | null} */
    const stop = element.closest('a[href], button, select, summary, [tabindex="0"]');
    if (stop === null) return false;
    const whole = (
      element instanceof HTMLSelectElement ? (element.selectedOptions[0]?.label ?? '') : element.textContent
    ).trim();
    const name = `${stop.id} ${String(innerWidth)} ${whole}`;
    if (reached.has(name)) return true;
    const before = /** @type {HTMLElement | null} */ (document.activeElement);
    stop.focus({ preventScroll: true });
    let shows = !isCut(element);
    if (!shows) {
      await drawn();
      const shown = [element, ...top.querySelectorAll('[role="tooltip"]')];
      shows = shown.some((one) => one.textContent.trim() === whole && !isCut(one));
    }
    stop.blur();
    before?.focus({ preventScroll: true });
    if (shows) reached.add(name);
    return shows;
  };
  // What is folded away is unfolded to be looked at.
  /** @type {NodeListOf<HTMLDetailsElement>} */
  const folded = top.querySelectorAll('details:not([open])');
  for (const one of folded) one.open = true;
  if (folded.length > 0) await drawn();
  /** @type {NodeListOf<HTMLElement>} */
  const all = top.querySelectorAll(
    'button, input, select, textarea, summary, h1, h2, h3, p, dt, dd, label, legend, td, th, caption, li, span, a, em, ' +
      'strong, output, figcaption, [role="gridcell"], [role="columnheader"]',
  );
  for (const element of all) {
    const box = element.getBoundingClientRect();
    if (box.width <= 1 || box.height <= 1 || getComputedStyle(element).visibility === 'hidden') continue;
    if (!element.checkVisibility()) continue;
    if (element.closest('.heard, [inert], [aria-hidden="true"]') !== null) continue;
    if (!element.matches('input, textarea') && isCut(element) && !(await isReached(element)))
      lost.push(`its own box cuts it: ${said(element)}`);
    let scrolled = { x: false, y: false };
    for (let one = element.parentElement; one !== null; one = one.parentElement) {
      const { box: edge, scrollsX, scrollsY, cutsX, cutsY, endsInEllipsis } = around(one);
      scrolled = { x: scrolled.x || scrollsX, y: scrolled.y || scrollsY };
      // What an ellipsis stands for was asked about where it stands.
      if (
        !endsInEllipsis &&
        ((!scrolled.x && cutsX && (box.right > edge.right + 1 || box.left < edge.left - 1)) ||
          (!scrolled.y && cutsY && box.bottom > edge.bottom + 1))
      )
        lost.push(`${one.tagName}.${one.className} cuts it: ${said(element)}`);
      if (one === top) break;
    }
    if (!scrolled.x && (box.right > innerWidth + 1 || box.left < -1))
      lost.push(`beside the window: ${said(element)}`);
  }
  for (const one of folded) one.open = false;
  if (lost.length > 0) await drawn();
  return lost;
}
