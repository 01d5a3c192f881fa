/**
 * The simulated frame as a readout that is switched on: at rest it shows its zero, and pulls a specimen when its
 * invisible operator starts it. It never starts by itself.
 */
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { Pace } from '../../core/contract/source.ts';
import { lineWriter } from '../lines/line-writer.ts';
import { instruments } from './instruments.ts';
import { type TrueState, pullInTime } from './pull-in-time.ts';
import { pullPath } from './pull-path.ts';
import type { Scenario } from './scenario.ts';

/** `faster` is this many times true pace: a pull of a minute in a third of a second. */
export const FASTER = 200;
/** Time passed on in one step; a process that slept does not get hours of lines at once. */
const STEP_S_MAX = 1;

const AT_REST: TrueState = { travelMm: 0, forceN: 0, extensionMm: 0, phase: 'rest' };

export interface LiveFrameOptions {
  readonly profile: ReadoutProfile;
  readonly seed: number;
  readonly pace: Pace;
}

export class LiveFrame {
  readonly #scenario: Scenario;
  readonly #options: LiveFrameOptions;
  readonly #path: ReturnType<typeof pullPath>;
  readonly #write: ReturnType<typeof lineWriter>;
  #show: ReturnType<typeof instruments>;
  #stateAt: ReturnType<typeof pullInTime> | null = null;
  #pullBeganS = 0;
  #pulls = 0;
  /** Time of the readout, which runs faster during a pull where the pace says so. */
  #clockS = 0;
  #lines = 0;

  /** Throws a RangeError where the scenario's constants make no pull. */
  constructor(scenario: Scenario, options: LiveFrameOptions) {
    this.#scenario = scenario;
    this.#options = options;
    this.#path = pullPath(scenario);
    this.#write = lineWriter(options.profile);
    this.#show = instruments(scenario, options.profile, options.seed);
  }

  /** A new specimen is in the grips; the crosshead starts after the scenario's rest. Seeded by the number of the pull. */
  beginPull(): void {
    this.#stateAt = pullInTime(this.#scenario, this.#path);
    this.#show = instruments(this.#scenario, this.#options.profile, this.#options.seed + this.#pulls);
    this.#pulls++;
    this.#pullBeganS = this.#clockS;
  }

  /** The lines that fall due while so much real time passes. */
  *advance(passedS: number): Generator<Buffer, void, undefined> {
    this.#clockS +=
      Math.min(passedS, STEP_S_MAX) * (this.#stateAt === null ? 1 : paceFactor(this.#options.pace));
    for (; this.#lines / this.#scenario.rateHz <= this.#clockS; this.#lines++) {
      const atS = this.#lines / this.#scenario.rateHz;
      yield this.#write(this.#show(this.#stateNow(atS), atS));
    }
  }

  #stateNow(atS: number): TrueState {
    if (this.#stateAt === null) return AT_REST;
    const state = this.#stateAt(Math.max(0, atS - this.#pullBeganS));
    if (state.phase !== 'over') return state;
    // The halves are taken out.
    this.#stateAt = null;
    return AT_REST;
  }
}

/** How many times true pace. */
export function paceFactor(pace: Pace): number {
  return pace === 'true' ? 1 : pace === 'faster' ? FASTER : pace;
}
