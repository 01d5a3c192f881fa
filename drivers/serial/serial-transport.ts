/** A local serial port, through the serialport library. Lives in the recorder, never in a window. */
import { realpath, stat } from 'node:fs/promises';
import type { SerialPort } from 'serialport';
import type { ReadoutProfile, SerialSettings } from '../../core/contract/readout-profile.ts';
import type { ListedPort, SourceOf } from '../../core/contract/source.ts';
import { PORT_CALL_MS_MAX } from '../../core/limits.ts';
import { answered, boundedCall } from '../bounded-call.ts';
import {
  type CloseReason,
  type MonotonicClock,
  SourceFaultError,
  type Transport,
  type TransportListener,
} from '../transport.ts';
import { faultBeforeOpening, faultOfOpening } from './open-fault.ts';
import { placeOfIdentity } from './place-of-identity.ts';

/** Some systems report the loss of an adapter by nothing at all: its device file is looked for this often. */
export const PRESENCE_CHECK_MS = 1_000;

const SETTINGS_IF_NOT_NAMED: SerialSettings = {
  baudRate: 9600,
  dataBits: 8,
  parity: 'none',
  stopBits: 1,
  flowControl: 'none',
};

export interface SerialTransportOptions {
  readonly profile: Pick<ReadoutProfile, 'serial' | 'controlLines'>;
  readonly clock: MonotonicClock;
  /** How the ports of the computer are found, for sources that carry an identity. */
  readonly listPorts: () => Promise<readonly ListedPort[]>;
}

export class SerialTransport implements Transport {
  readonly kind = 'serial';
  readonly #source: SourceOf<'serial'>;
  readonly #options: SerialTransportOptions;
  #path: string;
  #port: SerialPort | null = null;
  #listener: TransportListener | null = null;
  #presence: NodeJS.Timeout | null = null;
  #closing = false;

  constructor(source: SourceOf<'serial'>, options: SerialTransportOptions) {
    this.#source = source;
    this.#options = options;
    this.#path = source.path;
  }

  get place(): string {
    return this.#path;
  }

  async open(listener: TransportListener): Promise<void> {
    const { profile, clock, listPorts } = this.#options;
    if (this.#source.identity !== undefined) {
      const found = placeOfIdentity(this.#source.path, this.#source.identity, await listPorts());
      if (found.kind === 'refused') throw new SourceFaultError(found.fault);
      this.#path = found.path;
      if (found.note !== undefined) listener.onNote(found.note);
    }
    const path = this.#path;
    const fault = await faultBeforeOpening(path);
    if (fault !== null) throw new SourceFaultError(fault);

    const settings = profile.serial ?? SETTINGS_IF_NOT_NAMED;
    let port: SerialPort;
    try {
      port = await openPort(path, settings);
    } catch (error) {
      throw new SourceFaultError(await faultOfOpening(path, error));
    }
    this.#port = port;
    this.#listener = listener;
    port.on('data', (bytes: Buffer) => {
      this.#listener?.onChunk(bytes, clock());
    });
    port.on('close', (error: Error | null | undefined) => {
      this.#ended(
        (error === null || error === undefined) && this.#closing
          ? { kind: 'asked', sentence: `${path} was closed.` }
          : lost(path, error?.message ?? 'closed by the system'),
      );
    });
    // The library's end of stream: no more bytes will ever come, though the port calls itself open.
    port.on('end', () => this.#abandon('end of data'));
    port.on('error', (error: Error) => {
      this.#listener?.onFault({
        code: 'source-failed',
        sentence: `${path} reported a fault (${error.message}); check the adapter and its cable.`,
        detail: error.message,
      });
    });
    await this.#setControlLines(port);
    this.#watchPresence(path);
  }

  async write(bytes: Uint8Array): Promise<void> {
    const port = this.#port;
    if (port?.isOpen !== true)
      throw new SourceFaultError({
        code: 'not-open',
        sentence: `${this.#path} is not open; nothing was sent to the readout.`,
      });
    try {
      await boundedCall('write', PORT_CALL_MS_MAX, () =>
        answered((callback) => port.write(Buffer.from(bytes), callback)),
      );
    } catch (error) {
      throw new SourceFaultError({
        code: 'write-failed',
        sentence: `The readout on ${this.#path} did not take what was sent to it; check its cable and its flow control.`,
        detail: error instanceof Error ? error.message : String(error),
      });
    }
  }

  async close(): Promise<void> {
    const port = this.#port;
    if (port === null) return;
    this.#closing = true;
    this.#stopWatching();
    try {
      if (port.isOpen)
        await boundedCall('close', PORT_CALL_MS_MAX, () => answered((callback) => port.close(callback)));
    } catch {
      // A handle that can't be closed is abandoned; nothing waits for it.
    }
    this.#ended({ kind: 'asked', sentence: `${this.#path} was closed.` });
  }

  async #setControlLines(port: SerialPort): Promise<void> {
    const { controlLines } = this.#options.profile;
    if (controlLines === undefined) return;
    const lines = {
      ...(controlLines.dtr === undefined ? {} : { dtr: controlLines.dtr }),
      ...(controlLines.rts === undefined ? {} : { rts: controlLines.rts }),
    };
    try {
      await boundedCall('set', PORT_CALL_MS_MAX, () => answered((callback) => port.set(lines, callback)));
    } catch (error) {
      const detail = error instanceof Error ? error.message : String(error);
      this.#listener?.onNote({
        code: 'control-lines',
        sentence: `${this.#path} has no control lines to set (${detail}); the readout is read all the same.`,
      });
    }
  }

  #watchPresence(path: string): void {
    if (process.platform === 'win32') return;
    const device = realpath(path);
    device.catch(() => undefined);
    this.#presence = setInterval(() => {
      void device.then((file) => stat(file)).catch(() => this.#abandon('its device file is gone'));
    }, PRESENCE_CHECK_MS);
    this.#presence.unref();
  }

  /** The port is lost but the library has not said so: its handle is closed at once, so that its name comes free. */
  #abandon(detail: string): void {
    const port = this.#port;
    if (port === null || this.#closing) return;
    this.#ended(lost(this.#path, detail));
    if (port.isOpen) port.close(() => undefined);
  }

  #stopWatching(): void {
    if (this.#presence !== null) clearInterval(this.#presence);
    this.#presence = null;
  }

  #ended(reason: CloseReason): void {
    this.#stopWatching();
    const listener = this.#listener;
    this.#listener = null;
    listener?.onClose(reason);
  }
}

function lost(path: string, detail: string): CloseReason {
  return {
    kind: 'lost',
    sentence: `The connection to ${path} is lost; check the adapter and its cable. What was received is kept.`,
    detail,
  };
}

/** Opens the port; what arrives before somebody listens waits in the stream. */
async function openPort(path: string, settings: SerialSettings): Promise<SerialPort> {
  const { SerialPort } = await import('serialport');
  const port = new SerialPort({
    path,
    baudRate: settings.baudRate,
    dataBits: settings.dataBits,
    parity: settings.parity,
    stopBits: settings.stopBits,
    rtscts: settings.flowControl === 'hardware',
    xon: settings.flowControl === 'software',
    xoff: settings.flowControl === 'software',
    lock: true,
    autoOpen: false,
  });
  return boundedCall(
    'open',
    PORT_CALL_MS_MAX,
    async () => {
      await answered((callback) => port.open(callback));
      return port;
    },
    // Opened after all, when nobody waits any more: it must not hold the device.
    (late) => late.close(() => undefined),
  );
}
