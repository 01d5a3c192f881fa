/** Where the window stood last time, brought back onto a display that exists now. */

export interface Rectangle {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Below this the plot and the large figures no longer fit beside one another. */
export const WINDOW_SIZE_MIN = { width: 1024, height: 700 } as const;
export const WINDOW_SIZE_NATURAL = { width: 1360, height: 860 } as const;
/** So much of the window's top edge must be on a display that it can be taken hold of with a mouse. */
const REACHABLE = { width: 160, height: 40 } as const;

/**
 * @param saved last place, or null for a first start
 * @param displays work areas (without task bars), the main one first; coordinates may be negative
 */
export function placeWindow(saved: Rectangle | null, displays: readonly Rectangle[]): Rectangle {
  const main = displays[0];
  if (main === undefined) return { x: 0, y: 0, ...WINDOW_SIZE_NATURAL };
  if (saved === null) return centred(WINDOW_SIZE_NATURAL, main);
  // The size is brought to the display's first: a window made smaller reaches less far.
  const home = displays.find((display) => isReachable(fitted(saved, display), display));
  return home === undefined ? centred(saved, main) : fitted(saved, home);
}

function isReachable(window: Rectangle, display: Rectangle): boolean {
  const overlapX =
    Math.min(window.x + window.width, display.x + display.width) - Math.max(window.x, display.x);
  const topInside = window.y >= display.y && window.y + REACHABLE.height <= display.y + display.height;
  return overlapX >= REACHABLE.width && topInside;
}

/** No larger than the display, unless the display is smaller than the smallest window. */
function fitted(window: Rectangle, display: Rectangle): Rectangle {
  return { x: window.x, y: window.y, ...sizeFor(window, display) };
}

function centred(wanted: Pick<Rectangle, 'width' | 'height'>, display: Rectangle): Rectangle {
  const size = sizeFor(wanted, display);
  return {
    x: Math.round(display.x + Math.max(0, (display.width - size.width) / 2)),
    y: Math.round(display.y + Math.max(0, (display.height - size.height) / 2)),
    ...size,
  };
}

function sizeFor(
  wanted: Pick<Rectangle, 'width' | 'height'>,
  display: Rectangle,
): Pick<Rectangle, 'width' | 'height'> {
  return {
    width: Math.max(WINDOW_SIZE_MIN.width, Math.min(Math.round(wanted.width), display.width)),
    height: Math.max(WINDOW_SIZE_MIN.height, Math.min(Math.round(wanted.height), display.height)),
  };
}
