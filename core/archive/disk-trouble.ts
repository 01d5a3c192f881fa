/** What the system's codes say of a file's place, and the sentence for a file that was to be written there. Knows no database. */
import { existsSync } from 'node:fs';
import { dirname } from 'node:path';

export const DISK_TROUBLES = ['disk-full', 'read-only', 'folder-missing', 'not-made', 'unreadable'] as const;
export type DiskTrouble = (typeof DISK_TROUBLES)[number];

/** A disk that fails, a stick that was pulled, a share that no longer answers (errno.h; what Node has no name for it numbers). */
const MEDIUM_CODES: ReadonlySet<string> = new Set([
  'EIO',
  'ESTALE',
  'ENXIO',
  'ENODEV',
  'ENOTCONN',
  'EREMOTEIO',
  'ESHUTDOWN',
  'ETIMEDOUT',
  'ECONNABORTED',
  'ECONNREFUSED',
  'ECONNRESET',
  'EHOSTDOWN',
  'EHOSTUNREACH',
  'ENETDOWN',
  'ENETUNREACH',
]);

/** `code`: of the system, about the file at `path`. Null where it speaks of something else. */
export function diskTroubleOf(code: string, path: string): DiskTrouble | null {
  if (code === 'ENOSPC' || code === 'EDQUOT') return 'disk-full';
  if (code === 'EROFS' || code === 'EACCES' || code === 'EPERM') return 'read-only';
  if (code === 'ENOENT' || code === 'ENOTDIR') return noPlaceAt(path);
  return MEDIUM_CODES.has(code) || code.startsWith('Unknown system error') ? 'unreadable' : null;
}

export const noPlaceAt = (path: string): DiskTrouble =>
  existsSync(dirname(path)) ? 'not-made' : 'folder-missing';

/** What it means where something was written there already: what is missing has gone since. */
export const troubleWhenBegun = (trouble: DiskTrouble): DiskTrouble | 'gone' =>
  trouble === 'folder-missing' || trouble === 'not-made' ? 'gone' : trouble;

/** `what`: "export", "backup", "picture". */
export function targetSentence(trouble: DiskTrouble | 'gone', path: string, what: string): string {
  switch (trouble) {
    case 'gone':
      return `What was written of the ${what} is gone again from ${path}: its medium was pulled, or its folder taken away. Put it back, or choose another place, and do it again. The archive is untouched.`;
    case 'disk-full':
      return `The disk that holds ${path} is full, so the ${what} was not written; free some space or choose another disk. The archive is untouched.`;
    case 'read-only':
      return `The file ${path} can't be written (no permission, or a read-only medium); choose another place. The archive is untouched.`;
    case 'folder-missing':
      return `The folder of ${path} does not exist or can't be entered; make it first or choose another one.`;
    case 'not-made':
      return `No file can be made at ${path}: its folder is there and takes none; choose another one. The archive is untouched.`;
    case 'unreadable':
      return `The medium that holds ${path} gave an error, so the ${what} was not written; choose another one. The archive is untouched.`;
  }
}
