/**
 * Draws at most once a frame and at most 30 times a second, from whatever has arrived by then. Drawing on every
 * message lets the screen fall seconds behind at 1 000 readings a second.
 */

export const DRAWS_PER_S_MAX = 30;
/** A little under the period, so that on a 60 Hz screen every second frame draws and not every third. */
const DRAW_PERIOD_MS = 1000 / DRAWS_PER_S_MAX - 4;

export interface Frames {
  request(callback: (nowMs: number) => void): number;
  cancel(handle: number): void;
}

const browserFrames: Frames = {
  request: (callback) => requestAnimationFrame(callback),
  cancel: (handle) => cancelAnimationFrame(handle),
};

export class FrameClock {
  readonly #draw: () => void;
  readonly #frames: Frames;
  #handle: number | null = null;
  #lastDrawMs = -Infinity;

  constructor(draw: () => void, frames: Frames = browserFrames) {
    this.#draw = draw;
    this.#frames = frames;
  }

  /** Something has changed: draw at the next frame that is due. */
  wake(): void {
    this.#handle ??= this.#frames.request(this.#onFrame);
  }

  stop(): void {
    if (this.#handle !== null) this.#frames.cancel(this.#handle);
    this.#handle = null;
  }

  readonly #onFrame = (nowMs: number): void => {
    if (nowMs - this.#lastDrawMs < DRAW_PERIOD_MS) {
      this.#handle = this.#frames.request(this.#onFrame);
      return;
    }
    this.#handle = null;
    this.#lastDrawMs = nowMs;
    this.#draw();
  };
}
