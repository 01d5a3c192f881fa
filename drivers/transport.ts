/**
 * What every source of bytes looks like to the recorder: open, bytes with the time of their arrival, close.
 * A transport knows nothing of lines. Each call is bounded by a timer (PORT_CALL_MS_MAX) and none of them throws
 * later than its own promise.
 */
import type { SourceKind } from '../core/contract/source.ts';

/** Microseconds on a monotonic clock; only differences mean anything. */
export type MonotonicUs = number;
export type MonotonicClock = () => MonotonicUs;

/** The computer's monotonic clock (exact in a double for 285 years of running). */
export const monotonicUs: MonotonicClock = () => Number(process.hrtime.bigint() / 1000n);

export const SOURCE_FAULT_CODES = [
  'port-missing',
  'port-busy',
  'port-forbidden',
  'not-a-port',
  'port-settings-refused',
  'port-is-another',
  'file-missing',
  'file-unreadable',
  'host-unreachable',
  'connection-refused',
  'no-answer',
  'write-failed',
  'not-open',
  'device-exception',
  'scenario-unknown',
  'source-failed',
] as const;
export type SourceFaultCode = (typeof SOURCE_FAULT_CODES)[number];

/** An operating fault of a source: what happened and what to do, in one sentence. */
export interface SourceFault {
  readonly code: SourceFaultCode;
  readonly sentence: string;
  /** What the system said, for the record. */
  readonly detail?: string;
}

/** Thrown (as a rejection) by open and write. */
export class SourceFaultError extends Error {
  override readonly name = 'SourceFaultError';
  readonly fault: SourceFault;

  constructor(fault: SourceFault) {
    super(fault.sentence);
    this.fault = fault;
  }
}

/** Why the bytes have ended. `asked`: close was called. `finished`: the source has no more (replay, simulated pull). */
export interface CloseReason {
  readonly kind: 'asked' | 'lost' | 'finished';
  readonly sentence: string;
  readonly detail?: string;
}

/** Something to be kept in the record that stops nothing (control lines that a port has not, a retry). */
export interface TransportNote {
  readonly code: string;
  readonly sentence: string;
}

/**
 * Callbacks of one opening. They are called in order; nothing is called after onClose, and onClose is called
 * exactly once for each open that succeeded.
 */
export interface TransportListener {
  /**
   * Bytes as they came and the time at which they were handed over. The memory may be shared with later chunks
   * of the library's pool but is never written again.
   */
  readonly onChunk: (bytes: Uint8Array, arrivedUs: MonotonicUs) => void;
  readonly onClose: (reason: CloseReason) => void;
  /** A fault that leaves the source open (a request without answer, a device's exception reply). */
  readonly onFault: (fault: SourceFault) => void;
  readonly onNote: (note: TransportNote) => void;
}

export interface Transport {
  readonly kind: SourceKind;
  /** The place in words, for sentences: "/dev/ttyUSB0", "10.0.0.7:4001". */
  readonly place: string;
  /** Opens once; a transport is used for one opening and then thrown away. Rejects with a SourceFaultError. */
  readonly open: (listener: TransportListener) => Promise<void>;
  /** Rejects with a SourceFaultError. Sources that take no bytes refuse. */
  readonly write: (bytes: Uint8Array) => Promise<void>;
  /** Always settles within PORT_CALL_MS_MAX, whatever the source does; never rejects. */
  readonly close: () => Promise<void>;
  /**
   * Only the simulated frame has it: its invisible operator puts a new specimen in and starts the crosshead after
   * the scenario's rest. To be called when a pull has been made ready. A real frame is started by a person at the
   * frame, never by this program.
   */
  readonly beginPull?: () => void;
}
