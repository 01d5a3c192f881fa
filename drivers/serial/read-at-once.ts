/**
 * The serial library reads through Node's thread pool: bytes that have left the port wait there until the event
 * loop comes round again, and a process that is killed in between takes all of them with it. Here the same
 * descriptor, which never blocks, is read in the very turn in which the bytes are handed on, and not more than one
 * line at a time, so that what a killed process can have in its hands is the one line that it was about to write down.
 * Nothing of it waits for a promise: at 1 000 lines a second those cost more than all else that is done with a line.
 */
import { readSync } from 'node:fs';
import type { MonotonicClock, MonotonicUs } from '../transport.ts';
import type { LinePace } from './line-pace.ts';

/** What is used of an opened Unix port of the library: its descriptor and what tells when there is something to read. */
export interface UnixPort {
  readonly isOpen: boolean;
  readonly fd: number | null;
  readonly poller: Poller | null;
}

type ReadableListener = (error: Error | null) => void;

interface Poller {
  on: (event: 'readable', listener: ReadableListener) => unknown;
  off: (event: 'readable', listener: ReadableListener) => unknown;
  /** Tells once; to be asked again. */
  poll: (events: number) => void;
}

export interface PieceListener {
  /** A line, or as much of it as has come; the memory is never written again. */
  readonly onPiece: (bytes: Uint8Array, arrivedUs: MonotonicUs) => void;
  /** The port is gone; nothing is told afterwards. A close that was asked for is not told. */
  readonly onLost: (error: Error) => void;
}

/** The library's number for "there is something to read". */
const READABLE = 1;
/** Nothing there yet, or interrupted: the port says when it is worth trying again. */
const NOT_NOW: ReadonlySet<string> = new Set(['EAGAIN', 'EWOULDBLOCK', 'EINTR']);
const ROOM_BYTES = 65_536;
/** Less room than this is not worth a read. */
const ROOM_BYTES_MIN = 4_096;
/** After so much in one go whatever else waits has its turn. */
const BYTES_IN_ONE_GO_MAX = 65_536;
/** A line that comes so soon after the one before has waited behind it. */
const SOON_US = 300;

/** False where the port is of another make (Windows, simulated): the library's own stream must be listened to then. */
export function readAtOnce(
  port: unknown,
  pace: LinePace,
  clock: MonotonicClock,
  listener: PieceListener,
): boolean {
  if (!isUnixPort(port)) return false;
  new PortReader(port, pace, clock, listener).begin();
  return true;
}

class PortReader {
  readonly #port: UnixPort;
  readonly #pace: LinePace;
  readonly #clock: MonotonicClock;
  readonly #listener: PieceListener;
  readonly #onReadable: ReadableListener = (error) => this.#readable(error);
  #room = Buffer.allocUnsafe(ROOM_BYTES);
  #used = 0;
  #lastUs = -Infinity;
  /**
   * Lines come in bursts: after one the next is tried for. Where each comes by itself, to try would be one vain call of
   * the system after every line.
   */
  #comesInBursts = false;
  #isOver = false;

  constructor(port: UnixPort, pace: LinePace, clock: MonotonicClock, listener: PieceListener) {
    this.#port = port;
    this.#pace = pace;
    this.#clock = clock;
    this.#listener = listener;
  }

  begin(): void {
    const { poller } = this.#port;
    poller?.on('readable', this.#onReadable);
    poller?.poll(READABLE);
  }

  #readable(error: Error | null): void {
    if (this.#isOver) return;
    if (error !== null) {
      this.#end(error);
      return;
    }
    try {
      this.#readOn();
    } catch (fault) {
      this.#finish();
      // The library would swallow it; it is a fault of the program and has to be seen as one.
      setImmediate(() => {
        throw fault;
      });
    }
  }

  #readOn(): void {
    let pieces = 0;
    let bytes = 0;
    while (bytes < BYTES_IN_ONE_GO_MAX) {
      const piece = this.#readPiece();
      if (piece === null) return;
      if (piece.length === 0) break;
      const nowUs = this.#clock();
      const isSoon = nowUs - this.#lastUs < SOON_US;
      this.#lastUs = nowUs;
      pieces++;
      bytes += piece.length;
      this.#listener.onPiece(piece, nowUs);
      if (!this.#comesInBursts && !isSoon) break;
    }
    this.#comesInBursts = pieces > 1;
    const { isOpen, poller } = this.#port;
    if (isOpen) poller?.poll(READABLE);
  }

  /** Empty where there is nothing yet, null where the port is closed or gone. */
  #readPiece(): Uint8Array | null {
    const { isOpen, fd } = this.#port;
    if (!isOpen || fd === null) {
      this.#finish();
      return null;
    }
    if (this.#room.length - this.#used < ROOM_BYTES_MIN) {
      this.#room = Buffer.allocUnsafe(ROOM_BYTES);
      this.#used = 0;
    }
    const from = this.#used;
    try {
      this.#used = readLine(fd, this.#room, from, this.#pace);
    } catch (error) {
      this.#end(error instanceof Error ? error : new Error(String(error)));
      return null;
    }
    return this.#room.subarray(from, this.#used);
  }

  /** The compiled poller of every port that was ever open stays in memory, and with it whoever still listens to it. */
  #finish(): void {
    this.#isOver = true;
    this.#port.poller?.off('readable', this.#onReadable);
  }

  #end(error: Error): void {
    this.#finish();
    // The library calls a wait that its own close has ended canceled.
    if (!('canceled' in error) || error.canceled !== true) this.#listener.onLost(error);
  }
}

function isUnixPort(port: unknown): port is UnixPort {
  return (
    typeof port === 'object' &&
    port !== null &&
    'fd' in port &&
    typeof port.fd === 'number' &&
    'poller' in port &&
    typeof port.poller === 'object' &&
    port.poller !== null
  );
}

/** Reads one line, or as much of it as has come, into the room from `from` on; where it ends. Throws what the system gives. */
function readLine(fd: number, room: Buffer, from: number, pace: LinePace): number {
  let at = from;
  while (at < room.length) {
    const asked = Math.min(room.length - at, pace.next());
    let bytesRead: number;
    try {
      bytesRead = readNow(fd, room, at, asked);
    } catch (error) {
      // What came before the port was lost is handed on first; the next read meets the loss again.
      if (at > from) return at;
      throw error;
    }
    const endsLine = pace.took(room, at, at + bytesRead);
    at += bytesRead;
    if (bytesRead < asked) pace.emptied();
    if (endsLine || bytesRead < asked) break;
  }
  return at;
}

/**
 * 0 where there is nothing yet. Throws what the system gives where the port is lost; its code says all, so no stack is
 * gathered: that would cost more, after every line, than all else that is done with it.
 */
function readNow(fd: number, buffer: Buffer, offset: number, length: number): number {
  const { stackTraceLimit } = Error;
  Error.stackTraceLimit = 0;
  try {
    return readSync(fd, buffer, offset, length, null);
  } catch (error) {
    if (error instanceof Error && 'code' in error && NOT_NOW.has(String(error.code))) return 0;
    throw error;
  } finally {
    Error.stackTraceLimit = stackTraceLimit;
  }
}
