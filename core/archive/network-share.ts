/**
 * Whether a folder lies on another machine. Locks and syncs can't be relied on there, so no live recording:
 * export or back up to such a place instead.
 */
import { statfsSync } from 'node:fs';

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

/** The name of the network file system that `folder` lies on, null where it is a local one or can't be told. */
export function networkShareName(
  folder: string,
  platform: NodeJS.Platform = process.platform,
): string | null {
  if (platform === 'win32') return /^(?:\\\\|\/\/)(?![?.][\\/])/.test(folder) ? 'a network path' : null;
  try {
    return networkFileSystemName(statfsSync(folder).type);
  } catch {
    // Where the file system can't tell, opening the archive will.
    return null;
  }
}

/** By the magic number that statfs gives; some systems hand it out as a negative 32-bit number. */
export function networkFileSystemName(type: number): string | null {
  return NETWORK_FILE_SYSTEMS.get(type >>> 0) ?? null;
}
