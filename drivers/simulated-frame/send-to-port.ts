/** Writes a simulated pull to a port, so that another program (or this one) reads it as from a real readout. */
import type { SerialPort } from 'serialport';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { Pace } from '../../core/contract/source.ts';
import { answered, boundedCall } from '../bounded-call.ts';
import { faultBeforeOpening, faultOfOpening } from '../serial/open-fault.ts';
import { openPort } from '../serial/open-port.ts';
import { SourceFaultError, monotonicUs } from '../transport.ts';
import type { SimulatedFrame } from './simulated-frame.ts';

/** A reader that takes nothing for this long is not there (a pty blocks its writer after some kilobytes). */
export const READER_MS_MAX = 60_000;
/** The last lines must be out of the computer before the port is closed. */
const DRAIN_MS_MAX = 10_000;
/** Lines are put together for so long before they are written, as a USB adapter would. */
const BURST_MS = 4;
/** Bytes of one write. */
const WRITE_BYTES_MAX = 4_096;

export interface SentToPort {
  readonly lines: number;
  readonly bytes: number;
  readonly seconds: number;
}

export interface SendOptions {
  readonly path: string;
  readonly profile: ReadoutProfile;
  readonly pace: Pace;
  /** Ends the sending early, between two lines. */
  readonly signal?: AbortSignal;
}

/** Rejects with a SourceFaultError where the port can't be opened or nobody takes the lines. */
export async function sendToPort(
  frame: SimulatedFrame,
  { path, profile, pace, signal }: SendOptions,
): Promise<SentToPort> {
  const fault = await faultBeforeOpening(path);
  if (fault !== null) throw new SourceFaultError(fault);
  let port: SerialPort;
  try {
    port = await openPort(
      path,
      profile.serial ?? { baudRate: 9600, dataBits: 8, parity: 'none', stopBits: 1, flowControl: 'none' },
    );
  } catch (error) {
    throw new SourceFaultError(await faultOfOpening(path, error));
  }
  // A lost port shows in the next write; without a listener the library's event would end the process.
  port.on('error', () => undefined);
  // What the other side sends is not for the frame, and must not fill a buffer.
  port.resume();

  const beganUs = monotonicUs();
  const factor = pace === 'true' ? 1 : pace === 'faster' ? Number.POSITIVE_INFINITY : pace;
  let lines = 0;
  let bytes = 0;
  let batch: Buffer[] = [];
  let batchBytes = 0;
  const flush = async (): Promise<void> => {
    if (batch.length === 0) return;
    await writeWhole(port, Buffer.concat(batch), path);
    batch = [];
    batchBytes = 0;
  };
  try {
    for (const line of frame.lines()) {
      if (signal?.aborted === true) break;
      const waitMs = line.elapsedUs / factor / 1000 - (monotonicUs() - beganUs) / 1000;
      if (waitMs > 0) {
        await flush();
        await new Promise((resolve) => setTimeout(resolve, Math.max(waitMs, BURST_MS)));
      }
      batch.push(line.bytes);
      batchBytes += line.bytes.length;
      lines++;
      bytes += line.bytes.length;
      if (batchBytes >= WRITE_BYTES_MAX) await flush();
    }
    await flush();
    await boundedCall('drain', DRAIN_MS_MAX, () => answered((callback) => port.drain(callback))).catch(
      () => undefined,
    );
  } finally {
    if (port.isOpen)
      await boundedCall('close', DRAIN_MS_MAX, () => answered((callback) => port.close(callback))).catch(
        () => undefined,
      );
  }
  return { lines, bytes, seconds: (monotonicUs() - beganUs) / 1e6 };
}

async function writeWhole(port: SerialPort, bytes: Buffer, path: string): Promise<void> {
  try {
    if (!port.isOpen) throw new Error('the port is closed');
    await boundedCall('write', READER_MS_MAX, () => answered((callback) => port.write(bytes, callback)));
  } catch (error) {
    throw new SourceFaultError({
      code: 'write-failed',
      sentence: `${path} takes no more bytes; check that the other end of the line is open and being read.`,
      detail: error instanceof Error ? error.message : String(error),
    });
  }
}
