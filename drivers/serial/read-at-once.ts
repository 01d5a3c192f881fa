/**
 * The serial library reads through Node's thread pool: bytes that have left the port wait there until the event
 * loop comes round again, and a process that is killed in between takes all of them with it. Here the same
 * descriptor, which never blocks, is read in the very turn in which the bytes are handed on, so that what a killed
 * process can have in its hands is what it was just about to write down.
 */
import { readSync } from 'node:fs';

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
export function readAtOnce(port: unknown): void {
  if (!isUnixPort(port)) return;
  port.read = async (buffer, offset, length) => {
    for (;;) {
      const { fd } = port;
      if (!port.isOpen || fd === null) throw canceled();
      const bytesRead = readNow(fd, buffer, offset, length);
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

/** 0 where there is nothing yet. Throws what the system gives where the port is lost. */
function readNow(fd: number, buffer: Buffer, offset: number, length: number): number {
  try {
    return readSync(fd, buffer, offset, length, null);
  } catch (error) {
    if (error instanceof Error && 'code' in error && NOT_NOW.has(String(error.code))) return 0;
    throw error;
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
