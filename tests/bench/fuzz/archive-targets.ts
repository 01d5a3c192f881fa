/**
 * Archives as hostile input, in three cuts, so that a million cases of each take minutes: the first look at a file, the
 * database opened from the same bytes in memory (what stands behind opening a file is the same), and rows of a database
 * that stays open. Whole files, opened, checked and closed as the program does it, take milliseconds each and so are few.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { z } from 'zod';
import { Archive } from '../../../core/archive/archive.ts';
import { ArchiveFault, ArchiveRefusal, archiveFaultOf } from '../../../core/archive/archive-fault.ts';
import { checkArchive } from '../../../core/archive/check-archive.ts';
import { checkHead, refuseNewer } from '../../../core/archive/check-head.ts';
import { BlockDamagedError } from '../../../core/archive/codec/varint.ts';
import { goOnByItself } from '../../../core/archive/copy-goes-on.ts';
import { hasNoLog, saysOpen } from '../../../core/archive/half-copy.ts';
import { migrate } from '../../../core/archive/migrate.ts';
import { SCHEMA_VERSION } from '../../../core/archive/migrations/index.ts';
import { pragmaNumber, quickCheck, requireFull } from '../../../core/archive/open-archive.ts';
import { readOpenRecord } from '../../../core/archive/open-record.ts';
import { curveOf } from '../../../core/archive/pull-columns.ts';
import { getPull, listPulls } from '../../../core/archive/pull-reader.ts';
import { requireIndex } from '../../../core/archive/search/make-index.ts';
import { listSpecimens } from '../../../core/archive/specimen-reader.ts';
import { type Connection, RowDamagedError } from '../../../core/archive/sql.ts';
import { changedArchive } from './archive-changes.ts';
import type { FuzzTarget } from './fuzz-target.ts';
import { changedLog } from './log-changes.ts';

const MILLION = 1_000_000;
const FIRST_FORM = new URL('../../../fixtures/archives/form-1.gaugemark', import.meta.url);
const OPTIONS = { programVersion: 'fuzz', wallMs: () => Date.UTC(2026, 2, 4) };
const SMALL_PAGE_BYTES = 512;

/** A folder in memory where there is one: a case should not wait for a disk. */
let folder: string | null = null;
function scratch(): string {
  if (folder === null) {
    const made = mkdtempSync(join(tmpdir(), 'gaugemark-fuzz-'));
    process.once('exit', () => rmSync(made, { recursive: true, force: true }));
    folder = made;
  }
  return folder;
}

/** The archive of the fixtures: as it is, in the present form, and that in pages as small as there are. */
let made: readonly Buffer[] | null = null;
function archives(): readonly Buffer[] {
  if (made !== null) return made;
  const path = join(scratch(), 'seed.gaugemark');
  const firstForm = readFileSync(FIRST_FORM);
  writeFileSync(path, firstForm);
  new Archive(path, OPTIONS).close();
  const presentForm = readFileSync(path);
  const connection = new Database(path);
  connection.pragma('journal_mode = DELETE');
  connection.pragma(`page_size = ${SMALL_PAGE_BYTES}`);
  connection.exec('VACUUM');
  connection.close();
  made = [readFileSync(path), presentForm, firstForm];
  return made;
}
/** The small one most often: less of it is empty, and it takes a tenth of the time. */
const mostlySmall = (): readonly Buffer[] => {
  const [small = Buffer.alloc(0), presentForm = small] = archives();
  return [...Array.from({ length: 40 }, () => small), presentForm];
};

/** Only what the program tells as a fault of the file may be thrown. */
function asked<T>(work: () => T): T | null {
  try {
    return work();
  } catch (error) {
    if (error instanceof ArchiveRefusal || archiveFaultOf(error, 'fuzz') !== null) return null;
    throw error;
  }
}

const firstLook: FuzzTarget = {
  name: 'archive, looked at before it is opened',
  get seeds() {
    // The first pages are all that is looked at.
    return archives().map((bytes) => bytes.subarray(0, 2 * SMALL_PAGE_BYTES));
  },
  changes: changedArchive,
  longRun: MILLION,
  shortRun: 500,
  run: (bytes) => {
    const path = join(scratch(), 'looked-at.gaugemark');
    writeFileSync(path, bytes);
    asked(() => hasNoLog(path, checkHead(path)));
  },
};

/** What a person asks for first; each may meet what another does not. */
const ASKED: readonly ((connection: Connection, pullId: number) => unknown)[] = [
  (connection) => readOpenRecord(connection, 1_000),
  (connection) => listSpecimens(connection, { limit: 10 }),
  (connection) => listPulls(connection, { limit: 10 }),
  getPull,
  curveOf,
];
/** The one that the archive of the fixtures has. */
const PULL_ID = 1;

/** One case in so many of an earlier form, or of none, is brought to the present one: that takes as long as twenty others. */
const BROUGHT_UP_ONE_IN = 32;
/** Drawn from the case itself, so that a case says all. Mixed to the end: its low bits choose. */
function numberOf(bytes: Buffer): number {
  let sum = bytes.length + 1;
  for (let i = 0; i < bytes.length; i += 1 + (bytes.length >>> 12))
    sum = (Math.imul(sum, 31) + (bytes[i] ?? 0)) >>> 0;
  sum = Math.imul(sum ^ (sum >>> 16), 0x85eb_ca6b);
  sum = Math.imul(sum ^ (sum >>> 13), 0xc2b2_ae35);
  return (sum ^ (sum >>> 16)) >>> 0;
}
const isOneIn = (n: number, bytes: Buffer): boolean => Math.floor(numberOf(bytes) / ASKED.length) % n === 0;

const openedInMemory: FuzzTarget = {
  name: 'archive, opened from its bytes',
  get seeds() {
    return mostlySmall();
  },
  changes: changedArchive,
  longRun: MILLION,
  shortRun: 100,
  run: (bytes) => {
    const copy = Buffer.from(bytes);
    // In memory there is no log.
    if (copy.length > 20) copy.fill(1, 18, 20);
    asked(() => {
      const connection = new Database(copy);
      try {
        connection.pragma('foreign_keys = ON');
        connection.pragma('trusted_schema = OFF');
        refuseNewer('fuzz', pragmaNumber(connection, 'user_version'));
        quickCheck(connection, 'fuzz');
        if (pragmaNumber(connection, 'user_version') < SCHEMA_VERSION && !isOneIn(BROUGHT_UP_ONE_IN, bytes))
          return;
        migrate(connection, 'fuzz', { ...OPTIONS, backup: false });
        requireFull(connection, 'fuzz');
        requireIndex(connection);
        goOnByItself(connection, { ...OPTIONS, wallMs: OPTIONS.wallMs() });
        saysOpen(connection);
        ASKED[numberOf(bytes) % ASKED.length]?.(connection, PULL_ID);
      } finally {
        connection.close();
      }
    });
  },
};

/** Where one value of one row stands. */
const cellOf = z.object({ table: z.string(), row: z.number(), column: z.string() });
type Cell = z.infer<typeof cellOf>;
interface OpenRows {
  readonly connection: Connection;
  readonly cells: readonly Cell[];
}

let rows: OpenRows | null = null;
/** The database with everything taken away that would refuse a wrong value: types, checks, references, triggers. */
function openRows(): OpenRows {
  if (rows !== null) return rows;
  const bytes = Buffer.from(archives()[0] ?? Buffer.alloc(0));
  const connection = new Database(bytes);
  connection.unsafeMode();
  connection.pragma('writable_schema = ON');
  connection.exec("DELETE FROM sqlite_schema WHERE type = 'trigger'");
  connection.exec(
    "UPDATE sqlite_schema SET sql = replace(replace(sql, ' STRICT', ''), ' NOT NULL,', ',') WHERE type = 'table'",
  );
  connection.pragma('writable_schema = RESET');
  const loose = new Database(connection.serialize());
  connection.close();
  loose.pragma('foreign_keys = OFF');
  loose.pragma('ignore_check_constraints = ON');
  const names = z
    .array(z.string())
    .parse(
      loose
        .prepare(
          "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND wr = 0 AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'search_text%'",
        )
        .pluck()
        .all(),
    );
  const cells = names.flatMap((table) =>
    z
      .array(cellOf)
      .parse(
        loose
          .prepare(
            `SELECT '${table}' AS "table", r.rowid AS row, c.name AS "column" FROM ${table} AS r, pragma_table_info('${table}') AS c WHERE c.pk = 0`,
          )
          .all(),
      ),
  );
  rows = { connection: loose, cells };
  return rows;
}

const textOf = z.union([z.string(), z.number(), z.instanceof(Uint8Array), z.null()]);

/** Which value, what becomes of it, and its new bytes stand in the case itself. */
function changeRow({ connection, cells }: OpenRows, bytes: Buffer): void {
  const cell = cells[(bytes.length < 2 ? 0 : bytes.readUInt16LE(0)) % cells.length];
  if (cell === undefined) return;
  const rest = bytes.subarray(4);
  const old = textOf.parse(
    connection.prepare(`SELECT "${cell.column}" FROM ${cell.table} WHERE rowid = ?`).pluck().get(cell.row) ??
      null,
  );
  const number = rest.length < 6 ? rest.length : rest.readIntLE(0, 6);
  const values = [
    null,
    number,
    number / 3,
    rest.toString('utf8'),
    rest,
    String(number),
    // A part of what stood there, put in or taken out.
    typeof old === 'string' ? spliced(Buffer.from(old), bytes).toString('utf8') : rest,
    old instanceof Uint8Array ? spliced(Buffer.from(old), bytes) : number,
  ];
  connection
    .prepare(`UPDATE OR IGNORE ${cell.table} SET "${cell.column}" = ? WHERE rowid = ?`)
    .run(values[(bytes[2] ?? 0) % values.length], cell.row);
}

function spliced(old: Buffer, bytes: Buffer): Buffer {
  const at = Math.floor(((bytes[3] ?? 0) / 256) * old.length);
  return Buffer.concat([old.subarray(0, at), bytes.subarray(5), old.subarray(at + ((bytes[4] ?? 0) % 16))]);
}

/** One case in so many is checked as a whole: that takes as long as some fifty others. */
const CHECKED_ONE_IN = 1_024;

/** What may stand behind the five bytes that say which value is changed and how: texts that parsers trip over. */
const TAILS = [
  ...['', '{"kind":1e9}-7,5', '-0', '1e309', 'NaN', '[]', 'null', '"', '12.5 mm', '/3 in', '\0', '\ud800'],
  ...['__proto__', '{}', '[[[[', '9007199254740993', '-', ',', '\u202e', '  ', '1'.repeat(400)],
].map((tail) => Buffer.from(tail));

/** Which value, how it is changed and by what, all drawn evenly: hardly a case comes twice. */
const changedRow = (): fc.Arbitrary<Buffer> =>
  fc.noBias(
    fc
      .tuple(
        fc.uint8Array({ minLength: 5, maxLength: 5 }),
        fc.constantFrom(...TAILS),
        fc.uint8Array({ maxLength: 12 }),
      )
      .map((parts) => Buffer.concat(parts)),
  );

const rowsOfArchive: FuzzTarget = {
  name: 'rows of an archive',
  seeds: TAILS.map((tail, n) => Buffer.from([n, (n * 7) & 3, n * 31, n * 13, n * 5, ...tail])),
  changes: changedRow,
  longRun: MILLION,
  shortRun: 100,
  run: (bytes) => {
    const open = openRows();
    open.connection.exec('BEGIN');
    try {
      changeRow(open, bytes);
      asked(() => ASKED[numberOf(bytes) % ASKED.length]?.(open.connection, PULL_ID));
      if (isOneIn(CHECKED_ONE_IN, bytes)) checkArchive(open.connection, {});
    } finally {
      open.connection.exec('ROLLBACK');
    }
  },
};

const wholeArchives: FuzzTarget = {
  name: 'archive, opened and checked',
  get seeds() {
    return [...archives(), ...mostlySmall()];
  },
  changes: changedArchive,
  longRun: 3_000,
  shortRun: 20,
  run: (bytes) => {
    openAndCheck(bytes, null);
  },
};

/** As the program opens it, with what lies beside it. */
function openAndCheck(bytes: Buffer, log: Buffer | null): void {
  const path = join(scratch(), 'opened.gaugemark');
  for (const suffix of ['', '-wal', '-shm', '-journal']) rmSync(`${path}${suffix}`, { force: true });
  writeFileSync(path, bytes);
  if (log !== null) writeFileSync(`${path}-wal`, log);
  const purpose = numberOf(log ?? bytes) % 2 === 0 ? 'record' : 'read';
  try {
    const archive = new Archive(path, { ...OPTIONS, purpose });
    try {
      archive.listPulls({ limit: 10 });
      archive.check({});
      archive.curve(PULL_ID);
    } finally {
      archive.close();
    }
  } catch (error) {
    const kinds = [ArchiveFault, ArchiveRefusal, RowDamagedError, BlockDamagedError];
    if (!kinds.some((kind) => error instanceof kind)) throw error;
  }
}

interface WithLog {
  readonly bytes: Buffer;
  readonly log: Buffer;
}
let withLog: WithLog | null = null;
/** As a crash leaves it: specimens kept, and nothing of them taken into the file yet. */
function archiveWithLog(): WithLog {
  if (withLog !== null) return withLog;
  const path = join(scratch(), 'with-log.gaugemark');
  writeFileSync(path, archives()[1] ?? Buffer.alloc(0));
  const archive = new Archive(path, OPTIONS);
  for (const id of ['T-1', 'T-2', 'T-3'])
    archive.saveSpecimen({ specimen: { id, geometry: { kind: 'round', diameter: '12.5 mm' } } });
  withLog = { bytes: readFileSync(path), log: readFileSync(`${path}-wal`) };
  archive.close();
  return withLog;
}

const logOfArchive: FuzzTarget = {
  name: 'log beside an archive',
  get seeds() {
    return [archiveWithLog().log];
  },
  changes: changedLog,
  longRun: 3_000,
  shortRun: 20,
  run: (log) => {
    openAndCheck(archiveWithLog().bytes, log);
  },
};

export const ARCHIVE_TARGETS: readonly FuzzTarget[] = [
  firstLook,
  openedInMemory,
  rowsOfArchive,
  wholeArchives,
  logOfArchive,
];
