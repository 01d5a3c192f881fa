/** An open port of the serial library (real or simulated), watched: bytes with their time, loss, bounded calls. */
import type { SerialPortStream } from '@serialport/stream';
import { PORT_CALL_MS_MAX } from '../../core/limits.ts';
import { answered, boundedCall } from '../bounded-call.ts';
import type { LinePace } from './line-pace.ts';
import { readAtOnce } from './read-at-once.ts';
import {
  type CloseReason,
  type MonotonicClock,
  SourceFaultError,
  type TransportListener,
} from '../transport.ts';

/** The part of the library's stream that is used: the same for every binding. */
export type OpenPort = Pick<SerialPortStream, 'isOpen' | 'on' | 'write' | 'close' | 'port'>;

export interface PortStreamOptions {
  readonly port: OpenPort;
  readonly place: string;
  readonly listener: TransportListener;
  readonly clock: MonotonicClock;
  /** How much to read at once, where the port can be read directly. */
  readonly pace: LinePace;
}

export class PortStream {
  readonly #port: OpenPort;
  readonly #place: string;
  #listener: TransportListener | null;
  #closing = false;

  constructor({ port, place, listener, clock, pace }: PortStreamOptions) {
    this.#port = port;
    this.#place = place;
    this.#listener = listener;
    const isRead = readAtOnce(port.port, pace, clock, {
      onPiece: (bytes, arrivedUs) => this.#listener?.onChunk(bytes, arrivedUs),
      onLost: (error) => this.abandon(error.message),
    });
    if (!isRead)
      port.on('data', (bytes: Buffer) => {
        this.#listener?.onChunk(bytes, clock());
      });
    port.on('close', (error: Error | null | undefined) => {
      const wasAsked = this.#closing && (error === null || error === undefined);
      this.#ended(wasAsked ? asked(place) : lost(place, error?.message ?? 'closed by the system'));
    });
    // The library's end of stream: no more bytes will ever come, though the port calls itself open.
    port.on('end', () => this.abandon('end of data'));
    port.on('error', (error: Error) => {
      this.#listener?.onFault({
        code: 'source-failed',
        sentence: `${place} reported a fault (${error.message}); check the adapter and its cable.`,
        detail: error.message,
      });
    });
  }

  /** Whether the port has neither been closed nor lost. */
  get isLive(): boolean {
    return this.#listener !== null;
  }

  /** Rejects with a SourceFaultError, at the latest after PORT_CALL_MS_MAX. */
  async write(bytes: Uint8Array): Promise<void> {
    if (!this.#port.isOpen)
      throw new SourceFaultError({
        code: 'not-open',
        sentence: `${this.#place} is not open; nothing was sent to the readout.`,
      });
    try {
      await boundedCall('write', PORT_CALL_MS_MAX, () =>
        answered((callback) => this.#port.write(Buffer.from(bytes), callback)),
      );
    } catch (error) {
      throw new SourceFaultError({
        code: 'write-failed',
        sentence: `The readout on ${this.#place} did not take what was sent to it; check its cable and its flow control.`,
        detail: error instanceof Error ? error.message : String(error),
      });
    }
  }

  /** Settles within PORT_CALL_MS_MAX, whatever the port does. */
  async close(): Promise<void> {
    this.#closing = true;
    try {
      if (this.#port.isOpen)
        await boundedCall('close', PORT_CALL_MS_MAX, () =>
          answered((callback) => this.#port.close(callback)),
        );
    } catch {
      // A handle that can't be closed is abandoned; nothing waits for it.
    }
    this.#ended(asked(this.#place));
  }

  /** The port is lost but the library has not said so: its handle is closed at once, so that its name comes free. */
  abandon(detail: string): void {
    if (this.#closing) return;
    this.#ended(lost(this.#place, detail));
    if (this.#port.isOpen) this.#port.close(() => undefined);
  }

  #ended(reason: CloseReason): void {
    const listener = this.#listener;
    this.#listener = null;
    listener?.onClose(reason);
  }
}

function asked(place: string): CloseReason {
  return { kind: 'asked', sentence: `${place} was closed.` };
}

function lost(place: string, detail: string): CloseReason {
  return {
    kind: 'lost',
    sentence: `The connection to ${place} is lost; check the adapter and its cable. What was received is kept.`,
    detail,
  };
}
