/** How long something has been held before it acts, for a button and for keys. Nothing of the page in here. */

/** Long enough that a cuff or a brushing glove does not do it, short enough for a hurry. */
export const HOLD_MS = 1_000;

export class HoldTimer {
  #held: {
    readonly timer: ReturnType<typeof setTimeout>;
    readonly sinceMs: number;
    readonly act: () => void;
  } | null = null;

  get isHeld(): boolean {
    return this.#held !== null;
  }

  /** `sinceMs` is the time stamp of the event that began it; `act` is called once, or never when it is let go too early. */
  begin(sinceMs: number, act: () => void): void {
    this.cancel();
    this.#held = { timer: setTimeout(() => this.#act(), HOLD_MS), sinceMs, act };
  }

  /**
   * Let go at this time stamp. A page that was busy hears of it before its own timer has run: what counts is how long it
   * was held, and that is in the events. Returns whether it was let go too early.
   */
  end(atMs: number): boolean {
    if (this.#held === null) return false;
    const tooEarly = atMs - this.#held.sinceMs < HOLD_MS;
    if (tooEarly) this.cancel();
    else this.#act();
    return tooEarly;
  }

  /** Whatever was held does not act. */
  cancel(): void {
    if (this.#held !== null) clearTimeout(this.#held.timer);
    this.#held = null;
  }

  #act(): void {
    const act = this.#held?.act;
    this.cancel();
    act?.();
  }
}
