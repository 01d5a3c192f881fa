/** Writes a simulated pull to a port, so that another program (or this one) reads it as from a real readout. */
import type { SerialPort } from 'serialport';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { Pace } from '../../core/contract/source.ts';
import { answered, boundedCall } from '../bounded-call.ts';
import { faultBeforeOpening, faultOfOpening } from '../serial/open-fault.ts';
import { openPort } from '../serial/open-port.ts';
import { SourceFaultError } from '../transport.ts';
import { PacedWriter } from './paced-writer.ts';
import type { SimulatedFrame } from './simulated-frame.ts';

/** At rest nobody need read on: a reader that takes nothing for this long has what it wanted. */
const REST_WRITE_MS_MAX = 2_000;
/** The last lines must be out of the computer before the port is closed. */
const DRAIN_MS_MAX = 10_000;

export interface SentToPort {
  /** Of the pull and of the rest after it. */
  readonly lines: number;
  readonly bytes: number;
  /** Until the end of the pull, without the rest after it. */
  readonly seconds: number;
}

export interface SendOptions {
  readonly path: string;
  readonly profile: ReadoutProfile;
  readonly pace: Pace;
  /** The unloaded frame goes on sending for so long after the pull, or until the reader is gone. */
  readonly restS?: number;
  /** Called when the port is open and the first line is about to be written. */
  readonly onOpen?: () => void;
  /** Called when the port takes nothing more, and the sending waits for a reader. */
  readonly onWaiting?: () => void;
  /** Ends the sending early, between two lines. */
  readonly signal?: AbortSignal;
}

/** Rejects with a SourceFaultError where the port can't be opened or nobody takes the lines. */
export async function sendToPort(
  frame: SimulatedFrame,
  { path, profile, pace, restS = 0, onOpen, onWaiting, signal }: SendOptions,
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

  onOpen?.();
  const out = new PacedWriter(port, { path, ...(onWaiting === undefined ? {} : { onWaiting }) });
  const isAborted = (): boolean => signal?.aborted === true;
  try {
    await out.write(
      frame.lines(),
      pace === 'true' ? 1 : pace === 'faster' ? Number.POSITIVE_INFINITY : pace,
      isAborted,
    );
    const pulledS = out.seconds;
    await out
      .write(frame.linesAtRest(restS), 1, () => isAborted() || !port.isOpen, REST_WRITE_MS_MAX)
      .catch((error: unknown) => {
        // The reader has seen the pull and left; that is how it is meant to end.
        if (!(error instanceof SourceFaultError)) throw error;
      });
    await boundedCall('drain', DRAIN_MS_MAX, () => answered((callback) => port.drain(callback))).catch(
      () => undefined,
    );
    return { lines: out.lines, bytes: out.bytes, seconds: pulledS };
  } finally {
    if (port.isOpen)
      await boundedCall('close', DRAIN_MS_MAX, () => answered((callback) => port.close(callback))).catch(
        () => undefined,
      );
  }
}
