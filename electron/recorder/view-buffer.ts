/**
 * The newest readings for whoever watches. The archive has no such buffer and loses nothing: who is further behind
 * than this is told what was missed and asks the archive for it.
 */
import { VIEW_READINGS_MAX } from '../../core/limits.ts';
import type { TimedReading } from '../../core/pull/reading-columns.ts';

export class ViewBuffer {
  #readings: TimedReading[] = [];
  #firstSeq: number;

  constructor(firstSeq: number) {
    this.#firstSeq = firstSeq;
  }

  push(reading: TimedReading): void {
    this.#readings.push(reading);
    if (this.#readings.length < 2 * VIEW_READINGS_MAX) return;
    this.#readings = this.#readings.slice(-VIEW_READINGS_MAX);
    this.#firstSeq = this.#readings[0]?.seq ?? this.#firstSeq;
  }

  get nextSeq(): number {
    return this.#firstSeq + this.#readings.length;
  }

  /** Readings from `fromSeq` on that are still here; the first of them may be a later one. */
  from(fromSeq: number): { readonly firstSeq: number; readonly readings: readonly TimedReading[] } {
    const firstSeq = Math.min(Math.max(fromSeq, this.#firstSeq), this.nextSeq);
    return { firstSeq, readings: this.#readings.slice(firstSeq - this.#firstSeq) };
  }
}
