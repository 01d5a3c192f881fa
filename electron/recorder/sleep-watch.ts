/**
 * Finds that the computer slept. The time since its start goes on then; the monotonic clock stands still on Linux.
 * Where that clock goes on too, the readings' own times show the gap, and the silence watch names it.
 */

/** The time since the start is told in hundredths of a second, and read a moment before or after the other clock. */
const SLEPT_S_MIN = 1;

export class SleepWatch {
  #ahead: number;

  constructor(uptimeS: number, monotonicUs: number) {
    this.#ahead = uptimeS - monotonicUs / 1e6;
  }

  /** Seconds slept since the last call; 0 where it did not. */
  look(uptimeS: number, monotonicUs: number): number {
    const ahead = uptimeS - monotonicUs / 1e6;
    const slept = ahead - this.#ahead;
    // Two clocks that drift apart by little over days are no sleep.
    this.#ahead = ahead;
    return slept < SLEPT_S_MIN ? 0 : slept;
  }
}
