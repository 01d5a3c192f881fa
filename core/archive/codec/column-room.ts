/** Arrays that a long curve's blocks are decoded into, one block after the other, instead of new ones for each block. */

class Arrays<T extends Float64Array | Int32Array | Uint8Array> {
  readonly #make: (length: number) => T;
  readonly #made: T[] = [];
  #given = 0;

  constructor(make: (length: number) => T) {
    this.#make = make;
  }

  give(length: number): T {
    const index = this.#given++;
    const made = this.#made[index];
    if (made !== undefined && made.length >= length) return made.subarray(0, length) as T;
    const larger = this.#make(length);
    this.#made[index] = larger;
    return larger;
  }

  giveAgain(): void {
    this.#given = 0;
  }
}

/** What it gives holds any values until it is written to, and is good until `clear`. */
export class ColumnRoom {
  readonly #numbers = new Arrays((length) => new Float64Array(length));
  readonly #integers = new Arrays((length) => new Int32Array(length));
  readonly #bytes = new Arrays((length) => new Uint8Array(length));

  numbers(length: number): Float64Array {
    return this.#numbers.give(length);
  }

  integers(length: number): Int32Array {
    return this.#integers.give(length);
  }

  bytes(length: number): Uint8Array {
    return this.#bytes.give(length);
  }

  clear(): void {
    this.#numbers.giveAgain();
    this.#integers.giveAgain();
    this.#bytes.giveAgain();
  }
}
