/**
 * Draws at most once a frame and at most 20 times a second, from whatever has arrived by then. Drawing on every
 * message lets the screen fall seconds behind at 1 000 readings a second. In the frames between, curves are only made
 * longer: a reading stands in the plot at its next frame, for a fraction of what a drawing costs.
 */

export const DRAWS_PER_S_MAX = 20;
/** A little under the period, so that on a 60 Hz screen every third frame draws and not every fourth. */
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
  readonly #lengthen: () => void;
  readonly #frames: Frames;
  #handle: number | null = null;
  #lastDrawMs = -Infinity;

  constructor(draw: () => void, lengthen: () => void, frames: Frames = browserFrames) {
    this.#draw = draw;
    this.#lengthen = lengthen;
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
      this.#lengthen();
      return;
    }
    this.#handle = null;
    this.#lastDrawMs = nowMs;
    this.#draw();
  };
}
