/** The simulated frame as a readout: lines with the time at which each is due. */
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import { lineWriter } from '../lines/line-writer.ts';
import { instruments } from './instruments.ts';
import { pullInTime, scenarioSeconds } from './pull-in-time.ts';
import { pullPath } from './pull-path.ts';
import type { Scenario } from './scenario.ts';

export interface TimedLine {
  /** Since the readout was switched on. */
  readonly elapsedUs: number;
  readonly bytes: Buffer;
}

export interface SimulatedFrameOptions {
  readonly profile: ReadoutProfile;
  readonly seed?: number;
}

/** One specimen pulled: rest, pull, break, tail. Seeded: the same lines every time. */
export class SimulatedFrame {
  readonly lengthS: number;
  readonly lineCount: number;
  readonly #rateHz: number;
  readonly #lineAt: (index: number) => TimedLine;

  /** Throws a RangeError where the scenario's constants make no pull. */
  constructor(scenario: Scenario, { profile, seed = scenario.seed }: SimulatedFrameOptions) {
    const path = pullPath(scenario);
    const stateAt = pullInTime(scenario, path);
    const show = instruments(scenario, profile, seed);
    const write = lineWriter(profile);
    this.#rateHz = scenario.rateHz;
    this.lengthS = scenarioSeconds(scenario, path);
    this.lineCount = Math.floor(this.lengthS * scenario.rateHz) + 1;
    this.#lineAt = (index) => {
      const elapsedS = index / scenario.rateHz;
      return { elapsedUs: Math.round(elapsedS * 1e6), bytes: write(show(stateAt(elapsedS), elapsedS)) };
    };
  }

  /** All lines in order. May be walked once only: the noise goes on from line to line. */
  *lines(): Generator<TimedLine, void, undefined> {
    for (let index = 0; index < this.lineCount; index++) yield this.#lineAt(index);
  }

  /** What the readout goes on showing after the last of `lines()`: the unloaded frame. So many seconds of it. */
  *linesAtRest(seconds: number): Generator<TimedLine, void, undefined> {
    const end = this.lineCount + Math.ceil(seconds * this.#rateHz);
    for (let index = this.lineCount; index < end; index++) yield this.#lineAt(index);
  }
}
