/** Writes lines to a port, each when it is due, and says when nobody takes them. */
import type { SerialPort } from 'serialport';
import { answered, boundedCall } from '../bounded-call.ts';
import { SourceFaultError, monotonicUs } from '../transport.ts';
import type { TimedLine } from './simulated-frame.ts';

/** A reader that takes nothing for this long is not there (a pty blocks its writer after some kilobytes). */
export const READER_MS_MAX = 60_000;
/** A write that takes longer waits for a reader; what is late by so much is not made up for by a rush of lines. */
const WAITING_MS = 500;
/** Lines are put together for so long before they are written, as a USB adapter would. */
const BURST_MS = 4;
/** Bytes of one write. */
const WRITE_BYTES_MAX = 4_096;

export interface PacedWriterOptions {
  readonly path: string;
  /** Called when a write has waited for WAITING_MS. */
  readonly onWaiting?: () => void;
}

export class PacedWriter {
  lines = 0;
  bytes = 0;
  readonly #port: SerialPort;
  readonly #options: PacedWriterOptions;
  readonly #beganUs = monotonicUs();
  #batch: Buffer[] = [];
  #batchBytes = 0;
  /** Time spent waiting for a reader. */
  #waitedUs = 0;

  constructor(port: SerialPort, options: PacedWriterOptions) {
    this.#port = port;
    this.#options = options;
  }

  /** Since the first line. */
  get seconds(): number {
    return (monotonicUs() - this.#beganUs) / 1e6;
  }

  /**
   * Writes the lines at so many times their pace, the first one now. Rejects with a SourceFaultError where nobody
   * takes them.
   */
  async write(
    lines: Iterable<TimedLine>,
    factor: number,
    isOver: () => boolean,
    readerMsMax = READER_MS_MAX,
  ): Promise<void> {
    const beganUs = monotonicUs();
    const waitedBeforeUs = this.#waitedUs;
    let firstUs: number | null = null;
    for (const { elapsedUs, bytes } of lines) {
      if (isOver()) break;
      firstUs ??= elapsedUs;
      const passedUs = monotonicUs() - beganUs - (this.#waitedUs - waitedBeforeUs);
      const waitMs = ((elapsedUs - firstUs) / factor - passedUs) / 1000;
      if (waitMs > 0) {
        await this.#flush(readerMsMax);
        await new Promise((resolve) => setTimeout(resolve, Math.max(waitMs, BURST_MS)));
      }
      this.#batch.push(bytes);
      this.#batchBytes += bytes.length;
      this.lines++;
      this.bytes += bytes.length;
      if (this.#batchBytes >= WRITE_BYTES_MAX) await this.#flush(readerMsMax);
    }
    await this.#flush(readerMsMax);
  }

  async #flush(readerMsMax: number): Promise<void> {
    if (this.#batch.length === 0) return;
    const whole = Buffer.concat(this.#batch);
    this.#batch = [];
    this.#batchBytes = 0;
    const { path, onWaiting } = this.#options;
    const waiting = onWaiting === undefined ? undefined : setTimeout(onWaiting, WAITING_MS);
    const beganUs = monotonicUs();
    try {
      if (!this.#port.isOpen) throw new Error('the port is closed');
      await boundedCall('write', readerMsMax, () =>
        answered((callback) => this.#port.write(whole, callback)),
      );
    } catch (error) {
      throw new SourceFaultError({
        code: 'write-failed',
        sentence: `${path} takes no more bytes; check that the other end of the line is open and being read.`,
        detail: error instanceof Error ? error.message : String(error),
      });
    } finally {
      clearTimeout(waiting);
      const tookUs = monotonicUs() - beganUs;
      if (tookUs > WAITING_MS * 1000) this.#waitedUs += tookUs;
    }
  }
}
