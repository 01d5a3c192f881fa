/** hh:mm:ss.s or mm:ss.s as seconds. */
import { NumberScanner, type NumberStyle } from './number-grammar.ts';

/** Hours, minutes, seconds. */
const PARTS_MAX = 3;

/** Scans one clock at a place in a text. Reused for speed: the results of the last scan are in its fields. */
export class ClockScanner {
  /** Seconds are `mantissa` × 10^`exponent`; valid after a scan that found a clock. */
  mantissa = 0;
  exponent = 0;
  readonly #whole: NumberScanner;
  /** Readouts that write numbers with a comma may show the time of day with a point. */
  readonly #seconds: readonly NumberScanner[];

  constructor({ decimalSign }: NumberStyle) {
    this.#whole = new NumberScanner({ decimalSign });
    this.#seconds =
      decimalSign === ',' ? [this.#whole, new NumberScanner({ decimalSign: '.' })] : [this.#whole];
  }

  /** Index behind the clock that begins at `start`, or −1 where none does. */
  scan(text: string, start: number, end: number): number {
    let whole = 0;
    let at = start;
    for (let part = 0; part < PARTS_MAX; part++) {
      const behind = this.#whole.scan(text, at, end);
      if (behind === -1 || this.#whole.mantissa < 0) return -1;
      if (behind < end && text.charAt(behind) === ':') {
        if (this.#whole.exponent !== 0) return -1;
        whole = (whole + this.#whole.mantissa) * 60;
        at = behind + 1;
        continue;
      }
      return part === 0 ? -1 : this.#takeSeconds(text, at, end, whole);
    }
    return -1;
  }

  #takeSeconds(text: string, at: number, end: number, whole: number): number {
    let last = -1;
    for (const scanner of this.#seconds) {
      const behind = scanner.scan(text, at, end);
      if (behind <= last || scanner.exponent > 0) continue;
      last = behind;
      this.mantissa = scanner.mantissa + whole * 10 ** -scanner.exponent;
      this.exponent = scanner.exponent;
    }
    return Number.isSafeInteger(this.mantissa) ? last : -1;
  }
}
