/**
 * Whether a folder lies on another machine. Locks and syncs can't be relied on there, so no live recording:
 * export or back up to such a place instead.
 */
import { readFileSync, realpathSync, statfsSync } from 'node:fs';

/** Magic numbers of file systems that are served over a network (linux/magic.h and the kernel's sources; from memory). */
const NETWORK_FILE_SYSTEMS: ReadonlyMap<number, string> = new Map([
  [0x6969, 'NFS'],
  [0xff534d42, 'CIFS'],
  [0xfe534d42, 'SMB'],
  [0x517b, 'SMB'],
  [0x5346414f, 'AFS'],
  [0x73757245, 'Coda'],
  [0x564c, 'NCP'],
  [0x01021997, '9P'],
  [0x00c36400, 'Ceph'],
  [0x0bd00bd0, 'Lustre'],
  [0x47504653, 'GPFS'],
]);

/** Served by a program (linux/magic.h, from memory): the number says neither which nor from where. */
const FUSE = 0x65735546;
/** Kinds of such mounts that come over a network, also where their source is not written so (from memory). */
const NETWORK_MOUNTS: ReadonlySet<string> = new Set(
  ['sshfs', 'rclone', 's3fs', 'glusterfs', 'gvfsd-fuse'].map((kind) => `fuse.${kind}`),
);
/** `user@host:/folder`, `https://host/folder`, `//host/share`; folders put together are written as `a:b`. */
const ON_ANOTHER_MACHINE = /^(?:[^/]+:(?:\/|$)|\/\/)/;

/** The name of the network file system that `folder` lies on, null where it is a local one or can't be told. */
export function networkShareName(
  folder: string,
  platform: NodeJS.Platform = process.platform,
): string | null {
  if (platform === 'win32') return /^(?:\\\\|\/\/)(?![?.][\\/])/.test(folder) ? 'a network path' : null;
  try {
    const { type } = statfsSync(folder);
    if (type >>> 0 !== FUSE) return networkFileSystemName(type);
    return networkMountName(realpathSync(folder), readFileSync('/proc/self/mountinfo', 'utf8'));
  } catch {
    // Where the file system can't tell, opening the archive will.
    return null;
  }
}

/** By the magic number that statfs gives; some systems hand it out as a negative 32-bit number. */
export function networkFileSystemName(type: number): string | null {
  return NETWORK_FILE_SYSTEMS.get(type >>> 0) ?? null;
}

/**
 * The kind of the mount that a folder (absolute, no links in it) lies on, by the text of `/proc/self/mountinfo`
 * (proc(5): fields are parted by blanks, and blanks in them written as `\\040`); null where it is of this machine.
 */
export function networkMountName(folder: string, mountInfo: string): string | null {
  let longest = '';
  let name: string | null = null;
  for (const line of mountInfo.split('\n')) {
    const fields = line.split(' ');
    const [kind, source] = fields.slice(fields.indexOf('-') + 1).map(plain);
    const place = plain(fields[4] ?? '');
    if (kind === undefined || source === undefined || place === '') continue;
    if (folder !== place && !folder.startsWith(place.endsWith('/') ? place : `${place}/`)) continue;
    // Of two mounts in one place the later one is seen.
    if (place.length < longest.length) continue;
    longest = place;
    name = NETWORK_MOUNTS.has(kind) || ON_ANOTHER_MACHINE.test(source) ? kind : null;
  }
  return name;
}

/** A field as it is: blank, tab, line break and backslash are written there as their octal number. */
const plain = (field: string): string =>
  field.replace(/\\([0-7]{3})/g, (_, octal: string) => String.fromCharCode(Number.parseInt(octal, 8)));
