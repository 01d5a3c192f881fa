/** Numbers of pulls in the order of one value, kept sorted while pulls come, change and go. */

/** Below zero where the first of two pulls comes before the second; zero only for the same one. */
export type Compare = (a: number, b: number) => number;

const ROOM_MIN = 1024;

export class SortedPulls {
  readonly #compare: Compare;
  #ids = new Uint32Array(ROOM_MIN);
  #length = 0;

  constructor(compare: Compare) {
    this.#compare = compare;
  }

  /** Ascending; good until the next change. */
  get ids(): Uint32Array {
    return this.#ids.subarray(0, this.#length);
  }

  /** These instead of what it holds: sorted already. */
  take(sorted: Uint32Array): void {
    this.#ids = new Uint32Array(Math.max(ROOM_MIN, sorted.length));
    this.#ids.set(sorted);
    this.#length = sorted.length;
  }

  /** Pulls that are not in it yet; they are compared by what is known of them now. */
  addAll(added: readonly number[]): void {
    const more = Uint32Array.from(added).sort(this.#compare);
    this.#makeRoom(more.length);
    const ids = this.#ids;
    // From the end, so that nothing is written over before it was moved: what comes behind one is moved at once.
    let end = this.#length;
    for (let next = more.length - 1; next >= 0; next--) {
      const one = more[next] ?? 0;
      const at = this.#countWhere(end, (other) => this.#compare(other, one) < 0);
      ids.copyWithin(at + next + 1, at, end);
      ids[at + next] = one;
      end = at;
    }
    this.#length += more.length;
  }

  add(pullId: number): void {
    this.#makeRoom(1);
    const at = this.#placeOf(pullId);
    this.#ids.copyWithin(at + 1, at, this.#length);
    this.#ids[at] = pullId;
    this.#length++;
  }

  /** To be called while it is still compared by what it was put in with. */
  remove(pullId: number): void {
    const at = this.#placeOf(pullId);
    if (this.#ids[at] !== pullId || at >= this.#length) return;
    this.#ids.copyWithin(at, at + 1, this.#length);
    this.#length--;
  }

  /** How many come before those for which `isBefore` is false: it holds for a first part of them. */
  countWhere(isBefore: (pullId: number) => boolean): number {
    return this.#countWhere(this.#length, isBefore);
  }

  #countWhere(length: number, isBefore: (pullId: number) => boolean): number {
    let [low, high] = [0, length];
    while (low < high) {
      const middle = (low + high) >>> 1;
      if (isBefore(this.#ids[middle] ?? 0)) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  #placeOf(pullId: number): number {
    return this.countWhere((other) => this.#compare(other, pullId) < 0);
  }

  #makeRoom(more: number): void {
    if (this.#length + more <= this.#ids.length) return;
    const ids = new Uint32Array(Math.max(this.#length + more, this.#ids.length * 2));
    ids.set(this.#ids);
    this.#ids = ids;
  }
}
