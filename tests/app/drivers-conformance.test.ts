import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { PORT_CALL_MS_MAX } from '../../core/limits.ts';
import { createParser } from '../../drivers/create-parser.ts';
import { createTransport } from '../../drivers/create-transport.ts';
import { SourceFaultError, type Transport } from '../../drivers/transport.ts';
import { inShort } from '../unit/drivers/profile-of.ts';
import {
  type FarEnd,
  exceptionTwo,
  modbusRtuEnd,
  modbusTcpEnd,
  registers,
  polledSerialEnd,
  replayEnd,
  serialEnd,
  simulatedEnd,
  tcpEnd,
} from './drivers-far-ends.ts';
import { openAndHear } from './drivers-pty.ts';
import { until } from './support/until.ts';

let folder = '';
let far: FarEnd | null = null;
const transports: Transport[] = [];

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'gaugemark-far-'));
});
afterEach(async () => {
  for (const transport of transports.splice(0)) await transport.close();
  await far?.end();
  far = null;
  await rm(folder, { recursive: true, force: true });
});

function transportOf({ source, profile }: Pick<FarEnd, 'source' | 'profile'>): Transport {
  const transport = createTransport(source, { profile });
  transports.push(transport);
  return transport;
}

async function faultOf(act: () => Promise<unknown>): Promise<SourceFaultError> {
  try {
    await act();
  } catch (error) {
    if (error instanceof SourceFaultError) return error;
    throw error;
  }
  throw new Error('it did not fail');
}

const kinds: readonly (readonly [string, (folder: string) => Promise<FarEnd>])[] = [
  ['a serial port', serialEnd],
  ['a serial port that is polled', polledSerialEnd],
  ['raw TCP', () => tcpEnd()],
  ['a recording', replayEnd],
  ['the simulated frame', () => simulatedEnd()],
  ['Modbus TCP', () => modbusTcpEnd()],
  ['Modbus RTU', (at) => modbusRtuEnd(at)],
];

describe.each(kinds)('%s', (_name, make) => {
  it('gives bytes in order, with times that do not go back, which its profile reads', async () => {
    far = await make(folder);
    const heard = await openAndHear(transportOf(far));
    await far.send();
    await until(() => heard.bytes().length > 0, 'bytes arrive');
    await until(() => readable(far, heard.bytes()), 'a reading arrives');
    expect(heard.arrivedUs).toEqual([...heard.arrivedUs].sort((a, b) => a - b));
    expect(heard.faults).toEqual([]);
  });

  it('ends once, and gives nothing after', async () => {
    far = await make(folder);
    const transport = transportOf(far);
    const heard = await openAndHear(transport);
    const begunMs = performance.now();
    await transport.close();
    // Not by its own timer: a far end that does not answer the farewell holds nobody up.
    expect(performance.now() - begunMs).toBeLessThan(PORT_CALL_MS_MAX * 0.9);
    await transport.close();
    const length = heard.bytes().length;
    await new Promise((resolve) => setTimeout(resolve, 200));
    expect(heard.closed).toHaveLength(1);
    expect(heard.closed[0]?.kind).toMatch(/asked|finished/);
    expect(heard.bytes()).toHaveLength(length);
  });

  it('may be closed without having been opened, and takes no bytes then', async () => {
    far = await make(folder);
    const transport = transportOf(far);
    expect((await faultOf(() => transport.write(Buffer.from('x')))).fault.sentence).not.toBe('');
    await transport.close();
  });

  it('says in a sentence when it is not there', async () => {
    const end = await make(folder);
    far = end;
    const { fault } = await faultOf(async () =>
      openAndHear(transportOf({ source: end.absent, profile: end.profile })),
    );
    expect(fault.code).toMatch(/missing|refused|unreachable|unknown/);
    expect(fault.sentence).toMatch(/^.{20,}[.]$/s);
  });

  it('tells once when the far end goes away', async () => {
    far = await make(folder);
    if (far.vanish === null) return;
    const heard = await openAndHear(transportOf(far));
    await far.send();
    await far.vanish();
    await until(() => heard.closed.length > 0, 'the end is told');
    expect(heard.closed).toHaveLength(1);
    expect(heard.closed[0]?.kind).toMatch(/lost|finished/);
  });
});

function readable(end: FarEnd | null, bytes: Buffer): boolean {
  if (end === null) return false;
  return createParser(end.profile)
    .push(0, bytes, 0)
    .some((line) => line.outcome.kind === 'reading');
}

describe('registers', () => {
  it.each([
    ['TCP', () => modbusTcpEnd()],
    ['RTU', () => modbusRtuEnd(folder)],
  ])('over %s become exact decimals: float, word order, scale', async (_name, make) => {
    far = await make();
    const heard = await openAndHear(transportOf(far));
    await until(() => heard.bytes().length >= 8, 'a reply arrives');
    const [line] = createParser(far.profile).push(0, heard.bytes().subarray(0, 8), 0);
    expect(line === undefined ? '' : inShort(line)).toBe('12345e-1 N; 70000e0 mm');
  });

  it('that the device refuses are a fault with the exception’s name, told once, and the source stays open', async () => {
    far = await modbusTcpEnd(exceptionTwo);
    const heard = await openAndHear(transportOf(far));
    await until(() => heard.faults.length > 0, 'the exception is told');
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect(heard.faults).toMatchObject([{ code: 'device-exception' }]);
    expect(heard.faults[0]?.sentence).toMatch(/exception 2, illegal data address/);
    expect([heard.bytes().length, heard.closed.length]).toEqual([0, 0]);
  });

  it('in a reply that tells of more bytes than it holds are not used, and that is said', async () => {
    far = await modbusTcpEnd((pdu) => {
      const reply = registers(pdu);
      reply.writeUInt8(250, 1);
      return reply;
    });
    const heard = await openAndHear(transportOf(far));
    await until(() => heard.faults.length > 0, 'the wrong answer is told');
    expect(heard.faults[0]?.sentence).toMatch(/answered wrongly/);
    expect([heard.bytes().length, heard.closed.length]).toEqual([0, 0]);
  });

  it('come from whole replies alone, whatever else a device sends, and the source stays open', async () => {
    const seed = Date.now() % 1_000_000;
    const hostile = fc.sample(
      fc.oneof(
        fc.uint8Array({ minLength: 1, maxLength: 260 }),
        fc.uint8Array({ maxLength: 12 }).map((rest) => Uint8Array.of(3, ...rest)),
        fc
          .tuple(fc.nat(255), fc.uint8Array({ maxLength: 12 }))
          .map(([n, rest]) => Uint8Array.of(3, n, ...rest)),
      ),
      { numRuns: 40, seed },
    );
    let asked = 0;
    far = await modbusTcpEnd((pdu) => {
      const reply = hostile[asked++];
      return reply === undefined ? registers(pdu) : Buffer.from(reply);
    });
    const wanted = registers(Buffer.of(3)).subarray(2);
    const { source, profile } = far;
    const mode =
      profile.mode.kind === 'polled' ? { ...profile.mode, intervalMs: 10, timeoutMs: 100 } : profile.mode;
    const heard = await openAndHear(transportOf({ source, profile: { ...profile, mode } }));
    await until(
      () => heard.bytes().indexOf(wanted) >= 0,
      `a whole reply comes through (seed ${seed})`,
      60_000,
    );
    // Nothing but readings of the length asked for, and nobody took it for a loss of the connection.
    expect([heard.bytes().length % wanted.length, heard.closed.length], `seed ${seed}`).toEqual([0, 0]);
    expect(heard.faults.length).toBeGreaterThan(0);
  });

  it('in a reply with a wrong CRC are not used', async () => {
    far = await modbusRtuEnd(folder, (frame) => {
      const damaged = Buffer.from(frame);
      damaged.writeUInt8((damaged.at(-1) ?? 0) ^ 0xff, damaged.length - 1);
      return damaged;
    });
    const heard = await openAndHear(transportOf(far));
    await until(() => heard.faults.length > 0, 'the damage is told');
    expect(heard.bytes()).toHaveLength(0);
    expect(heard.faults[0]?.code).toBe('no-answer');
  });
});

describe('a peer that accepts and says nothing', () => {
  it('stays open without bytes: its silence is seen by whoever watches the bytes', async () => {
    far = await tcpEnd();
    const heard = await openAndHear(transportOf(far));
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect([heard.bytes().length, heard.closed.length, heard.faults.length]).toEqual([0, 0, 0]);
  });
});
