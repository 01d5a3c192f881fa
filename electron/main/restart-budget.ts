/** How often something that died may be started again: so many times within so long, then a person is asked. */
export class RestartBudget {
  readonly #max: number;
  readonly #windowMs: number;
  #spentAtMs: number[] = [];

  constructor({ max, windowMs }: { max: number; windowMs: number }) {
    this.#max = max;
    this.#windowMs = windowMs;
  }

  /** Takes one restart; false when there is none left at this moment. */
  spend(nowMs: number): boolean {
    this.#spentAtMs = this.#spentAtMs.filter((atMs) => nowMs - atMs < this.#windowMs);
    if (this.#spentAtMs.length >= this.#max) return false;
    this.#spentAtMs.push(nowMs);
    return true;
  }

  /** A person has looked at it and wants another go. */
  refill(): void {
    this.#spentAtMs = [];
  }
}
