/**
 * Finds that the computer slept. The wall clock and the time since the computer's start go on then; the monotonic
 * clock stands still on Linux. Where that clock goes on too, the readings' own times show the gap, and the silence
 * watch names it.
 */

/** The time since the start is told in hundredths of a second, and read a moment after the other clocks. */
const SLEPT_S_MIN = 1;

export interface Clocks {
  readonly wallMs: number;
  readonly monotonicUs: number;
  /** Seconds since the computer's start, its sleep counted; asked for only where the wall clock went ahead. */
  readonly uptimeS: () => number;
}

export class SleepWatch {
  #wallAheadS: number;
  #uptimeAheadS: number;

  constructor(clocks: Clocks) {
    this.#wallAheadS = wallAheadS(clocks);
    this.#uptimeAheadS = uptimeAheadS(clocks);
  }

  /** Seconds slept since the last call; 0 where it did not. Cheap enough for every chunk that comes. */
  look(clocks: Clocks): number {
    const wall = wallAheadS(clocks);
    const wentAheadS = wall - this.#wallAheadS;
    this.#wallAheadS = wall;
    if (wentAheadS < SLEPT_S_MIN) return 0;
    // It went ahead, or was set: the time since the start tells which.
    const uptime = uptimeAheadS(clocks);
    const sleptS = uptime - this.#uptimeAheadS;
    this.#uptimeAheadS = uptime;
    return sleptS < SLEPT_S_MIN ? 0 : sleptS;
  }
}

const wallAheadS = ({ wallMs, monotonicUs }: Clocks): number => wallMs / 1e3 - monotonicUs / 1e6;
const uptimeAheadS = ({ uptimeS, monotonicUs }: Clocks): number => uptimeS() - monotonicUs / 1e6;
