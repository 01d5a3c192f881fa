/** Raw bytes over TCP: a serial device server in front of the readout. */
import { type Socket, connect } from 'node:net';
import type { SourceOf } from '../../core/contract/source.ts';
import { PORT_CALL_MS_MAX } from '../../core/limits.ts';
import { NoAnswerError, answered, boundedCall } from '../bounded-call.ts';
import {
  type CloseReason,
  type MonotonicClock,
  type SourceFault,
  SourceFaultError,
  type Transport,
  type TransportListener,
} from '../transport.ts';

/** A peer that has gone without a word is noticed by the system's own probes, which begin after this. */
const KEEP_ALIVE_MS = 5_000;

export class TcpTransport implements Transport {
  readonly kind = 'tcp';
  readonly place: string;
  readonly #source: SourceOf<'tcp'>;
  readonly #clock: MonotonicClock;
  #socket: Socket | null = null;
  #listener: TransportListener | null = null;

  constructor(source: SourceOf<'tcp'>, clock: MonotonicClock) {
    this.#source = source;
    this.#clock = clock;
    this.place = `${source.host}:${String(source.port)}`;
  }

  async open(listener: TransportListener): Promise<void> {
    const { host, port } = this.#source;
    const socket = connect({
      host,
      port,
      noDelay: true,
      keepAlive: true,
      keepAliveInitialDelay: KEEP_ALIVE_MS,
    });
    let detail = 'closed by the other side';
    // From here on for good: an error without a listener would end the process.
    socket.on('error', (error) => {
      detail = error.message;
    });
    try {
      await boundedCall(
        'connect',
        PORT_CALL_MS_MAX,
        () =>
          new Promise<void>((resolve, reject) => {
            socket.once('connect', resolve);
            socket.once('error', reject);
          }),
      );
    } catch (error) {
      socket.destroy();
      throw new SourceFaultError(faultOfConnecting(this.place, error));
    }
    this.#socket = socket;
    this.#listener = listener;
    socket.on('data', (bytes: Buffer) => this.#listener?.onChunk(bytes, this.#clock()));
    // The other side sends no more: for a readout that is a loss, though one could still write.
    socket.on('end', () => socket.destroy());
    socket.on('close', () =>
      this.#ended({
        kind: 'lost',
        sentence: `The connection to ${this.place} is lost; check the device server and the network. What was received is kept.`,
        detail,
      }),
    );
  }

  async write(bytes: Uint8Array): Promise<void> {
    const socket = this.#socket;
    if (socket === null || socket.destroyed)
      throw new SourceFaultError({
        code: 'not-open',
        sentence: `${this.place} is not open; nothing was sent.`,
      });
    try {
      await boundedCall('write', PORT_CALL_MS_MAX, () =>
        answered((callback) => socket.write(bytes, callback)),
      );
    } catch (error) {
      throw new SourceFaultError({
        code: 'write-failed',
        sentence: `${this.place} did not take what was sent to it; check the device server.`,
        detail: error instanceof Error ? error.message : String(error),
      });
    }
  }

  close(): Promise<void> {
    // No farewell that the other side could delay.
    this.#ended({ kind: 'asked', sentence: `${this.place} was closed.` });
    this.#socket?.destroy();
    return Promise.resolve();
  }

  #ended(reason: CloseReason): void {
    const listener = this.#listener;
    this.#listener = null;
    listener?.onClose(reason);
  }
}

/** Why a connection did not come about. */
export function faultOfConnecting(place: string, error: unknown): SourceFault {
  const detail = error instanceof Error ? error.message : String(error);
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  if (error instanceof NoAnswerError || code === 'ETIMEDOUT')
    return {
      code: 'no-answer',
      sentence: `${place} does not answer; check its address and that it is switched on.`,
      detail,
    };
  if (code === 'ECONNREFUSED')
    return {
      code: 'connection-refused',
      sentence: `${place} refuses the connection; check the port number and whether another program is connected to it.`,
      detail,
    };
  return {
    code: 'host-unreachable',
    sentence: `${place} can't be reached; check the address and the network.`,
    detail,
  };
}
