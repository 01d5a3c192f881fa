/** The simulated frame as a source: through the serial library's stream, like a port. */
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { SourceOf } from '../../core/contract/source.ts';
import { answered } from '../bounded-call.ts';
import { LinePace } from '../serial/line-pace.ts';
import { PortStream } from '../serial/port-stream.ts';
import {
  type MonotonicClock,
  SourceFaultError,
  type Transport,
  type TransportListener,
} from '../transport.ts';
import { LiveFrame } from './live-frame.ts';
import { shippedScenarios, shippedScenario } from './scenarios.ts';
import { simulatedBinding } from './simulated-binding.ts';

export class SimulatedTransport implements Transport {
  readonly kind = 'simulated';
  readonly place: string;
  readonly #frame: LiveFrame;
  readonly #clock: MonotonicClock;
  #stream: PortStream | null = null;

  /** Throws a SourceFaultError where no scenario has the name, or the profile has a channel that is not simulated. */
  constructor(source: SourceOf<'simulated'>, profile: ReadoutProfile, clock: MonotonicClock) {
    const scenario = shippedScenario(source.scenario);
    if (scenario === null)
      throw new SourceFaultError({
        code: 'scenario-unknown',
        sentence: `There is no scenario "${source.scenario}"; choose one of ${shippedScenarios()
          .map(({ name }) => name)
          .join(', ')}.`,
      });
    this.place = `simulated frame: ${scenario.title}`;
    this.#clock = clock;
    try {
      this.#frame = new LiveFrame(scenario, {
        profile,
        seed: source.seed ?? scenario.seed,
        pace: source.pace ?? 'true',
      });
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      throw new SourceFaultError({
        code: 'source-failed',
        sentence: `The simulated frame can't speak in the profile "${profile.name}"; choose one of the profiles of the simulated frame.`,
        detail: error.message,
      });
    }
  }

  async open(listener: TransportListener): Promise<void> {
    // Read when it is opened: no start needs it.
    const { SerialPortStream } = await import('@serialport/stream');
    const port = new SerialPortStream({
      binding: simulatedBinding(this.#frame, this.#clock),
      path: 'simulated',
      baudRate: 115_200,
      autoOpen: false,
    });
    await answered((callback) => port.open(callback));
    const pace = new LinePace('any');
    this.#stream = new PortStream({ port, place: this.place, listener, clock: this.#clock, pace });
  }

  beginPull(): void {
    this.#frame.beginPull();
  }

  write(bytes: Uint8Array): Promise<void> {
    return this.#stream?.write(bytes) ?? Promise.reject(new SourceFaultError(notOpen(this.place)));
  }

  close(): Promise<void> {
    return this.#stream?.close() ?? Promise.resolve();
  }
}

function notOpen(place: string): SourceFaultError['fault'] {
  return { code: 'not-open', sentence: `The ${place} is not open; nothing was sent.` };
}
