/**
 * Wall clock against monotonic clock. Intervals rest on the monotonic one alone; when the two move apart (the clock
 * was set, or the computer slept and the monotonic clock stood still), the record says when and by how much.
 */

/** Smaller differences are the wall clock being trimmed, which happens all day. */
const STEP_MS_MIN = 500;

export class ClockWatch {
  #offsetMs: number;

  constructor(wallMs: number, monotonicUs: number) {
    this.#offsetMs = wallMs - monotonicUs / 1000;
  }

  /** The computer slept for so long, which was told: by as much the wall clock is ahead from now on, and not by a step. */
  slept(seconds: number): void {
    this.#offsetMs += seconds * 1000;
  }

  /** The step since the last call in words, null where there was none. */
  look(wallMs: number, monotonicUs: number): string | null {
    const offsetMs = wallMs - monotonicUs / 1000;
    const stepMs = offsetMs - this.#offsetMs;
    if (Math.abs(stepMs) < STEP_MS_MIN) return null;
    this.#offsetMs = offsetMs;
    const size = `${(Math.abs(stepMs) / 1000).toFixed(1)} s`;
    return stepMs > 0
      ? `the wall clock went ahead by ${size} against the clock of the record: it was set, or the computer slept`
      : `the wall clock was set back by ${size}; the times of the record do not rest on it`;
  }
}
