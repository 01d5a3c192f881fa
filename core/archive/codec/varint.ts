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
const SMALL_MAX = 128 ** SMALL_BYTES - 1;

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
   * As many differences in a row as `values` has places, summed up into it without a call for each: differences from value to value, or where
   * `ofSteps` differences of those. A difference has seven bytes at most, so none on the way can leave the safe integers
   * while the values stay within them: no digit is lost. Null, and the reader
   * where it was, where one of them is larger.
   */
  summedColumn(values: Float64Array, ofSteps: boolean): Float64Array | null {
    const bytes = this.#bytes;
    const count = values.length;
    let at = this.#at;
    let step = 0;
    let value = 0;
    for (let i = 0; i < count; i++) {
      let byte = bytes[at++] ?? END;
      let folded = byte;
      if (byte >= 0x80) {
        folded = byte & 0x7f;
        let bytesRead = 1;
        for (; byte >= 0x80 && bytesRead < SMALL_BYTES; bytesRead++) {
          if (byte === END) throw new BlockDamagedError('a block ends too early');
          byte = bytes[at++] ?? END;
          folded |= (byte & 0x7f) << (7 * bytesRead);
        }
        for (let weight = 128 ** SMALL_BYTES; byte >= 0x80; weight *= 128) {
          if (byte === END) throw new BlockDamagedError('a block ends too early');
          if (weight > COLUMN_WEIGHT_MAX) return null;
          byte = bytes[at++] ?? END;
          folded += (byte & 0x7f) * weight;
        }
      }
      const read =
        folded <= SMALL_MAX
          ? (folded >>> 1) ^ -(folded & 1)
          : folded % 2 === 0
            ? folded / 2
            : -(folded + 1) / 2;
      step = ofSteps ? step + read : read;
      value += step;
      if (!(value <= Number.MAX_SAFE_INTEGER && value >= -Number.MAX_SAFE_INTEGER))
        throw new BlockDamagedError('a number in a block is too large');
      values[i] = value;
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
