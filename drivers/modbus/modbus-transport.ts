/**
 * Registers read by asking, over Modbus RTU or TCP, through the modbus-serial library. Each chunk is one whole
 * reading: the bytes of the profile's registers. Nothing is ever written to the device.
 */
import type ModbusRTU from 'modbus-serial';
import type { LineFormatOf, ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { ListedPort, SourceOf } from '../../core/contract/source.ts';
import { PORT_CALL_MS_MAX } from '../../core/limits.ts';
import { boundedCall } from '../bounded-call.ts';
import { faultBeforeOpening, faultOfOpening } from '../serial/open-fault.ts';
import { placeOfIdentity } from '../serial/place-of-identity.ts';
import { faultOfConnecting } from '../tcp/tcp-transport.ts';
import {
  type CloseReason,
  type MonotonicClock,
  type SourceFault,
  SourceFaultError,
  type Transport,
  type TransportListener,
} from '../transport.ts';
import { bytesOfRegisters, registerBlocks } from './register-blocks.ts';

type ModbusSource = SourceOf<'modbus-tcp'> | SourceOf<'modbus-rtu'>;

export interface ModbusTransportOptions {
  readonly profile: ReadoutProfile;
  readonly clock: MonotonicClock;
  /** How the ports of the computer are found, for sources that carry an identity. */
  readonly listPorts: () => Promise<readonly ListedPort[]>;
}

export class ModbusTransport implements Transport {
  readonly kind: ModbusSource['kind'];
  readonly #source: ModbusSource;
  readonly #ports: () => Promise<readonly ListedPort[]>;
  #place: string;
  readonly #profile: ReadoutProfile;
  readonly #format: LineFormatOf<'registers'>;
  readonly #intervalMs: number;
  readonly #timeoutMs: number;
  readonly #clock: MonotonicClock;
  #client: ModbusRTU | null = null;
  #listener: TransportListener | null = null;
  #next: NodeJS.Timeout | null = null;
  #lastFault: string | null = null;

  /** Throws a SourceFaultError where the profile has lines instead of registers. */
  constructor(source: ModbusSource, { profile, clock, listPorts }: ModbusTransportOptions) {
    if (profile.format.kind !== 'registers' || profile.mode.kind !== 'polled')
      throw new SourceFaultError({
        code: 'source-failed',
        sentence: `The profile "${profile.name}" describes lines, not Modbus registers; choose a profile with registers.`,
      });
    this.kind = source.kind;
    this.#source = source;
    this.#profile = profile;
    this.#format = profile.format;
    this.#intervalMs = profile.mode.intervalMs;
    this.#timeoutMs = profile.mode.timeoutMs;
    this.#clock = clock;
    this.#ports = listPorts;
    this.#place = source.kind === 'modbus-tcp' ? `${source.host}:${String(source.port)}` : source.path;
  }

  get place(): string {
    return this.#place;
  }

  async open(listener: TransportListener): Promise<void> {
    const { default: Client } = await import('modbus-serial');
    const client = new Client();
    // Without a listener the library's event would end the process.
    client.on('error', () => undefined);
    try {
      await this.#connect(client, listener);
    } catch (error) {
      client.destroy(() => undefined);
      if (error instanceof SourceFaultError) throw error;
      throw new SourceFaultError(
        this.#source.kind === 'modbus-tcp'
          ? faultOfConnecting(this.place, error)
          : await faultOfOpening(this.place, error),
      );
    }
    client.setID(this.#source.unitId);
    client.setTimeout(this.#timeoutMs);
    this.#client = client;
    this.#listener = listener;
    client.on('close', () => this.#ended(lost(this.place)));
    this.#next = setTimeout(() => void this.#read(), 0);
  }

  write(): Promise<void> {
    return Promise.reject(
      new SourceFaultError({
        code: 'write-failed',
        sentence: `${this.place} is read only: Gaugemark writes no register.`,
      }),
    );
  }

  close(): Promise<void> {
    const client = this.#client;
    this.#ended({ kind: 'asked', sentence: `${this.place} was closed.` });
    return new Promise((resolve) => {
      const timer = setTimeout(resolve, PORT_CALL_MS_MAX);
      const done = (): void => {
        clearTimeout(timer);
        resolve();
      };
      if (client?.isOpen !== true) done();
      // No farewell: a server that does not answer it would keep the connection, and with it the process.
      else if (this.#source.kind === 'modbus-tcp') client.destroy(done);
      else client.close(done);
    });
  }

  async #connect(client: ModbusRTU, listener: TransportListener): Promise<void> {
    const source = this.#source;
    if (source.kind === 'modbus-tcp') {
      await boundedCall('connect', PORT_CALL_MS_MAX, () =>
        client.connectTCP(source.host, { port: source.port }),
      );
      return;
    }
    if (source.identity !== undefined) {
      const found = placeOfIdentity(source.path, source.identity, await this.#ports());
      if (found.kind === 'refused') throw new SourceFaultError(found.fault);
      this.#place = found.path;
      if (found.note !== undefined) listener.onNote(found.note);
    }
    const path = this.#place;
    const fault = await faultBeforeOpening(path);
    if (fault !== null) throw new SourceFaultError(fault);
    const { serial } = this.#profile;
    await boundedCall('open', PORT_CALL_MS_MAX, () =>
      client.connectRTUBuffered(path, {
        baudRate: serial?.baudRate ?? 9600,
        dataBits: 8,
        // The library's types know no mark and space parity; Modbus allows none either.
        parity: serial?.parity === 'even' || serial?.parity === 'odd' ? serial.parity : 'none',
        stopBits: serial?.stopBits ?? 1,
      }),
    );
  }

  /** One reading: all blocks one after the other, then the wait for the next. Never two requests in flight. */
  async #read(): Promise<void> {
    const client = this.#client;
    if (client === null || this.#isOver()) return;
    const beganMs = performance.now();
    try {
      const blocks = [];
      for (const block of registerBlocks(this.#format.registers)) {
        const { buffer } = await boundedCall('read', this.#timeoutMs + PORT_CALL_MS_MAX, () =>
          block.space === 'input'
            ? client.readInputRegisters(block.address, block.count)
            : client.readHoldingRegisters(block.address, block.count),
        );
        blocks.push({ block, bytes: buffer });
      }
      this.#lastFault = null;
      this.#heard()?.onChunk(bytesOfRegisters(this.#format.registers, blocks), this.#clock());
    } catch (error) {
      this.#fault(error);
      if (!client.isOpen) {
        this.#ended(lost(this.place));
        return;
      }
    }
    if (this.#isOver()) return;
    const waitMs = Math.max(0, this.#intervalMs - (performance.now() - beganMs));
    this.#next = setTimeout(() => void this.#read(), waitMs);
  }

  /** The listener, which may have gone while a request was under way. */
  #heard(): TransportListener | null {
    return this.#listener;
  }

  #isOver(): boolean {
    return this.#listener === null;
  }

  /** Each kind of fault is told once until a reading has come between. */
  #fault(error: unknown): void {
    const fault = faultOfReading(this.place, error);
    if (fault.sentence !== this.#lastFault) this.#listener?.onFault(fault);
    this.#lastFault = fault.sentence;
  }

  #ended(reason: CloseReason): void {
    if (this.#next !== null) clearTimeout(this.#next);
    this.#next = null;
    const listener = this.#listener;
    this.#listener = null;
    listener?.onClose(reason);
  }
}

/** Exception codes by their names in the Modbus application protocol 1.1b3, section 7. */
const EXCEPTIONS: Readonly<Record<number, string>> = {
  1: 'illegal function',
  2: 'illegal data address',
  3: 'illegal data value',
  4: 'server device failure',
  5: 'acknowledge',
  6: 'server device busy',
  10: 'gateway path unavailable',
  11: 'gateway target device failed to respond',
};

/** What the library, Node's buffers and `bytesOfRegisters` say of a reply of another length, device or function. */
const ANSWERED_WRONGLY = /length error|unexpected data error|out of range|outside buffer|shorter than/i;

function faultOfReading(place: string, error: unknown): SourceFault {
  const detail =
    error instanceof Error ? error.message : String((error as { message?: unknown }).message ?? error);
  const exception = (error as { modbusCode?: unknown }).modbusCode;
  if (typeof exception === 'number')
    return {
      code: 'device-exception',
      sentence: `${place} refuses the registers asked for (exception ${String(exception)}, ${EXCEPTIONS[exception] ?? 'not in the standard'}); check address and kind of register in the profile.`,
      detail,
    };
  if (ANSWERED_WRONGLY.test(detail))
    return {
      code: 'no-answer',
      sentence: `${place} answered wrongly: its reply is not what was asked for, and is not used; check the unit number, the registers of the profile and the device.`,
      detail,
    };
  return {
    code: 'no-answer',
    sentence: /crc/i.test(detail)
      ? `A reply of ${place} came damaged (wrong CRC) and is not used; check cable and line settings.`
      : `${place} does not answer the request for its registers; check the unit number and the cable.`,
    detail,
  };
}

function lost(place: string): CloseReason {
  return {
    kind: 'lost',
    sentence: `The connection to ${place} is lost; check the device and its cable. What was received is kept.`,
  };
}
