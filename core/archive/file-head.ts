/**
 * The first bytes of an archive file, read before the database library touches it: so that a newer or foreign
 * file stays byte for byte as it was. Offsets: SQLite database file format, sections 1.3 and 1.6.
 */
import { closeSync, fstatSync, openSync, readSync } from 'node:fs';

/** The database header, and behind it the header of the first page, which is the root of the schema. */
const HEAD_BYTES = 108;
const MAGIC = 'SQLite format 3\0';
/** 2 where the file is written by way of a log. */
const PAGE_SIZE_AT = 16;
const PAGE_COUNT_AT = 28;
/** A page of 65 536 bytes does not fit into the two that tell its size, and is told as one. */
const LARGEST_PAGE_TOLD = 1;
const LARGEST_PAGE_BYTES = 65_536;
const READ_VERSION_AT = 19;
const LOG_MODE = 2;
const USER_VERSION_AT = 60;
const APPLICATION_ID_AT = 68;
const PAGE_KIND_AT = 100;
const CELL_COUNT_AT = 103;
const TABLE_LEAF = 0x0d;

/** "GMRK" as a number, in the database's application id: this file is an archive of this program. */
export const APPLICATION_ID = 0x474d524b;

export type FileHead =
  | { readonly kind: 'missing' }
  | { readonly kind: 'empty' }
  | { readonly kind: 'not-a-database' }
  | DatabaseHead;

export interface DatabaseHead {
  readonly kind: 'database';
  readonly userVersion: number;
  readonly applicationId: number;
  /** There is at least one table in the main file; a log beside it may hold more. */
  readonly hasTables: boolean;
  readonly isInLogMode: boolean;
  /** The file is as long as its head says. Means nothing while a log lies beside it. */
  readonly isWhole: boolean;
}

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
      hasTables: head.readUInt8(PAGE_KIND_AT) !== TABLE_LEAF || head.readUInt16BE(CELL_COUNT_AT) > 0,
      isInLogMode: head.readUInt8(READ_VERSION_AT) === LOG_MODE,
      isWhole: fstatSync(file).size === pageBytes(head) * head.readUInt32BE(PAGE_COUNT_AT),
    };
  } finally {
    closeSync(file);
  }
}

function pageBytes(head: Buffer): number {
  const told = head.readUInt16BE(PAGE_SIZE_AT);
  return told === LARGEST_PAGE_TOLD ? LARGEST_PAGE_BYTES : told;
}

/**
 * Whether a copy that was put away is, by its head and its length, an archive of this program that nobody cut short or
 * wrote over. Its pages are not looked at; false too where it can't be read.
 */
export function looksWhole(path: string): boolean {
  try {
    const head = readFileHead(path);
    return (
      head.kind === 'database' &&
      head.applicationId === APPLICATION_ID &&
      head.isWhole &&
      // A backup is closed; of one that was copied by hand from under the program the newest may lie in a log.
      !head.isInLogMode
    );
  } catch {
    return false;
  }
}
