/** The far end of each kind of source, in the hand of a test. */
import { writeFile } from 'node:fs/promises';
import { type AddressInfo, type Server, type Socket, createServer } from 'node:net';
import { join } from 'node:path';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { Source } from '../../core/contract/source.ts';
import { checkValue } from '../../drivers/lines/line-check.ts';
import { shippedProfile } from '../../drivers/profiles.ts';
import { loadProfile } from '../unit/drivers/profile-of.ts';
import { makePty } from './drivers-pty.ts';

export interface FarEnd {
  readonly source: Source;
  readonly profile: ReadoutProfile;
  /** A source of the same kind that is not there. */
  readonly absent: Source;
  /** Has bytes sent, where the source does not send by itself. */
  readonly send: () => Promise<void>;
  /** Goes away in the middle; null where it can't. */
  readonly vanish: (() => Promise<void>) | null;
  readonly end: () => Promise<void>;
}

export const LINE = '12.5\r\n';
const nothing = (): Promise<void> => Promise.resolve();

export async function serialEnd(folder: string): Promise<FarEnd> {
  const pty = await makePty(folder);
  return {
    source: { kind: 'serial', path: pty.path },
    profile: loadProfile(),
    absent: { kind: 'serial', path: join(folder, 'absent') },
    send: () => pty.write(LINE),
    vanish: pty.kill,
    end: pty.kill,
  };
}

export async function polledSerialEnd(folder: string): Promise<FarEnd> {
  const pty = await makePty(folder, 'polled');
  const answering = answerFrom(pty.far, (request) =>
    request.includes(0x52) ? Buffer.from('12.5 0.5\r\n') : null,
  );
  return {
    source: { kind: 'serial', path: pty.path },
    profile: required('Example: controller that answers when asked'),
    absent: { kind: 'serial', path: join(folder, 'absent') },
    send: nothing,
    vanish: pty.kill,
    end: async () => {
      answering();
      await pty.kill();
    },
  };
}

export async function tcpEnd(): Promise<FarEnd> {
  const sockets = new Set<Socket>();
  const { server, port } = await listening((socket) => {
    sockets.add(socket);
    socket.on('error', () => undefined);
  });
  const drop = (): void => {
    for (const socket of sockets) socket.destroy();
  };
  return {
    source: { kind: 'tcp', host: '127.0.0.1', port },
    profile: loadProfile(),
    absent: { kind: 'tcp', host: '127.0.0.1', port: await freePort() },
    send: () => {
      for (const socket of sockets) socket.write(LINE);
      return Promise.resolve();
    },
    vanish: () => {
      drop();
      return Promise.resolve();
    },
    end: () => {
      drop();
      return closed(server);
    },
  };
}

export async function replayEnd(folder: string): Promise<FarEnd> {
  const file = join(folder, 'recorded.bin');
  await writeFile(file, LINE.repeat(3));
  return {
    source: { kind: 'replay', file, pace: 'faster' },
    profile: loadProfile(),
    absent: { kind: 'replay', file: join(folder, 'absent') },
    send: nothing,
    vanish: nothing,
    end: nothing,
  };
}

export function simulatedEnd(): Promise<FarEnd> {
  return Promise.resolve({
    source: { kind: 'simulated', scenario: 'mild-steel-yield-point' },
    profile: required('Simulated frame (SI)'),
    absent: { kind: 'simulated', scenario: 'absent' },
    send: nothing,
    vanish: null,
    end: nothing,
  });
}

/** A Modbus server of our own, so that the library is not checked against itself (Modbus messaging on TCP/IP 1.0b). */
export async function modbusTcpEnd(reply: ModbusReply = registers): Promise<FarEnd> {
  const sockets = new Set<Socket>();
  const { server, port } = await listening((socket) => {
    sockets.add(socket);
    socket.on('error', () => undefined);
    socket.on('data', (request: Buffer) => {
      const pdu = reply(request.subarray(7));
      if (pdu === null) return;
      const head = Buffer.from(request.subarray(0, 7));
      head.writeUInt16BE(pdu.length + 1, 4);
      socket.write(Buffer.concat([head, pdu]));
    });
  });
  const drop = (): void => {
    for (const socket of sockets) socket.destroy();
  };
  return {
    source: { kind: 'modbus-tcp', host: '127.0.0.1', port, unitId: 1 },
    profile: required('Example: amplifier with Modbus registers'),
    absent: { kind: 'modbus-tcp', host: '127.0.0.1', port: await freePort(), unitId: 1 },
    send: nothing,
    vanish: () => {
      drop();
      return closed(server);
    },
    end: () => {
      drop();
      return closed(server);
    },
  };
}

/** The same over a serial line, with its CRC (Modbus over serial line 1.02, section 6.2.2). */
export async function modbusRtuEnd(
  folder: string,
  damage: (frame: Buffer) => Buffer = (frame) => frame,
): Promise<FarEnd> {
  const pty = await makePty(folder, 'rtu');
  const answering = answerFrom(pty.far, (request) => {
    const pdu = registers(request.subarray(1, -2));
    const body = Buffer.concat([request.subarray(0, 1), pdu]);
    const crc = checkValue('crc16-modbus', body);
    return damage(Buffer.concat([body, Buffer.from([crc & 0xff, crc >> 8])]));
  });
  return {
    source: { kind: 'modbus-rtu', path: pty.path, unitId: 1 },
    profile: required('Example: amplifier with Modbus registers'),
    absent: { kind: 'modbus-rtu', path: join(folder, 'absent'), unitId: 1 },
    send: nothing,
    vanish: pty.kill,
    end: async () => {
      answering();
      await pty.kill();
    },
  };
}

type ModbusReply = (pdu: Buffer) => Buffer | null;

/** Load 1234.5 as a float, extension 70 000 × 0.1 µm with the low word first: 7 mm. */
export function registers(pdu: Buffer): Buffer {
  const data = Buffer.alloc(8);
  data.writeFloatBE(1234.5, 0);
  data.writeUInt16BE(70_000 & 0xffff, 4);
  data.writeUInt16BE(70_000 >> 16, 6);
  return Buffer.concat([Buffer.from([pdu[0] ?? 3, data.length]), data]);
}

export function exceptionTwo(pdu: Buffer): Buffer {
  return Buffer.from([(pdu[0] ?? 3) | 0x80, 2]);
}

function answerFrom(
  far: Awaited<ReturnType<typeof makePty>>['far'],
  answer: (request: Buffer) => Buffer | null,
): () => void {
  let over = false;
  const buffer = Buffer.alloc(256);
  const turn = async (): Promise<void> => {
    while (!over) {
      const { bytesRead } = await far.read(buffer, 0, buffer.length, null);
      if (bytesRead === 0) return;
      const reply = answer(Buffer.from(buffer.subarray(0, bytesRead)));
      if (reply !== null) await far.writeFile(reply);
    }
  };
  turn().catch(() => undefined);
  return () => {
    over = true;
  };
}

function required(name: string): ReadoutProfile {
  const profile = shippedProfile(name);
  if (profile === null) throw new Error(name);
  return profile;
}

async function listening(onSocket: (socket: Socket) => void): Promise<{ server: Server; port: number }> {
  // A peer that does not answer a farewell: it keeps its side of the connection open.
  const server = createServer({ allowHalfOpen: true }, onSocket);
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return { server, port: (server.address() as AddressInfo).port };
}

async function freePort(): Promise<number> {
  const { server, port } = await listening(() => undefined);
  await closed(server);
  return port;
}

function closed(server: Server): Promise<void> {
  return new Promise((resolve) => server.close(() => resolve()));
}
