/**
 * A binding for the serial library's stream: what the library would read from a device comes from the simulated
 * frame. So the demonstration takes the same way as a real port, stream and all.
 */
import type { MonotonicClock } from '../transport.ts';
import type { LiveFrame } from './live-frame.ts';

/** Lines come in bursts of this length, as from a USB adapter that holds bytes back for a moment. */
export const BURST_MS = 10;
/** Bytes that wait for a reader; at this bound the frame's clock waits too, as a pty blocks its writer. */
export const WAITING_BYTES_MAX = 262_144;

/** What the library's stream asks of a binding. */
export interface SimulatedBinding {
  readonly list: () => Promise<[]>;
  readonly open: (options: { readonly path: string; readonly baudRate: number }) => Promise<SimulatedPort>;
}

export function simulatedBinding(frame: LiveFrame, clock: MonotonicClock): SimulatedBinding {
  return {
    list: () => Promise.resolve([]),
    open: ({ baudRate }) => Promise.resolve(new SimulatedPort(baudRate, frame, clock)),
  };
}

interface Reader {
  readonly buffer: Buffer;
  readonly offset: number;
  readonly length: number;
  readonly resolve: (result: { buffer: Buffer; bytesRead: number }) => void;
  readonly reject: (error: Error) => void;
}

/** One opening of the simulated frame, with the calls that the library makes on a device. */
export class SimulatedPort {
  isOpen = true;
  readonly #baudRate: number;
  #waiting = Buffer.alloc(0);
  #reader: Reader | null = null;
  readonly #timer: NodeJS.Timeout;

  constructor(baudRate: number, frame: LiveFrame, clock: MonotonicClock) {
    this.#baudRate = baudRate;
    let before = clock();
    this.#timer = setInterval(() => {
      const now = clock();
      const passedS = (now - before) / 1e6;
      before = now;
      if (this.#waiting.length >= WAITING_BYTES_MAX) return;
      this.#waiting = Buffer.concat([this.#waiting, ...frame.advance(passedS)]);
      this.#serve();
    }, BURST_MS);
  }

  read(buffer: Buffer, offset: number, length: number): Promise<{ buffer: Buffer; bytesRead: number }> {
    if (!this.isOpen) return Promise.reject(canceled());
    return new Promise((resolve, reject) => {
      this.#reader = { buffer, offset, length, resolve, reject };
      this.#serve();
    });
  }

  /** A readout that takes anything and answers nothing. */
  write(): Promise<void> {
    return this.isOpen ? Promise.resolve() : Promise.reject(canceled());
  }

  close(): Promise<void> {
    this.isOpen = false;
    clearInterval(this.#timer);
    this.#reader?.reject(canceled());
    this.#reader = null;
    return Promise.resolve();
  }

  update(): Promise<void> {
    return Promise.resolve();
  }

  set(): Promise<void> {
    return Promise.resolve();
  }

  get(): Promise<{ cts: boolean; dsr: boolean; dcd: boolean }> {
    return Promise.resolve({ cts: true, dsr: true, dcd: true });
  }

  getBaudRate(): Promise<{ baudRate: number }> {
    return Promise.resolve({ baudRate: this.#baudRate });
  }

  flush(): Promise<void> {
    this.#waiting = Buffer.alloc(0);
    return Promise.resolve();
  }

  drain(): Promise<void> {
    return Promise.resolve();
  }

  #serve(): void {
    const reader = this.#reader;
    if (reader === null || this.#waiting.length === 0) return;
    this.#reader = null;
    const bytesRead = Math.min(reader.length, this.#waiting.length);
    this.#waiting.copy(reader.buffer, reader.offset, 0, bytesRead);
    this.#waiting = this.#waiting.subarray(bytesRead);
    reader.resolve({ buffer: reader.buffer, bytesRead });
  }
}

/** What the library expects of a read that its own close has ended. */
function canceled(): Error {
  return Object.assign(new Error('Canceled'), { canceled: true });
}
