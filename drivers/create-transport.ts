/** From a source (data) to the transport that serves it. The only place that knows all kinds. */
import type { ReadoutProfile } from '../core/contract/readout-profile.ts';
import type { ListedPort, Source } from '../core/contract/source.ts';
import { ADDRESS_FORMS } from '../core/contract/source-address.ts';
import { ModbusTransport } from './modbus/modbus-transport.ts';
import { PolledTransport } from './polled/polled-transport.ts';
import { ReplayTransport } from './replay/replay-transport.ts';
import { listPorts } from './serial/list-ports.ts';
import { SerialTransport } from './serial/serial-transport.ts';
import { SimulatedTransport } from './simulated-frame/simulated-transport.ts';
import { TcpTransport } from './tcp/tcp-transport.ts';
import { type MonotonicClock, SourceFaultError, type Transport, monotonicUs } from './transport.ts';

export interface TransportOptions {
  readonly profile: ReadoutProfile;
  readonly clock?: MonotonicClock;
  /** How the computer's ports are found; tests hand in lists of their own. */
  readonly ports?: () => Promise<readonly ListedPort[]>;
}

/** Throws a SourceFaultError where the source can't exist (scenario unknown, registers without Modbus); opening comes later. */
export function createTransport(
  source: Source,
  { profile, clock = monotonicUs, ports = listPorts }: TransportOptions,
): Transport {
  // Nobody would ask for the registers, and the port would be called silent.
  if (profile.format.kind === 'registers' && (source.kind === 'serial' || source.kind === 'tcp'))
    throw new SourceFaultError({
      code: 'source-failed',
      sentence: `The profile "${profile.name}" describes Modbus registers, which are asked for at ${ADDRESS_FORMS['modbus-rtu']} or ${ADDRESS_FORMS['modbus-tcp']}; give the port so, or choose a profile of lines.`,
    });
  switch (source.kind) {
    case 'serial':
      return asking(new SerialTransport(source, { profile, clock, listPorts: ports }), profile);
    case 'tcp':
      return asking(new TcpTransport(source, clock), profile);
    case 'simulated':
      return new SimulatedTransport(source, profile, clock);
    case 'replay':
      return new ReplayTransport(source, profile, clock);
    case 'modbus-tcp':
    case 'modbus-rtu':
      return new ModbusTransport(source, { profile, clock, listPorts: ports });
  }
}

/** A readout that answers when asked is asked; one that sends by itself, or on a key, is listened to. */
function asking(transport: Transport, { mode, framing }: ReadoutProfile): Transport {
  if (mode.kind !== 'polled' || mode.request === undefined) return transport;
  const { request, intervalMs, timeoutMs } = mode;
  return new PolledTransport(transport, { request, intervalMs, timeoutMs, framing });
}
