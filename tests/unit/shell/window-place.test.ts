import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placeWindow, type Rectangle, WINDOW_SIZE_MIN } from '../../../electron/main/window-place.ts';

const MAIN: Rectangle = { x: 0, y: 0, width: 1920, height: 1040 };
const LEFT: Rectangle = { x: -1600, y: 0, width: 1600, height: 1200 };

describe('the place of the window', () => {
  it('is kept as it was while its display is there, also at negative coordinates', () => {
    const saved = { x: -1500, y: 40, width: 1200, height: 800 };
    expect(placeWindow(saved, [MAIN, LEFT])).toEqual(saved);
  });

  it('comes back to the main display when its own has gone, in its size (P10)', () => {
    const saved = { x: -1500, y: 40, width: 1200, height: 800 };
    expect(placeWindow(saved, [MAIN])).toEqual({ x: 360, y: 120, width: 1200, height: 800 });
  });

  it('comes back when only a sliver of it would show, or its title bar would not', () => {
    const sliver = { x: 1910, y: 100, width: 1200, height: 800 };
    const tooHigh = { x: 100, y: -60, width: 1200, height: 800 };
    expect(placeWindow(sliver, [MAIN]).x).toBe(360);
    expect(placeWindow(tooHigh, [MAIN]).y).toBe(120);
  });

  it('is in the middle of the main display at the first start', () => {
    const { x, y, width, height } = placeWindow(null, [MAIN]);
    expect([x + width / 2, y + height / 2]).toEqual([960, 520]);
  });

  it('can always be reached with a mouse and is never below the smallest size', () => {
    const coordinate = fc.integer({ min: -20_000, max: 20_000 });
    const length = fc.integer({ min: 1, max: 20_000 });
    const rectangle = fc.record({ x: coordinate, y: coordinate, width: length, height: length });
    fc.assert(
      fc.property(fc.option(rectangle), (saved) => {
        const place = placeWindow(saved, [MAIN, LEFT]);
        const reachable = [MAIN, LEFT].some(
          (display) =>
            place.y >= display.y &&
            place.y < display.y + display.height &&
            Math.min(place.x + place.width, display.x + display.width) - Math.max(place.x, display.x) >= 160,
        );
        expect(reachable).toBe(true);
        expect(place.width).toBeGreaterThanOrEqual(WINDOW_SIZE_MIN.width);
        expect(place.height).toBeGreaterThanOrEqual(WINDOW_SIZE_MIN.height);
      }),
    );
  });
});
