/** Opening a port with the serialport library, bounded by a timer. */
import type { SerialPort } from 'serialport';
import type { SerialSettings } from '../../core/contract/readout-profile.ts';
import { PORT_CALL_MS_MAX } from '../../core/limits.ts';
import { answered, boundedCall } from '../bounded-call.ts';

/**
 * What arrives before somebody listens waits in the system. Rejects with the library's error or a NoAnswerError.
 * The library is loaded here and not before: a computer on which its native part fails can still use other sources.
 */
export async function openPort(path: string, settings: SerialSettings): Promise<SerialPort> {
  const { SerialPort } = await import('serialport');
  const port = new SerialPort({
    path,
    baudRate: settings.baudRate,
    dataBits: settings.dataBits,
    parity: settings.parity,
    stopBits: settings.stopBits,
    rtscts: settings.flowControl === 'hardware',
    xon: settings.flowControl === 'software',
    xoff: settings.flowControl === 'software',
    lock: true,
    autoOpen: false,
  });
  return boundedCall(
    'open',
    PORT_CALL_MS_MAX,
    async () => {
      await answered((callback) => port.open(callback));
      return port;
    },
    // Opened after all, when nobody waits any more: it must not hold the device.
    (late) => late.close(() => undefined),
  );
}
