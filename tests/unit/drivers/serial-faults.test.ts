import { chmod, mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { NoAnswerError, boundedCall } from '../../../drivers/bounded-call.ts';
import { faultBeforeOpening, faultOfOpening, groupThatMayUse } from '../../../drivers/serial/open-fault.ts';
import { scanDevices } from '../../../drivers/serial/scan-devices.ts';

let folder = '';
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'gaugemark-serial-'));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe.skipIf(process.platform === 'win32')('why a port could not be opened, in a sentence (S11)', () => {
  it('names a path that is not there', async () => {
    const fault = await faultBeforeOpening(join(folder, 'nothing'));
    expect(fault).toMatchObject({ code: 'port-missing' });
    expect(fault?.sentence).toMatch(/nothing; plug the adapter in/);
  });

  it('tells a plain file and a folder from a port', async () => {
    const file = join(folder, 'recorded.txt');
    await writeFile(file, '12.5\r\n');
    expect(await faultBeforeOpening(file)).toMatchObject({ code: 'not-a-port' });
    expect((await faultBeforeOpening(folder))?.sentence).toMatch(/is a folder, not a serial port/);
  });

  it.skipIf(process.getuid?.() === 0)(
    'sends to the administrator where the group of the device may not write either',
    async () => {
      // A device that only root may write, and its group only read: every Linux has it.
      const fault = await faultBeforeOpening('/dev/mem');
      expect(fault).toMatchObject({ code: 'port-forbidden' });
      expect(fault?.sentence).toMatch(/ask the administrator for access/);
    },
  );

  it('names the group of a port only where being in it helps, and never the group of root', () => {
    expect(groupThatMayUse({ gid: 20, mode: 0o20660 })).toBe(20);
    expect(groupThatMayUse({ gid: 20, mode: 0o20640 })).toBeNull();
    expect(groupThatMayUse({ gid: 20, mode: 0o20600 })).toBeNull();
    expect(groupThatMayUse({ gid: 0, mode: 0o20660 })).toBeNull();
  });

  it.each([
    ['Error Resource temporarily unavailable Cannot lock port', 'port-busy'],
    ['Opening COM3: Access denied', 'port-busy'],
    ['Error: No such file or directory, cannot open /dev/ttyUSB0', 'port-missing'],
    ['Error: Permission denied, cannot open /dev/ttyUSB0', 'port-forbidden'],
    ['Error: Inappropriate ioctl for device setting custom baud rate of 9600', 'not-a-port'],
    ['Error: Invalid argument setting custom baud rate of 12345678', 'port-settings-refused'],
    ['something new', 'source-failed'],
  ])('"%s" is %s', async (message, code) => {
    const fault = await faultOfOpening('/dev/ttyUSB0', new Error(message));
    expect(fault.code).toBe(code);
    expect(fault.sentence).toContain('/dev/ttyUSB0');
    expect(fault.detail).toBe(message);
  });

  it('gives up on an open that never answers', async () => {
    expect(await faultOfOpening('/dev/ttyUSB0', new NoAnswerError('open'))).toMatchObject({
      code: 'no-answer',
    });
  });
});

describe('a call that never answers (S16)', () => {
  it('ends at its limit, and what it brings later is taken care of', async () => {
    let answer: (value: string) => void = () => undefined;
    const late = new Promise<string>((resolve) => {
      answer = resolve;
    });
    const dropped: string[] = [];
    await expect(
      boundedCall(
        'drain',
        5,
        () => late,
        (value) => dropped.push(value),
      ),
    ).rejects.toThrow(NoAnswerError);
    answer('handle');
    await late;
    expect(dropped).toEqual(['handle']);
  });

  it('hands an answer through that comes in time, failure or not', async () => {
    await expect(boundedCall('open', 1000, () => Promise.resolve(7))).resolves.toBe(7);
    await expect(boundedCall('open', 1000, () => Promise.reject(new Error('busy')))).rejects.toThrow('busy');
  });
});

describe.skipIf(process.platform === 'win32')('ports found without any tool (S12)', () => {
  it('are those of the device files, with the identity of their USB device', async () => {
    const usb = join(folder, 'sys/devices/pci0/usb1/1-2');
    await mkdir(join(usb, '1-2:1.0/ttyUSB0'), { recursive: true });
    await writeFile(join(usb, 'idVendor'), '0403\n');
    await writeFile(join(usb, 'idProduct'), '6001\n');
    await writeFile(join(usb, 'serial'), 'K7Q2WX\n');
    await mkdir(join(folder, 'sys/class/tty/ttyUSB0'), { recursive: true });
    await symlink(join(usb, '1-2:1.0/ttyUSB0'), join(folder, 'sys/class/tty/ttyUSB0/device'));
    for (const [name, type] of [
      ['ttyS0', '4'],
      ['ttyS1', '0'],
    ] as const) {
      await mkdir(join(folder, 'sys/class/tty', name), { recursive: true });
      await writeFile(join(folder, 'sys/class/tty', name, 'type'), `${type}\n`);
    }
    await mkdir(join(folder, 'dev'), { recursive: true });
    for (const name of ['ttyACM0', 'tty0', 'null']) await writeFile(join(folder, 'dev', name), '');
    await chmod(join(folder, 'dev'), 0o755);
    const ports = await scanDevices(folder);
    expect(ports.sort((a, b) => a.path.localeCompare(b.path))).toEqual([
      { path: '/dev/ttyACM0', identity: {} },
      { path: '/dev/ttyS0', identity: {} },
      {
        path: '/dev/ttyUSB0',
        identity: { vendorId: '0403', productId: '6001', serialNumber: 'K7Q2WX', location: 'usb-1-2' },
      },
    ]);
  });

  it('are none on a computer that has none', async () => {
    expect(await scanDevices(folder)).toEqual([]);
  });
});
