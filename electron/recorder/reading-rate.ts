/** How many readings came within the last second. */

const WINDOW_US = 1_000_000;
/** Old moments are let go in one go, when this many have gathered. */
const GATHERED_MAX = 8_192;

export class ReadingRate {
  #moments: number[] = [];

  note(atUs: number): void {
    this.#moments.push(atUs);
    if (this.#moments.length > GATHERED_MAX) {
      const fresh = this.#moments.filter((moment) => atUs - moment < WINDOW_US);
      // A readout faster than this is counted by its newest moments only.
      this.#moments = fresh.length > GATHERED_MAX / 2 ? fresh.slice(-GATHERED_MAX / 2) : fresh;
    }
  }

  perS(nowUs: number): number {
    let count = 0;
    for (let i = this.#moments.length - 1; i >= 0; i--) {
      if (nowUs - (this.#moments[i] ?? 0) >= WINDOW_US) break;
      count++;
    }
    return count;
  }
}
