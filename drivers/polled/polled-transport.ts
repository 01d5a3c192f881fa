/**
 * A readout that answers when asked, on any transport. One request, then its line or the end of its time, then the
 * next: never two in flight.
 */
import type { Framing } from '../../core/contract/readout-profile.ts';
import { LineAssembler } from '../lines/line-assembler.ts';
import { SourceFaultError, type Transport, type TransportListener } from '../transport.ts';

export interface PolledOptions {
  /** Bytes as latin-1 text. */
  readonly request: string;
  readonly intervalMs: number;
  readonly timeoutMs: number;
  readonly framing: Framing;
}

export class PolledTransport implements Transport {
  readonly kind: Transport['kind'];
  readonly #inner: Transport;
  readonly #options: PolledOptions;
  readonly #assembler: LineAssembler;
  #listener: TransportListener | null = null;
  #next: NodeJS.Timeout | null = null;
  #timeout: NodeJS.Timeout | null = null;
  #askedMs = 0;
  #isSilent = false;

  constructor(inner: Transport, options: PolledOptions) {
    this.kind = inner.kind;
    this.#inner = inner;
    this.#options = options;
    this.#assembler = new LineAssembler(options.framing);
  }

  get place(): string {
    return this.#inner.place;
  }

  async open(listener: TransportListener): Promise<void> {
    this.#listener = listener;
    try {
      await this.#inner.open({
        onChunk: (bytes, arrivedUs) => {
          listener.onChunk(bytes, arrivedUs);
          if (this.#assembler.push(bytes, arrivedUs).length > 0) this.#answered();
        },
        onClose: (reason) => {
          this.#stop();
          listener.onClose(reason);
        },
        onFault: listener.onFault,
        onNote: listener.onNote,
      });
    } catch (error) {
      this.#stop();
      throw error;
    }
    this.#ask();
  }

  write(bytes: Uint8Array): Promise<void> {
    return this.#inner.write(bytes);
  }

  close(): Promise<void> {
    this.#stop();
    return this.#inner.close();
  }

  #ask(): void {
    if (this.#listener === null) return;
    const { request, timeoutMs } = this.#options;
    this.#askedMs = performance.now();
    this.#timeout = setTimeout(() => this.#unanswered(), timeoutMs);
    this.#inner.write(Buffer.from(request, 'latin1')).catch((error: unknown) => {
      if (!(error instanceof SourceFaultError)) throw error;
      // The time of the request runs on; its end asks again.
      this.#listener?.onFault(error.fault);
    });
  }

  #answered(): void {
    // A line that nobody has asked for (a late answer) begins no second request.
    if (this.#timeout === null) return;
    clearTimeout(this.#timeout);
    this.#timeout = null;
    this.#isSilent = false;
    this.#askAgain();
  }

  #unanswered(): void {
    this.#timeout = null;
    // Told once for each silence, not for each request.
    if (!this.#isSilent)
      this.#listener?.onFault({
        code: 'no-answer',
        sentence: `The readout on ${this.place} does not answer its request; check the cable and the request in the readout profile.`,
      });
    this.#isSilent = true;
    this.#askAgain();
  }

  #askAgain(): void {
    if (this.#listener === null) return;
    const waitMs = Math.max(0, this.#options.intervalMs - (performance.now() - this.#askedMs));
    this.#next = setTimeout(() => this.#ask(), waitMs);
  }

  #stop(): void {
    this.#listener = null;
    if (this.#next !== null) clearTimeout(this.#next);
    if (this.#timeout !== null) clearTimeout(this.#timeout);
    this.#next = null;
    this.#timeout = null;
  }
}
