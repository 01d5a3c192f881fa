/** From a source (data) to the transport that serves it. The only place that knows all kinds. */
import type { ReadoutProfile } from '../core/contract/readout-profile.ts';
import type { ListedPort, Source } from '../core/contract/source.ts';
import { ReplayTransport } from './replay/replay-transport.ts';
import { listPorts } from './serial/list-ports.ts';
import { SerialTransport } from './serial/serial-transport.ts';
import { SimulatedTransport } from './simulated-frame/simulated-transport.ts';
import { type MonotonicClock, SourceFaultError, type Transport, monotonicUs } from './transport.ts';

export interface TransportOptions {
  readonly profile: ReadoutProfile;
  readonly clock?: MonotonicClock;
  /** How the computer's ports are found; tests hand in lists of their own. */
  readonly ports?: () => Promise<readonly ListedPort[]>;
}

/** Throws a SourceFaultError where the source can't exist (scenario unknown); opening comes later. */
export function createTransport(
  source: Source,
  { profile, clock = monotonicUs, ports = listPorts }: TransportOptions,
): Transport {
  switch (source.kind) {
    case 'serial':
      return new SerialTransport(source, { profile, clock, listPorts: ports });
    case 'simulated':
      return new SimulatedTransport(source, profile, clock);
    case 'replay':
      return new ReplayTransport(source, profile, clock);
    case 'tcp':
    case 'modbus-tcp':
    case 'modbus-rtu':
      throw new SourceFaultError({
        code: 'source-failed',
        sentence: `Readouts of the kind "${source.kind}" can't be opened yet.`,
      });
  }
}
