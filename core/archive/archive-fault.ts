/** Operating faults of the archive: each with a code, what is safe, and what to do. */
import { BlockDamagedError } from './codec/varint.ts';
import { type DiskTrouble, diskTroubleOf, noPlaceAt } from './disk-trouble.ts';
import { RowDamagedError } from './sql.ts';

export const ARCHIVE_FAULT_CODES = [
  'archive-missing',
  'archive-empty',
  'archive-folder-missing',
  'archive-not-made',
  'archive-read-only',
  'archive-damaged',
  'archive-not-a-database',
  'archive-foreign',
  'archive-newer',
  'archive-in-use',
  'archive-disk-full',
  'archive-on-network',
  'archive-unreadable',
  'archive-not-open',
  'archive-unsafe',
  'archive-half-copy',
] as const;
export type ArchiveFaultCode = (typeof ARCHIVE_FAULT_CODES)[number];

export class ArchiveFault extends Error {
  override readonly name = 'ArchiveFault';
  readonly code: ArchiveFaultCode;
  /** What the database itself said, in one line; for whoever looks into it, never a part of the sentence. */
  readonly detail: string | undefined;

  constructor(code: ArchiveFaultCode, sentence: string, detail?: string) {
    super(sentence);
    this.code = code;
    this.detail = detail === undefined ? undefined : oneLine(detail);
  }
}

/** What was asked of the archive can't be done as asked (no such pull, no reason given): the request is at fault. */
export class ArchiveRefusal extends Error {
  override readonly name = 'ArchiveRefusal';
  readonly code: string;
  readonly field: string | undefined;

  constructor(code: string, sentence: string, field?: string) {
    super(sentence);
    this.code = code;
    this.field = field;
  }
}

const DETAIL_LENGTH_MAX = 300;
const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim().slice(0, DETAIL_LENGTH_MAX);

/** Recording is refused, reading is not. */
export const readOnlySentence = (path: string): string =>
  `The archive ${path} can't be written to (read-only file, folder or medium), so nothing can be recorded into it. Nothing was changed; give write permission or choose another file. gaugemark archive list, show, export, check and backup read it as it is.`;

/** The file of the archive is damaged: both ways of setting it aside are named. */
export function damagedFault(path: string, detail: string): ArchiveFault {
  return new ArchiveFault(
    'archive-damaged',
    `The archive ${path} is damaged. Nothing was changed. "Set this archive aside…" in the window, or gaugemark archive set-aside --archive "${path}", renames it with today's date and keeps all of it; the next start begins a fresh one.`,
    detail,
  );
}

/**
 * The fault that an error of the database or the file system means; null where it is a bug of ours. `written`: a batch of
 * a record is tried again as soon as there is room; anything else is not kept, and is to be done again.
 */
export function archiveFaultOf(
  error: unknown,
  path: string,
  written: 'record' | 'asked' = 'asked',
): ArchiveFault | null {
  if (error instanceof ArchiveFault) return error;
  if (error instanceof BlockDamagedError || error instanceof RowDamagedError)
    return new ArchiveFault(
      'archive-damaged',
      `A part of the archive ${path} is damaged. Nothing was changed; gaugemark archive check --archive "${path}" names every pull that is affected.`,
      error.message,
    );
  const code = errorCode(error);
  if (code === null) return null;
  if (code.startsWith('SQLITE_BUSY') || code === 'SQLITE_LOCKED')
    return new ArchiveFault(
      'archive-in-use',
      `Another running program has the archive ${path} open; close it there, or choose another archive. Nothing was changed.`,
    );
  if (code.startsWith('SQLITE_CORRUPT') || isOfWrongSchema(code, error))
    return damagedFault(path, `${code}: ${error instanceof Error ? error.message : ''}`);
  if (code === 'SQLITE_NOTADB')
    return new ArchiveFault(
      'archive-not-a-database',
      `The file ${path} is no archive (it is no database at all). Nothing was changed; choose another file.`,
    );
  const trouble = troubleOf(code, path);
  if (trouble === 'disk-full')
    return new ArchiveFault(
      'archive-disk-full',
      written === 'record'
        ? `The disk that holds ${path} is full. What was kept before is safe; free some space and the rest is written in order.`
        : `The disk that holds ${path} is full, so this was not kept, not even a part of it. What was kept before is safe; free some space and do it again.`,
    );
  if (trouble === 'read-only') return new ArchiveFault('archive-read-only', readOnlySentence(path));
  if (trouble === 'not-made')
    return new ArchiveFault(
      'archive-not-made',
      `No file can be made at ${path}: its folder is there and takes none. Choose a folder on a disk of this computer.`,
    );
  if (trouble === 'folder-missing')
    return new ArchiveFault(
      'archive-folder-missing',
      `The archive ${path} can't be opened: its folder is missing or can't be entered. Choose an existing folder or make it first.`,
    );
  if (trouble === 'unreadable')
    return new ArchiveFault(
      'archive-unreadable',
      `The medium that holds ${path} gave an error (${code}). What was kept before is untouched; check the disk and its cable.`,
    );
  return null;
}

function troubleOf(code: string, path: string): DiskTrouble | null {
  if (code === 'SQLITE_FULL') return 'disk-full';
  if (code.startsWith('SQLITE_READONLY')) return 'read-only';
  if (code === 'SQLITE_CANTOPEN') return noPlaceAt(path);
  return code.startsWith('SQLITE_IOERR') ? 'unreadable' : diskTroubleOf(code, path);
}

/**
 * What the database says where the program is at fault: of transactions, and of statements that it can't read or take in.
 * Whatever else it says under this code, it says of the file: every statement of the program fits the schema that the
 * migrations make, so where one doesn't, the file is damaged, or was made by somebody.
 */
const FAULT_OF_THE_PROGRAM =
  /^(?:cannot (?:start|commit|rollback|release|open savepoint|VACUUM|change into|ATTACH|DETACH)|output file already exists|no such (?:savepoint|database)|near |incomplete input|unrecognized token|too many SQL variables|parser stack overflow|fts5: syntax error|safety level may not be changed)/;

const isOfWrongSchema = (code: string, error: unknown): boolean =>
  code === 'SQLITE_ERROR' && error instanceof Error && !FAULT_OF_THE_PROGRAM.test(error.message);

/** The code that SQLite or the system gave, null where the error has none. */
export function errorCode(error: unknown): string | null {
  const code = error instanceof Error && 'code' in error ? error.code : null;
  return typeof code === 'string' ? code : null;
}
