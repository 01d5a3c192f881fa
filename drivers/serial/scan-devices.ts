/** Serial ports found in the device files of Linux, without any tool. */
import { readFile, readdir, realpath } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { ListedPort, PortIdentity } from '../../core/contract/source.ts';

const TTY = /^tty(?:USB|ACM|AMA|XRUSB|mxc|S)\d+$/;
/** Parents looked at on the way up from a tty to its USB device. */
const PARENTS_MAX = 6;

/** `root` stands for "/" in tests. */
export async function scanDevices(root = '/'): Promise<ListedPort[]> {
  const names = new Set<string>();
  for (const folder of ['sys/class/tty', 'dev'])
    for (const name of await readdir(join(root, folder)).catch(() => [])) if (TTY.test(name)) names.add(name);
  const ports = await Promise.all([...names].map((name) => portOf(root, name)));
  return ports.filter((port) => port !== null);
}

async function portOf(root: string, name: string): Promise<ListedPort | null> {
  const entry = join(root, 'sys/class/tty', name);
  // The kernel keeps places for chips that are not there: their type is 0.
  if (/^ttyS/.test(name) && ((await textOf(join(entry, 'type'))) ?? '0') === '0') return null;
  return { path: `/dev/${name}`, identity: await identityOf(entry) };
}

async function identityOf(entry: string): Promise<PortIdentity> {
  let folder = await realpath(join(entry, 'device')).catch(() => null);
  for (let level = 0; folder !== null && level < PARENTS_MAX; level++, folder = dirname(folder)) {
    const vendorId = await textOf(join(folder, 'idVendor'));
    if (vendorId === undefined) continue;
    const productId = await textOf(join(folder, 'idProduct'));
    const serialNumber = await textOf(join(folder, 'serial'));
    const manufacturer = await textOf(join(folder, 'manufacturer'));
    return {
      vendorId,
      location: `usb-${basename(folder)}`,
      ...(productId === undefined ? {} : { productId }),
      ...(serialNumber === undefined ? {} : { serialNumber }),
      ...(manufacturer === undefined ? {} : { manufacturer }),
    };
  }
  return {};
}

async function textOf(file: string): Promise<string | undefined> {
  const text = await readFile(file, 'utf8').catch(() => '');
  return text.trim() === '' ? undefined : text.trim();
}
