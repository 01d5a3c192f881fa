import { execFile, spawn } from 'node:child_process';
import { closeSync, constants, openSync } from 'node:fs';
import { chmod, chown, mkdtemp, readFile, realpath, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { ListedPort, PortIdentity } from '../../core/contract/source.ts';
import { PORT_CALL_MS_MAX } from '../../core/limits.ts';
import { createTransport } from '../../drivers/create-transport.ts';
import { listPorts } from '../../drivers/serial/list-ports.ts';
import { SourceFaultError, type SourceFault, type Transport } from '../../drivers/transport.ts';
import { loadProfile } from '../unit/drivers/profile-of.ts';
import { type Pty, makePty, openAndHear } from './drivers-pty.ts';
import { until } from './support/until.ts';

let folder = '';
const ptys: Pty[] = [];
const transports: Transport[] = [];

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'gaugemark-drivers-'));
});
afterEach(async () => {
  for (const transport of transports.splice(0)) await transport.close();
  for (const pty of ptys.splice(0)) await pty.kill();
  await rm(folder, { recursive: true, force: true });
});

async function pty(name?: string): Promise<Pty> {
  const made = await makePty(folder, name);
  ptys.push(made);
  return made;
}

function serial(
  path: string,
  more: { identity?: PortIdentity; ports?: () => Promise<ListedPort[]>; controlLines?: boolean } = {},
): Transport {
  const transport = createTransport(
    { kind: 'serial', path, ...(more.identity === undefined ? {} : { identity: more.identity }) },
    {
      profile: loadProfile(more.controlLines === true ? { controlLines: { dtr: true, rts: false } } : {}),
      ...(more.ports === undefined ? {} : { ports: more.ports }),
    },
  );
  transports.push(transport);
  return transport;
}

async function faultOf(promise: Promise<unknown>): Promise<SourceFault> {
  try {
    await promise;
  } catch (error) {
    if (error instanceof SourceFaultError) return error.fault;
    throw error;
  }
  throw new Error('it did not fail');
}

describe('a serial port', () => {
  it('gives every byte value through exactly, NUL, XON and XOFF too (S15)', async () => {
    const { path, write } = await pty();
    const heard = await openAndHear(serial(path));
    const all = Buffer.from(Array.from({ length: 1024 }, (_, index) => index % 256));
    await write(all);
    await until(() => heard.bytes().length >= all.length, 'all bytes arrive');
    expect(heard.bytes().equals(all)).toBe(true);
    expect(heard.arrivedUs).toEqual([...heard.arrivedUs].sort((a, b) => a - b));
  });

  it('is lost when the adapter is pulled, without an error event: told once, with a reason (S1)', async () => {
    const { path, write, kill } = await pty();
    const heard = await openAndHear(serial(path));
    await write('12.5\r\n13.');
    await until(() => heard.bytes().length > 0, 'bytes arrive');
    await kill();
    await until(() => heard.closed.length > 0, 'the loss is told');
    expect(heard.closed).toMatchObject([{ kind: 'lost' }]);
    expect(heard.closed[0]?.sentence).toMatch(/is lost; check the adapter.*What was received is kept/);
    expect(heard.bytes().toString()).toBe('12.5\r\n13.');
  });

  it('loses nothing that came after opening, whatever became of what waited in the driver before (S8)', async () => {
    const { path, write } = await pty();
    await write('1\r\n2\r\n');
    const heard = await openAndHear(serial(path));
    await write('3\r\n4\r\n');
    await until(() => heard.bytes().includes('4'), 'the line after opening arrives');
    expect(heard.bytes().toString()).toMatch(/^(?:1\r\n2\r\n)?3\r\n4\r\n$/);
  });

  it('says nothing and stays open while the sender is stopped: silence is watched by the bytes, not by events (S2)', async () => {
    const { path, write, socat } = await pty();
    const heard = await openAndHear(serial(path));
    await write('1\r\n');
    await until(() => heard.bytes().length === 3, 'the line arrives');
    socat.kill('SIGSTOP');
    await write('2\r\n');
    await new Promise((resolve) => setTimeout(resolve, 2_500));
    expect([heard.bytes().length, heard.closed, heard.faults]).toEqual([3, [], []]);
    socat.kill('SIGCONT');
    await until(() => heard.bytes().length === 6, 'the line after the stop arrives');
  });

  it('has control lines where it has them: that a pty has none is a note, not a stop (S10)', async () => {
    const { path, write } = await pty();
    const heard = await openAndHear(serial(path, { controlLines: true }));
    expect(heard.notes).toMatchObject([{ code: 'control-lines' }]);
    await write('1\r\n');
    await until(() => heard.bytes().length > 0, 'bytes arrive');
  });

  it('leaves the control lines alone where the profile names none: some readouts reset when they move (S9)', async () => {
    const { path, write } = await pty();
    const heard = await openAndHear(serial(path));
    await write('1\r\n');
    await until(() => heard.bytes().length > 0, 'bytes arrive');
    // On a pty every call for them fails and would be a note.
    expect(heard.notes).toEqual([]);
  });

  it('is busy for a second opening, which names who holds it (S11)', async () => {
    const { path } = await pty();
    await openAndHear(serial(path));
    const fault = await faultOf(openAndHear(serial(path)));
    expect(fault.code).toBe('port-busy');
    expect(fault.sentence).toMatch(/in use by .*retry/);
  });

  it('is busy with every program named that has it open: which one has locked it can’t be told (S11)', async () => {
    const { path } = await pty();
    const other = openSync(path, constants.O_RDWR | constants.O_NOCTTY);
    const sleeper = spawn('sleep', ['60'], { stdio: [other, 'ignore', 'ignore'] });
    try {
      await openAndHear(serial(path));
      closeSync(other);
      const { sentence } = await faultOf(openAndHear(serial(path)));
      expect(sentence).toContain(`sleep (process ${String(sleeper.pid)})`);
      expect(sentence).toContain('Gaugemark itself');
    } finally {
      sleeper.kill('SIGKILL');
    }
  });

  it('is refused for a plain file and for a path that is not there (S11)', async () => {
    const file = join(folder, 'log.txt');
    await writeFile(file, '1\r\n');
    expect((await faultOf(openAndHear(serial(file)))).code).toBe('not-a-port');
    expect((await faultOf(openAndHear(serial(join(folder, 'nothing'))))).code).toBe('port-missing');
  });

  it.skipIf(process.getuid?.() !== 0)(
    'is refused for somebody outside its group, with the group and what gets one in (S11)',
    async () => {
      const { path } = await pty();
      const device = await realpath(path);
      // The group that a distribution gives serial ports, by its number here.
      const group = /^dialout:[^:]*:(\d+)/m.exec(await readFile('/etc/group', 'utf8'))?.[1];
      await chown(device, 0, Number(group ?? 20));
      await chmod(device, 0o660);
      // Everything is read as root, which owns these files; only the opening is nobody's.
      const program = `
        const { faultBeforeOpening } = await import(${JSON.stringify(join(import.meta.dirname, '../../drivers/serial/open-fault.ts'))});
        process.setgroups([]);
        process.setgid(65534);
        process.setuid(65534);
        console.log(JSON.stringify(await faultBeforeOpening(${JSON.stringify(device)})));`;
      const run = await promisify(execFile)(process.execPath, ['--input-type=module', '-e', program]);
      expect(JSON.parse(run.stdout)).toMatchObject({
        code: 'port-forbidden',
        sentence: expect.stringMatching(
          new RegExp(
            `^${device} may not be opened by .*group "${group === undefined ? '20' : 'dialout'}".*sign in again`,
          ),
        ) as string,
      });
    },
  );

  it('can be opened again at once after it was closed', async () => {
    const { path, write } = await pty();
    for (const line of ['1\r\n', '2\r\n']) {
      const transport = serial(path);
      const heard = await openAndHear(transport);
      await write(line);
      await until(() => heard.bytes().length === line.length, 'the line arrives');
      await transport.close();
      expect(heard.closed).toMatchObject([{ kind: 'asked' }]);
    }
  });

  it(
    'answers write and close in bounded time though the far side is stopped (S16)',
    async () => {
      const { path, socat } = await pty();
      const transport = serial(path);
      const heard = await openAndHear(transport);
      socat.kill('SIGSTOP');
      // More than a pty takes.
      const fault = await faultOf(transport.write(Buffer.alloc(200_000, 0x41)));
      expect(fault.code).toBe('write-failed');
      await transport.close();
      expect(heard.closed).toHaveLength(1);
      socat.kill('SIGCONT');
      expect((await faultOf(transport.write(Buffer.from('x')))).code).toBe('not-open');
    },
    PORT_CALL_MS_MAX * 10,
  );
});

describe('an adapter with an identity', () => {
  const identity: PortIdentity = { vendorId: '0403', productId: '6001', serialNumber: 'K7Q2WX' };

  it('is found under the other path under which it came back (S4)', async () => {
    const first = await pty('ttyUSB0');
    const transport = serial(first.path, {
      identity,
      ports: () => Promise.resolve([{ path: first.path, identity }]),
    });
    const heard = await openAndHear(transport);
    await first.kill();
    await until(() => heard.closed.length > 0, 'the loss is told');
    const second = await pty('ttyUSB1');
    const again = serial(first.path, {
      identity,
      ports: () => Promise.resolve([{ path: second.path, identity }]),
    });
    const heardAgain = await openAndHear(again);
    expect(again.place).toBe(second.path);
    expect(heardAgain.notes).toMatchObject([{ code: 'port-moved' }]);
    await second.write('7\r\n');
    await until(() => heardAgain.bytes().length > 0, 'bytes arrive');
  });

  it('is refused when another instrument is behind its path (S5)', async () => {
    const { path } = await pty();
    const other = { ...identity, serialNumber: 'ZZ9' };
    const fault = await faultOf(
      openAndHear(serial(path, { identity, ports: () => Promise.resolve([{ path, identity: other }]) })),
    );
    expect(fault.code).toBe('port-is-another');
  });
});

describe('listing ports (S12)', () => {
  it('gives a list with an empty PATH, where the tool that the library needs is missing', async () => {
    const before = process.env['PATH'];
    process.env['PATH'] = '';
    try {
      expect(Array.isArray(await listPorts())).toBe(true);
    } finally {
      process.env['PATH'] = before;
    }
  });

  it('loads no native module into the process that lists', async () => {
    const program = `
      const { listPorts } = await import(${JSON.stringify(join(import.meta.dirname, '../../drivers/serial/list-ports.ts'))});
      await listPorts();
      const loaded = process.report.getReport().sharedObjects.filter((file) => file.includes('serialport'));
      console.log(JSON.stringify(loaded));`;
    const { stdout } = await promisify(execFile)(process.execPath, ['--input-type=module', '-e', program]);
    expect(JSON.parse(stdout)).toEqual([]);
  });
});
