/**
 * The open readout: one transport after the other behind the same identity. A lost port is closed at once and
 * looked for again until it is back or the readout is closed by a person.
 */
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { Source } from '../../core/contract/source.ts';
import { CHUNK_BYTES_MAX, REOPEN_INTERVAL_MS } from '../../core/limits.ts';
import { createTransport } from '../../drivers/create-transport.ts';
import { type CloseReason, SourceFaultError, type Transport, monotonicUs } from '../../drivers/transport.ts';

export interface ReadoutListener {
  /** The source is open, for the first time or again; chunks of this opening follow. */
  readonly onOpened: (atUs: number) => void;
  readonly onChunk: (bytes: Uint8Array, arrivedUs: number) => void;
  /** No more bytes from this opening. `willReopen`: it is being looked for again. */
  readonly onEnded: (reason: CloseReason, willReopen: boolean) => void;
  /** Something to be told that stops nothing. */
  readonly onRemark: (code: string, sentence: string) => void;
  /** A request that was not answered, or refused. */
  readonly onFault: (code: string, sentence: string) => void;
}

export type Link = 'open' | 'lost' | 'finished';

/** Makes a transport; tests hand in their own. */
export type MakeTransport = (source: Source, profile: ReadoutProfile) => Transport;
export const makeTransport: MakeTransport = (source, profile) => createTransport(source, { profile });

export class Readout {
  readonly source: Source;
  readonly profile: ReadoutProfile;
  readonly #listener: ReadoutListener;
  readonly #make: MakeTransport;
  #transport: Transport | null = null;
  #retry: NodeJS.Timeout | null = null;
  #closed = false;
  #link: Link = 'lost';
  #place: string;
  /** What was told since the source was open last: each reason once, however often it is looked for. */
  readonly #told = new Set<string>();

  constructor(
    { source, profile }: { readonly source: Source; readonly profile: ReadoutProfile },
    listener: ReadoutListener,
    make: MakeTransport = makeTransport,
  ) {
    this.source = source;
    this.profile = profile;
    this.#listener = listener;
    this.#make = make;
    this.#place = placeWords(source);
  }

  get link(): Link {
    return this.#link;
  }

  /** "/dev/ttyUSB0, profile …" */
  get words(): string {
    return this.#place;
  }

  /** Opens it once. Rejects with a SourceFaultError; then it is closed for good. */
  async open(): Promise<void> {
    try {
      await this.#openOnce();
    } catch (error) {
      this.#closed = true;
      throw error;
    }
  }

  /** Looks for the source until it is there; for going on with a record after a crash. */
  openPatiently(): void {
    void this.#tryAgain();
  }

  async write(bytes: Uint8Array): Promise<void> {
    if (this.#transport === null)
      throw new SourceFaultError({
        code: 'not-open',
        sentence: `${this.#place} is not open; nothing was sent to the readout.`,
      });
    await this.#transport.write(bytes);
  }

  /** The simulated frame starts its pull; a real one is started by a person at the frame. */
  beginPull(): void {
    this.#transport?.beginPull?.();
  }

  /** Always settles. */
  async close(): Promise<void> {
    this.#closed = true;
    if (this.#retry !== null) clearTimeout(this.#retry);
    const transport = this.#transport;
    this.#transport = null;
    await transport?.close();
  }

  async #openOnce(): Promise<void> {
    const transport = this.#make(this.source, this.profile);
    await transport.open({
      onChunk: (bytes, arrivedUs) => {
        if (this.#transport !== transport) this.#takeOver(transport, arrivedUs);
        for (let at = 0; at < bytes.length; at += CHUNK_BYTES_MAX)
          this.#listener.onChunk(bytes.subarray(at, at + CHUNK_BYTES_MAX), arrivedUs);
      },
      onClose: (reason) => this.#ended(transport, reason),
      onFault: (fault) => this.#listener.onFault(fault.code, fault.sentence),
      onNote: (note) => this.#remark(note),
    });
    if (this.#closed) {
      await transport.close();
      return;
    }
    if (this.#transport !== transport && !this.#endedEarly.has(transport))
      this.#takeOver(transport, monotonicUs());
  }

  readonly #endedEarly = new WeakSet<Transport>();

  /** Bytes may come before the promise of opening has settled. */
  #takeOver(transport: Transport, atUs: number): void {
    this.#transport = transport;
    this.#link = 'open';
    this.#place = transport.place;
    this.#told.clear();
    this.#listener.onOpened(atUs);
  }

  #ended(transport: Transport, reason: CloseReason): void {
    this.#endedEarly.add(transport);
    if (this.#transport !== transport) return;
    this.#transport = null;
    const willReopen = reason.kind === 'lost' && !this.#closed;
    this.#link = reason.kind === 'finished' ? 'finished' : 'lost';
    this.#listener.onEnded(reason, willReopen);
    // The dead handle is let go at once, so that the adapter can come back under its own path.
    void transport.close();
    if (willReopen) this.#tryLater();
  }

  #tryLater(): void {
    if (this.#closed) return;
    this.#retry = setTimeout(() => void this.#tryAgain(), REOPEN_INTERVAL_MS);
  }

  async #tryAgain(): Promise<void> {
    if (this.#closed) return;
    try {
      await this.#openOnce();
    } catch (error) {
      if (!(error instanceof SourceFaultError)) throw error;
      this.#remark(error.fault);
      this.#tryLater();
    }
  }

  /** A remark is kept in the open record: four a second of a port that stays away would fill it. */
  #remark({ code, sentence }: { readonly code: string; readonly sentence: string }): void {
    const words = `${code}: ${sentence}`;
    if (this.#told.has(words)) return;
    this.#told.add(words);
    this.#listener.onRemark(code, sentence);
  }
}

function placeWords(source: Source): string {
  switch (source.kind) {
    case 'serial':
    case 'modbus-rtu':
      return source.path;
    case 'tcp':
    case 'modbus-tcp':
      return `${source.host}:${source.port}`;
    case 'simulated':
      return `simulated frame, scenario ${source.scenario}`;
    case 'replay':
      return `replay of ${source.file}`;
  }
}
