/** How long a readout may be silent before people are told: some readouts are slow, some speak only when a key is pressed. */
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import { SILENCE_MS_MAX, SILENCE_MS_MIN, SILENCE_MS_SLOW } from '../../core/limits.ts';

/** Intervals that may be missed: of a readout that is not slow … */
const INTERVALS_MISSED = 10;
/** … and of one that is: two lines a minute apart are missed before anybody can know it. */
const SLOW_INTERVALS_MISSED = 2.5;
/** Intervals that show a pace which the profile doesn't state, where none is longer than so many times the shortest. */
const INTERVALS_SEEN = 3;
const UNEVEN_MAX = 1.5;

export class SilenceWatch {
  readonly #profile: ReadoutProfile;
  #lastUs: number | null = null;
  #intervalsMs: readonly number[] = [];

  constructor(profile: ReadoutProfile) {
    this.#profile = profile;
  }

  /** A reading came. */
  note(atUs: number): void {
    if (this.#lastUs !== null)
      this.#intervalsMs = [...this.#intervalsMs.slice(1 - INTERVALS_SEEN), (atUs - this.#lastUs) / 1000];
    this.#lastUs = atUs;
  }

  /** Milliseconds; Infinity for readouts that speak only when asked by hand. */
  get limitMs(): number {
    const { mode, rateHz } = this.#profile;
    if (mode.kind === 'print-key') return Infinity;
    const statedMs = mode.kind === 'polled' ? mode.intervalMs : rateHz === undefined ? null : 1000 / rateHz;
    if (statedMs === null) return within(SLOW_INTERVALS_MISSED * this.#seenMs);
    const slowMs = Math.max(SILENCE_MS_SLOW, SLOW_INTERVALS_MISSED * statedMs);
    return within(Math.min(INTERVALS_MISSED * statedMs, slowMs));
  }

  /** The pace that the readings keep by themselves; 0 while they show none. */
  get #seenMs(): number {
    if (this.#intervalsMs.length < INTERVALS_SEEN) return 0;
    const longest = Math.max(...this.#intervalsMs);
    return longest <= UNEVEN_MAX * Math.min(...this.#intervalsMs) ? longest : 0;
  }
}

const within = (ms: number): number => Math.min(SILENCE_MS_MAX, Math.max(SILENCE_MS_MIN, ms));
