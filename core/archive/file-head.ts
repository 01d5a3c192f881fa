/**
 * The first bytes of an archive file, read before the database library touches it: so that a newer or foreign
 * file stays byte for byte as it was. Offsets: SQLite database file format, section 1.3.
 */
import { closeSync, openSync, readSync } from 'node:fs';

const HEAD_BYTES = 100;
const MAGIC = 'SQLite format 3\0';
const USER_VERSION_AT = 60;
const APPLICATION_ID_AT = 68;

/** "GMRK" as a number, in the database's application id: this file is an archive of this program. */
export const APPLICATION_ID = 0x474d524b;

export type FileHead =
  | { readonly kind: 'missing' }
  | { readonly kind: 'empty' }
  | { readonly kind: 'not-a-database' }
  | { readonly kind: 'database'; readonly userVersion: number; readonly applicationId: number };

/** Throws what the file system gives, "file missing" excepted. */
export function readFileHead(path: string): FileHead {
  let file: number;
  try {
    file = openSync(path, 'r');
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return { kind: 'missing' };
    throw error;
  }
  try {
    const head = Buffer.alloc(HEAD_BYTES);
    const length = readSync(file, head, 0, HEAD_BYTES, 0);
    if (length === 0) return { kind: 'empty' };
    if (length < HEAD_BYTES || head.toString('latin1', 0, MAGIC.length) !== MAGIC)
      return { kind: 'not-a-database' };
    return {
      kind: 'database',
      userVersion: head.readUInt32BE(USER_VERSION_AT),
      applicationId: head.readUInt32BE(APPLICATION_ID_AT),
    };
  } finally {
    closeSync(file);
  }
}
