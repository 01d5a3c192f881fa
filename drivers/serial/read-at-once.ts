/**
 * The serial library reads through Node's thread pool: bytes that have left the port wait there until the event
 * loop comes round again, and a process that is killed in between takes all of them with it. Here the same
 * descriptor, which never blocks, is read in the very turn in which the bytes are handed on, and not more than one
 * line at a time, so that what a killed process can have in its hands is the one line that it was about to write down.
 */
import { readSync } from 'node:fs';
import type { LinePace } from './line-pace.ts';

/** What is used of an opened Unix port of the library: its descriptor and what tells when there is something to read. */
export interface UnixPort {
  readonly isOpen: boolean;
  readonly fd: number | null;
  readonly poller: {
    once: (event: 'readable', callback: (error: Error | null) => void) => unknown;
  } | null;
  read: (buffer: Buffer, offset: number, length: number) => Promise<{ buffer: Buffer; bytesRead: number }>;
}

/** Nothing there yet, or interrupted: the port says when it is worth trying again. */
const NOT_NOW: ReadonlySet<string> = new Set(['EAGAIN', 'EWOULDBLOCK', 'EINTR']);

/** Puts the direct read in the place of the library's own. Ports of another make (Windows, simulated) stay as they are. */
export function readAtOnce(port: unknown, pace: LinePace): void {
  if (!isUnixPort(port)) return;
  port.read = async (buffer, offset, length) => {
    for (;;) {
      const { fd } = port;
      if (!port.isOpen || fd === null) throw canceled();
      const bytesRead = readLine(fd, buffer.subarray(offset, offset + length), pace);
      if (bytesRead > 0) return { buffer, bytesRead };
      await readable(port);
    }
  };
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

/** One line, or as much of it as has come. 0 where there is nothing yet. Throws what the system gives. */
function readLine(fd: number, room: Buffer, pace: LinePace): number {
  let taken = 0;
  while (taken < room.length) {
    const asked = Math.min(room.length - taken, pace.next());
    let bytesRead: number;
    try {
      bytesRead = readNow(fd, room, taken, asked);
    } catch (error) {
      // What came before the port was lost is handed on first; the next read meets the loss again.
      if (taken > 0) return taken;
      throw error;
    }
    const endsLine = pace.took(room.subarray(taken, taken + bytesRead));
    taken += bytesRead;
    if (bytesRead < asked) pace.emptied();
    if (endsLine || bytesRead < asked) break;
  }
  return taken;
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

function readable(port: UnixPort): Promise<void> {
  return new Promise((resolve, reject) => {
    if (port.poller === null) reject(canceled());
    else
      port.poller.once('readable', (error) => {
        if (error === null) resolve();
        else reject(error);
      });
  });
}

/** The stream takes a canceled read for a close that was asked for, not for a loss. */
function canceled(): Error {
  return Object.assign(new Error('Port is not open'), { canceled: true });
}
