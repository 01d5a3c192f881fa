/** Whole numbers in as few bytes as they need: seven bits a byte, low ones first; signs folded in (zigzag). */

/** Zigzag doubles a number, so beyond this it would leave the safe integers and goes through BigInt. */
const DOUBLING_SAFE = 2 ** 51;
const VARINT_BYTES_MAX = 10;
/** Seven bytes: what is summed up from such numbers stays exact (columns.ts). */
const COLUMN_WEIGHT_MAX = 128 ** 6;
/** Stands for a byte that is not there. */
const END = 256;
/** So many bytes of seven bits stay within the whole numbers that the processor itself counts with. */
const SMALL_BYTES = 4;

/** A block of the archive does not hold what it says: damage, or a bug in the writer. */
export class BlockDamagedError extends Error {
  override readonly name = 'BlockDamagedError';
}

export class VarintWriter {
  #bytes = new Uint8Array(256);
  #length = 0;

  /** A whole number from 0 to 2^53 − 1. */
  unsigned(value: number): void {
    if (!Number.isSafeInteger(value) || value < 0)
      throw new RangeError(`${value} is not a whole number from 0 up`);
    let rest = value;
    while (rest > 0x7fffffff) {
      this.#push((rest % 128) | 0x80);
      rest = Math.floor(rest / 128);
    }
    while (rest > 0x7f) {
      this.#push((rest & 0x7f) | 0x80);
      rest >>>= 7;
    }
    this.#push(rest);
  }

  /** Any difference of two safe integers. */
  signed(value: number | bigint): void {
    if (typeof value === 'number' && Math.abs(value) < DOUBLING_SAFE) {
      this.unsigned(value < 0 ? -2 * value - 1 : 2 * value);
      return;
    }
    const big = BigInt(value);
    let rest = big < 0n ? -2n * big - 1n : 2n * big;
    while (rest > 0x7fn) {
      this.#push(Number(rest & 0x7fn) | 0x80);
      rest >>= 7n;
    }
    this.#push(Number(rest));
  }

  bytes(bytes: Uint8Array): void {
    this.#reserve(bytes.length);
    this.#bytes.set(bytes, this.#length);
    this.#length += bytes.length;
  }

  get length(): number {
    return this.#length;
  }

  finish(): Uint8Array {
    return this.#bytes.slice(0, this.#length);
  }

  #push(byte: number): void {
    this.#reserve(1);
    this.#bytes[this.#length++] = byte;
  }

  #reserve(count: number): void {
    if (this.#length + count <= this.#bytes.length) return;
    const larger = new Uint8Array(Math.max(this.#bytes.length * 2, this.#length + count));
    larger.set(this.#bytes);
    this.#bytes = larger;
  }
}

export class VarintReader {
  readonly #bytes: Uint8Array;
  #at = 0;

  constructor(bytes: Uint8Array) {
    this.#bytes = bytes;
  }

  unsigned(): number {
    let value = 0;
    let weight = 1;
    for (let count = 0; count < VARINT_BYTES_MAX; count++) {
      const byte = this.#next();
      value += (byte & 0x7f) * weight;
      if (byte < 0x80) {
        if (!Number.isSafeInteger(value)) break;
        return value;
      }
      weight *= 128;
    }
    throw new BlockDamagedError('a number in a block is too long');
  }

  /** A bigint only where the value is too large to be halved as a double. */
  signed(): number | bigint {
    const start = this.#at;
    let value = 0;
    let weight = 1;
    for (let count = 0; count < VARINT_BYTES_MAX; count++) {
      const byte = this.#next();
      value += (byte & 0x7f) * weight;
      if (byte < 0x80) {
        if (value < DOUBLING_SAFE * 2) return value % 2 === 0 ? value / 2 : -(value + 1) / 2;
        return this.#bigSigned(start);
      }
      weight *= 128;
    }
    throw new BlockDamagedError('a number in a block is too long');
  }

  /**
   * So many signed numbers in a row, as `signed` gives them, without a call for each; null, and nothing read, where one
   * of them is too large for that.
   */
  signedColumn(count: number): Float64Array | null {
    const bytes = this.#bytes;
    const values = new Float64Array(count);
    let at = this.#at;
    for (let i = 0; i < count; i++) {
      let byte = bytes[at] ?? END;
      if (byte < 0x80) {
        values[i] = (byte >>> 1) ^ -(byte & 1);
        at++;
        continue;
      }
      const start = at;
      let small = 0;
      for (let shift = 0; ; shift += 7) {
        byte = bytes[at++] ?? END;
        small |= (byte & 0x7f) << shift;
        if (byte < 0x80 || at - start === SMALL_BYTES) break;
        if (byte === END) throw new BlockDamagedError('a block ends too early');
      }
      if (byte < 0x80) {
        values[i] = (small >>> 1) ^ -(small & 1);
        continue;
      }
      let value = small;
      for (let weight = 128 ** SMALL_BYTES; byte >= 0x80; weight *= 128) {
        if (byte === END) throw new BlockDamagedError('a block ends too early');
        if (weight > COLUMN_WEIGHT_MAX) return null;
        byte = bytes[at++] ?? END;
        value += (byte & 0x7f) * weight;
      }
      values[i] = value % 2 === 0 ? value / 2 : -(value + 1) / 2;
    }
    this.#at = at;
    return values;
  }

  bytes(count: number): Uint8Array {
    if (this.#at + count > this.#bytes.length) throw new BlockDamagedError('a block ends too early');
    const part = this.#bytes.subarray(this.#at, this.#at + count);
    this.#at += count;
    return part;
  }

  /** Bytes that are left: a column of differences has at least one for each of its values. */
  get left(): number {
    return this.#bytes.length - this.#at;
  }

  get atEnd(): boolean {
    return this.#at === this.#bytes.length;
  }

  #bigSigned(start: number): bigint {
    let value = 0n;
    for (let at = start, shift = 0n; at < this.#at; at++, shift += 7n)
      value |= BigInt((this.#bytes[at] ?? 0) & 0x7f) << shift;
    return (value & 1n) === 0n ? value >> 1n : -((value + 1n) >> 1n);
  }

  #next(): number {
    const byte = this.#bytes[this.#at];
    if (byte === undefined) throw new BlockDamagedError('a block ends too early');
    this.#at++;
    return byte;
  }
}
