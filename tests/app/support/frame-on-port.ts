/** The simulated frame at the far end of a port: what a readout on a cable sends, paced by the test and started by it. */
import { onTestFinished } from 'vitest';
import { LiveFrame } from '../../../drivers/simulated-frame/live-frame.ts';
import { shippedProfile } from '../../../drivers/profiles.ts';
import { shippedScenario } from '../../../drivers/simulated-frame/scenarios.ts';
import { openPortPair } from './port-pair.ts';

const SCENARIO = 'mild-steel-yield-point';
/** What takes two minutes at true pace takes three seconds. */
const PACE = 50;
/** As a USB adapter hands bytes on. */
const BURST_MS = 16;

export class FrameOnPort {
  /** What the program opens. */
  readonly port: string;
  /** The profile in which it speaks, among those that ship. */
  readonly profileName: string;
  readonly #frame: LiveFrame;
  readonly #write: (text: string) => Promise<void>;
  #lastMs = performance.now();
  #held = '';
  #writing: Promise<void> | null = null;
  #isPulled = false;

  private constructor(
    port: string,
    profileName: string,
    frame: LiveFrame,
    write: (text: string) => Promise<void>,
  ) {
    this.port = port;
    this.profileName = profileName;
    this.#frame = frame;
    this.#write = write;
  }

  static async on(folder: string): Promise<FrameOnPort> {
    const scenario = shippedScenario(SCENARIO);
    const profile = scenario === null ? null : shippedProfile(scenario.profile);
    if (scenario === null || profile === null) throw new Error(`There is no scenario ${SCENARIO}.`);
    const { port, write, end } = await openPortPair(folder);
    const frame = new LiveFrame(scenario, { profile, seed: 1, pace: PACE });
    const its = new FrameOnPort(port, profile.name, frame, write);
    const timer = setInterval(() => its.#send(), BURST_MS);
    onTestFinished(async () => {
      clearInterval(timer);
      await end();
      await its.#writing;
    });
    return its;
  }

  #send(): void {
    const nowMs = performance.now();
    const lines = [...this.#frame.advance((nowMs - this.#lastMs) / 1_000)];
    this.#lastMs = nowMs;
    // A port that nobody reads is full: what is shown meanwhile, nobody sees. Of a pull every line waits for its turn.
    if (this.#writing !== null && !this.#isPulled) return;
    this.#held += Buffer.concat(lines).toString('latin1');
    if (this.#writing !== null || this.#held === '') return;
    const text = this.#held;
    this.#held = '';
    this.#writing = this.#write(text)
      .catch(() => undefined)
      .finally(() => (this.#writing = null));
  }

  /** Somebody starts the frame. */
  pull(): void {
    this.#isPulled = true;
    this.#frame.beginPull();
  }
}
