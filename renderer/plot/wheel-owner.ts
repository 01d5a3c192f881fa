/**
 * Whose a turn of the wheel is: a page that is being scrolled comes by a plot beneath the pointer, and the plot must not
 * take the turn over and begin to zoom.
 */

/** Notches that come closer upon each other than this are one turn. */
const ONE_TURN_MS = 300;

let owner: EventTarget | null = null;
let lastMs = -Infinity;

if (typeof window !== 'undefined')
  window.addEventListener(
    'wheel',
    ({ target, timeStamp }) => {
      if (timeStamp - lastMs > ONE_TURN_MS) owner = target;
      lastMs = timeStamp;
    },
    { capture: true, passive: true },
  );

/** The present turn began outside of this element. */
export const isScrolledFromElsewhere = (element: Element): boolean =>
  !(owner instanceof Node && element.contains(owner));
