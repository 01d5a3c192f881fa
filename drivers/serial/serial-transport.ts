/** A local serial port, through the serialport library. Lives in the recorder, never in a window. */
import { realpath, stat } from 'node:fs/promises';
import type { SerialPort } from 'serialport';
import type { ReadoutProfile, SerialSettings } from '../../core/contract/readout-profile.ts';
import type { ListedPort, SourceOf } from '../../core/contract/source.ts';
import { PORT_CALL_MS_MAX } from '../../core/limits.ts';
import { answered, boundedCall } from '../bounded-call.ts';
import {
  type MonotonicClock,
  SourceFaultError,
  type Transport,
  type TransportListener,
} from '../transport.ts';
import { faultBeforeOpening, faultOfOpening } from './open-fault.ts';
import { LinePace } from './line-pace.ts';
import { openPort } from './open-port.ts';
import { placeOfIdentity } from './place-of-identity.ts';
import { PortStream } from './port-stream.ts';

/** Some systems report the loss of an adapter by nothing at all: its device file is looked for this often. */
export const PRESENCE_CHECK_MS = 1_000;

export interface SerialTransportOptions {
  readonly profile: Pick<ReadoutProfile, 'serial' | 'controlLines'> &
    Partial<Pick<ReadoutProfile, 'framing'>>;
  readonly clock: MonotonicClock;
  /** How the ports of the computer are found, for sources that carry an identity. */
  readonly listPorts: () => Promise<readonly ListedPort[]>;
}

export class SerialTransport implements Transport {
  readonly kind = 'serial';
  readonly #source: SourceOf<'serial'>;
  readonly #options: SerialTransportOptions;
  #path: string;
  #stream: PortStream | null = null;
  #presence: NodeJS.Timeout | null = null;

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
    let port: SerialPort;
    try {
      port = await openPort(path, profile.serial ?? SETTINGS_IF_NOT_NAMED);
    } catch (error) {
      throw new SourceFaultError(await faultOfOpening(path, error));
    }
    const pace = new LinePace(profile.framing?.terminator ?? 'any');
    this.#stream = new PortStream({ port, place: path, listener, clock, pace });
    this.#watchPresence(path);
    if (profile.controlLines !== undefined) await setControlLines(port, path, profile.controlLines, listener);
  }

  async write(bytes: Uint8Array): Promise<void> {
    if (this.#stream === null)
      throw new SourceFaultError({
        code: 'not-open',
        sentence: `${this.#path} is not open; nothing was sent to the readout.`,
      });
    await this.#stream.write(bytes);
  }

  async close(): Promise<void> {
    this.#stopWatching();
    await this.#stream?.close();
  }

  #watchPresence(path: string): void {
    // On Windows ports are no files.
    if (process.platform === 'win32') return;
    const device = realpath(path);
    device.catch(() => undefined);
    this.#presence = setInterval(() => {
      if (this.#stream?.isLive !== true) {
        this.#stopWatching();
        return;
      }
      device
        .then((file) => stat(file))
        .catch((error: unknown) => {
          // Whatever else keeps it from being looked at says nothing of a port that is open and heard.
          if (!isGone(error)) return;
          this.#stopWatching();
          this.#stream?.abandon('its device file is gone');
        });
    }, PRESENCE_CHECK_MS);
    this.#presence.unref();
  }

  #stopWatching(): void {
    if (this.#presence !== null) clearInterval(this.#presence);
    this.#presence = null;
  }
}

const GONE: ReadonlySet<unknown> = new Set(['ENOENT', 'ENOTDIR', 'ENODEV', 'ENXIO']);
const isGone = (error: unknown): boolean => error instanceof Error && 'code' in error && GONE.has(error.code);

const SETTINGS_IF_NOT_NAMED: SerialSettings = {
  baudRate: 9600,
  dataBits: 8,
  parity: 'none',
  stopBits: 1,
  flowControl: 'none',
};

/** Virtual ports have no control lines: their failure is a note, never a stop. */
async function setControlLines(
  port: SerialPort,
  path: string,
  { dtr, rts }: NonNullable<ReadoutProfile['controlLines']>,
  listener: TransportListener,
): Promise<void> {
  const lines = { ...(dtr === undefined ? {} : { dtr }), ...(rts === undefined ? {} : { rts }) };
  try {
    await boundedCall('set', PORT_CALL_MS_MAX, () => answered((callback) => port.set(lines, callback)));
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    listener.onNote({
      code: 'control-lines',
      sentence: `The control lines of ${path} could not be set (${detail}); the readout is read all the same.`,
    });
  }
}
