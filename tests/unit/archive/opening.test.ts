/** Opening an archive: each thing that can be wrong has its sentence, and nothing is changed by finding out. */
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import { ArchiveFault } from '../../../core/archive/archive-fault.ts';
import { type OpenOptions, isFull, pragmaNumber } from '../../../core/archive/open-archive.ts';
import { SCHEMA_VERSION } from '../../../core/archive/migrations/index.ts';
import { setArchiveAside } from '../../../core/archive/set-aside.ts';
import { defaultArchivePath } from '../../../core/archive/place.ts';
import {
  networkFileSystemName,
  networkMountName,
  networkShareName,
} from '../../../core/archive/network-share.ts';
import { WALL_MS, keptPull, openArchive, scratchFolder } from './made-archive.ts';

/** The fault that opening gives. */
function faultOfOpening(path: string, more: Partial<OpenOptions> = {}): ArchiveFault {
  try {
    new Archive(path, { programVersion: '9.9.9', wallMs: () => WALL_MS, ...more }).close();
  } catch (error) {
    if (error instanceof ArchiveFault) return error;
    throw error;
  }
  throw new Error('the archive was opened');
}

/** An archive with one pull, closed, as bytes in its file. */
function closedArchive(): string {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  keptPull(archive);
  archive.close();
  return path;
}

describe('an archive', () => {
  it('is begun where there is none, owned alone, and syncs every commit (D1)', () => {
    const path = join(scratchFolder(), 'name with "quotes" and accents é ü.gaugemark');
    const archive = openArchive(path);
    expect(isFull(archive.connection)).toBe(true);
    archive.saveSpecimen({ specimen: { id: 'a', geometry: { kind: 'round', diameter: '10 mm' } } });
    expect(isFull(archive.connection)).toBe(true);
    expect(archive.connection.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(archive.connection.pragma('locking_mode', { simple: true })).toBe('exclusive');
    // Without a shared-memory file a full disk can't end the process with SIGBUS.
    expect(existsSync(`${path}-shm`)).toBe(false);
    expect(faultOfOpening(path).code).toBe('archive-in-use');
  });

  it('syncs every commit after it was opened again as well (D1)', () => {
    const path = closedArchive();
    const archive = openArchive(path);
    archive.saveSpecimen({ specimen: { id: 'a', geometry: { kind: 'round', diameter: '10 mm' } } });
    expect(pragmaNumber(archive.connection, 'synchronous')).toBe(2);
  });

  it('is refused when it was written by a newer version: both versions named, the file byte for byte as it was (D13)', () => {
    const path = closedArchive();
    const database = new Database(path);
    database.pragma('user_version = 41');
    database.close();
    const before = readFileSync(path);
    const fault = faultOfOpening(path);
    expect(fault.code).toBe('archive-newer');
    expect(fault.message).toMatch(new RegExp(`form 41 .*forms up to ${SCHEMA_VERSION}:`));
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  it('is refused when it is no database (D7)', () => {
    const path = join(scratchFolder(), 'letters.gaugemark');
    writeFileSync(path, 'Dear customer, '.repeat(100));
    expect(faultOfOpening(path).code).toBe('archive-not-a-database');
    expect(readFileSync(path, 'latin1').startsWith('Dear customer')).toBe(true);
  });

  it('is refused when it is a database of another program', () => {
    const path = join(scratchFolder(), 'other.db');
    const other = new Database(path);
    other.exec('CREATE TABLE cats (name TEXT)');
    other.pragma('user_version = 1');
    other.close();
    expect(faultOfOpening(path).code).toBe('archive-foreign');
  });

  it('is refused when it is damaged, and can be set aside with its date, never deleted (D7)', () => {
    const path = closedArchive();
    const bytes = readFileSync(path);
    // Two pages in the middle are overwritten, as a failing disk does.
    bytes.fill(0xa5, 4096 * 2, 4096 * 4);
    writeFileSync(path, bytes);
    const fault = faultOfOpening(path);
    expect(fault.code).toBe('archive-damaged');
    expect(fault.message).toContain('Set this archive aside…');
    expect(fault.message).toContain(`gaugemark archive set-aside --archive "${path}"`);
    // What the database itself says stands apart, on one line.
    expect(fault.message).not.toMatch(/tree|page|malformed|SQLITE/i);
    expect(fault.detail).toMatch(/^.*(?:tree|page|malformed).*$/i);
    expect(readFileSync(path).equals(bytes)).toBe(true);
    writeFileSync(`${path}-spool-a`, 'spooled');
    const aside = setArchiveAside(path, WALL_MS);
    expect(aside).toBe(`${path}.damaged-2026-03-04T09-30-00-000Z`);
    expect(readFileSync(aside).equals(bytes)).toBe(true);
    expect(readFileSync(`${aside}-spool-a`, 'latin1')).toBe('spooled');
    expect(openArchive(path).info().pullCount).toBe(0);
  });

  it('never takes a name that is taken when it is set aside', () => {
    const path = closedArchive();
    const first = setArchiveAside(path, WALL_MS);
    copyFileSync(first, path);
    expect(setArchiveAside(path, WALL_MS)).toBe(`${first}-2`);
  });

  it('is refused when its folder is missing (D14)', () => {
    const fault = faultOfOpening(join(scratchFolder(), 'gone', 'a.gaugemark'));
    expect([fault.code, fault.message.includes('gone')]).toEqual(['archive-folder-missing', true]);
  });

  it.skipIf(process.platform !== 'linux')('says so where the folder is there and takes no file', () => {
    // No process may make a file in /proc, whoever it belongs to.
    const fault = faultOfOpening('/proc/a.gaugemark');
    expect([fault.code, fault.message]).toEqual([
      process.getuid?.() === 0 ? 'archive-not-made' : 'archive-read-only',
      expect.not.stringContaining('missing'),
    ]);
  });

  it('says so where a file stands in the place of its folder', () => {
    const file = join(scratchFolder(), 'notes');
    writeFileSync(file, 'kept');
    expect(faultOfOpening(join(file, 'a.gaugemark')).message).toMatch(/notes is no folder/);
    expect(readFileSync(file, 'utf8')).toBe('kept');
  });

  it('is refused when the path is a folder', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    mkdirSync(path);
    expect(faultOfOpening(path).code).toBe('archive-not-a-database');
  });

  it('is refused when it is write-protected, for an administrator too (D14)', () => {
    const path = closedArchive();
    chmodSync(path, 0o444);
    expect(faultOfOpening(path).code).toBe('archive-read-only');
    expect(statSync(path).mode & 0o777).toBe(0o444);
  });

  it('is taken up again when it was killed before its first table was there', () => {
    const path = join(scratchFolder(), 'a.gaugemark');
    writeFileSync(path, '');
    expect(openArchive(path).info().pullCount).toBe(0);
  });
});

describe('a folder on another machine', () => {
  it('is known by the kind of its file system (D11)', () => {
    // linux/magic.h, from memory.
    expect([
      networkFileSystemName(0x6969),
      networkFileSystemName(0xff534d42),
      networkFileSystemName(-11317950),
    ]).toEqual(['NFS', 'CIFS', 'CIFS']);
    expect(networkFileSystemName(0xef53)).toBeNull();
    expect(networkShareName(scratchFolder())).toBeNull();
  });

  it('is known by the source of its mount where a program serves it (D11)', () => {
    // Lines as proc(5) has them.
    const mounts = [
      '22 1 8:1 / / rw,relatime shared:1 - ext4 /dev/sda1 rw',
      '40 22 0:40 / /mnt/weld\\040lab rw,nosuid - fuse.sshfs lab@frame:/welds rw,user_id=1000',
      '41 22 0:41 / /mnt/stick rw - fuseblk /dev/sdb1 rw',
      '42 40 0:42 / /mnt/weld\\040lab/here rw - fuse.bindfs /home/welds rw',
      '44 22 0:44 / /mnt/union rw - fuse.mergerfs disk1:disk2 rw',
      '45 22 0:45 / /mnt/dav rw - fuse https://frame/welds rw',
      '43 22 0:43 / /mnt/bucket rw master:2 - fuse.s3fs s3fs rw',
      '',
    ].join('\n');
    const kinds = [
      '/mnt/weld lab',
      '/mnt/weld lab/2026',
      '/mnt/bucket/a',
      '/mnt/stick',
      '/mnt/weld lab/here/a',
    ];
    expect(kinds.map((folder) => networkMountName(folder, mounts))).toEqual([
      'fuse.sshfs',
      'fuse.sshfs',
      'fuse.s3fs',
      null,
      null,
    ]);
    expect(networkMountName('/mnt/dav', mounts)).toBe('fuse');
    expect(
      ['/mnt/weld laboratory', '/mnt/union', '/home'].map((folder) => networkMountName(folder, mounts)),
    ).toEqual([null, null, null]);
    expect(networkMountName('/a', 'no such text')).toBeNull();
  });

  it('is no place to record in, with an advice, and no file is begun there; what lies there is read (D11)', () => {
    const path = closedArchive();
    const shareName = (folder: string): string | null => (path.startsWith(folder) ? 'NFS' : null);
    const before = readFileSync(path);
    const fault = faultOfOpening(path, { shareName });
    expect(fault.code).toBe('archive-on-network');
    expect(fault.message).toBe(
      `The folder ${dirname(path)} lies on a network share (NFS), where a recording is not safe; record on a disk of this computer and back up to the share.`,
    );
    expect(readFileSync(path).equals(before)).toBe(true);
    const fresh = join(dirname(path), 'fresh.gaugemark');
    expect(faultOfOpening(fresh, { shareName }).code).toBe('archive-on-network');
    expect(existsSync(fresh)).toBe(false);
    const read = new Archive(path, {
      programVersion: '9.9.9',
      wallMs: () => WALL_MS,
      purpose: 'read',
      shareName,
    });
    expect(read.info().pullCount).toBe(1);
    read.close();
  });

  it('is known by its path on Windows (D11)', () => {
    expect(networkShareName('\\\\server\\share\\welds', 'win32')).not.toBeNull();
    expect(networkShareName('C:\\Users\\welds', 'win32')).toBeNull();
    expect(networkShareName('\\\\?\\C:\\long', 'win32')).toBeNull();
  });
});

describe('the place where nobody says otherwise', () => {
  it('is that of the platform', () => {
    const at = (platform: NodeJS.Platform, home: string, environment = {}): string =>
      defaultArchivePath({ platform, home, environment });
    // XDG Base Directory Specification: $XDG_DATA_HOME, else ~/.local/share; relative paths are to be ignored.
    expect(at('linux', '/home/a')).toBe('/home/a/.local/share/gaugemark/archive.gaugemark');
    expect(at('linux', '/home/a', { XDG_DATA_HOME: '/data' })).toBe('/data/gaugemark/archive.gaugemark');
    expect(at('linux', '/home/a', { XDG_DATA_HOME: 'data' })).toBe(
      '/home/a/.local/share/gaugemark/archive.gaugemark',
    );
    expect(at('darwin', '/Users/a')).toBe('/Users/a/Library/Application Support/gaugemark/archive.gaugemark');
  });

  it('is on Windows the folder that stays on the computer, never the one that is synchronised at sign-out', () => {
    const environment = { APPDATA: 'D:\\Roaming', LOCALAPPDATA: 'E:\\Local' };
    const at = (given: Record<string, string>): string =>
      defaultArchivePath({ platform: 'win32', home: 'C:\\Users\\a', environment: given });
    expect(at(environment)).toBe('E:\\Local\\gaugemark\\archive.gaugemark');
    expect(at({ APPDATA: 'D:\\Roaming' })).toBe('C:\\Users\\a\\AppData\\Local\\gaugemark\\archive.gaugemark');
    expect(at({ ...environment, LOCALAPPDATA: 'Local' })).toBe(
      'C:\\Users\\a\\AppData\\Local\\gaugemark\\archive.gaugemark',
    );
  });
});
