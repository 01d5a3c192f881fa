/**
 * An archive as one file for each year: every pull with all that was said of it, its identity kept, into fresh archives
 * that are checked whole before they get their names. The original is only read and stays as it is.
 */
import { existsSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { z } from 'zod';
import { Archive } from './archive.ts';
import { ArchiveFault, ArchiveRefusal } from './archive-fault.ts';
import { appendAudit, checkChain } from './audit.ts';
import { syncFile, syncFolder } from './sync-folder.ts';
import type { CheckOptions, CheckStepListener } from './check-archive.ts';
import { mergeArchive } from './merge-archive.ts';
import { ownIdentities, recordedUnder } from './own-identities.ts';
import { renameWhenFree } from './rename-when-free.ts';
import { pullsOfCertificates, takeCertificates } from './split-certificates.ts';
import { takeRegisters } from './split-registers.ts';
import { type Connection, allRows, countOf, sqlBlob, sqlInteger } from './sql.ts';
import { discardPart } from './discard-part.ts';
import { COPY, discardLeftParts, partNameOf, stemOf } from './left-parts.ts';
import { STATED_OF_PULL } from './stated-day-reader.ts';
import { targetFaultOf } from './target-fault.ts';

export interface YearPart {
  readonly year: number;
  /** Numbers in the original. */
  readonly pullIds: readonly number[];
  /** Rows of those that rest on these pulls alone. */
  readonly certificateIds: readonly number[];
}

export interface SplitPlan {
  readonly parts: readonly YearPart[];
  /** A record that is still open is in no part. */
  readonly open: number;
  /** They rest on pulls of several years, or on one that is still open, and are in the original only. */
  readonly certificatesLeft: number;
}

const pullRow = z.object({
  pull_id: sqlInteger,
  year: sqlInteger,
  ended: sqlInteger,
  set_year: sqlInteger.nullable(),
});

/**
 * By the clock of the place at the start. What belongs together is not torn apart: a pull in a set goes with the year in
 * which the first pull of that set was begun. A specimen is the same through all its corrections: pull and set may name
 * different ones.
 */
export function planSplit(connection: Connection): SplitPlan {
  const rows = allRows(
    connection,
    pullRow,
    `WITH RECURSIVE statement (specimen_id, first_id) AS (
       SELECT specimen_id, specimen_id FROM specimen WHERE supersedes IS NULL
       UNION ALL
       SELECT later.specimen_id, statement.first_id
       FROM statement CROSS JOIN specimen later ON later.supersedes = statement.specimen_id
     ), own AS (
       SELECT pull_id, first_id,
         CAST(coalesce(
           substr(${STATED_OF_PULL('pull')}, 1, 4),
           strftime('%Y', started_wall_ms / 1000 + coalesce(started_utc_offset_minutes, 0) * 60, 'unixepoch')
         ) AS INTEGER) AS year
       FROM pull JOIN statement USING (specimen_id)
     ), set_of AS (
       SELECT first_id, min(m.set_id) AS set_id FROM set_member m JOIN statement USING (specimen_id) GROUP BY first_id
     ), begun AS (
       SELECT s.set_id, min(o.year) AS year FROM set_of s JOIN own o USING (first_id) GROUP BY s.set_id
     )
     SELECT o.pull_id, o.year, e.pull_id IS NOT NULL AS ended, b.year AS set_year
     FROM own o LEFT JOIN pull_end e USING (pull_id)
     LEFT JOIN set_of s USING (first_id) LEFT JOIN begun b USING (set_id) ORDER BY o.pull_id`,
  );
  const parts = new Map<number, number[]>();
  for (const row of rows) {
    if (row.ended === 0) continue;
    const year = row.set_year ?? row.year;
    const ofYear = parts.get(year);
    if (ofYear === undefined) parts.set(year, [row.pull_id]);
    else ofYear.push(row.pull_id);
  }
  const yearOf = new Map([...parts].flatMap(([year, pullIds]) => pullIds.map((pullId) => [pullId, year])));
  const certificates = [...pullsOfCertificates(connection)].map(([certificateId, pullIds]) => {
    const years = new Set(pullIds.map((pullId) => yearOf.get(pullId)));
    return { certificateId, year: years.size === 1 ? [...years][0] : undefined };
  });
  return {
    parts: [...parts]
      .toSorted(([a], [b]) => a - b)
      .map(([year, pullIds]) => ({
        year,
        pullIds,
        certificateIds: certificates.filter((one) => one.year === year).map((one) => one.certificateId),
      })),
    open: rows.filter(({ ended }) => ended === 0).length,
    certificatesLeft: certificates.filter(({ year }) => year === undefined).length,
  };
}

/** What a pull takes beside its record: rows of statements and its place in the index, about. */
const ROWS_OF_PULL_BYTES = 4_096;

const partBytes = z.object({ pull_id: sqlInteger, bytes: sqlInteger });

/**
 * About how large the file of each part will be, in bytes: its share of what is kept by the pull (raw bytes, readings,
 * photos) of the pages that the original uses. In the order of the parts.
 */
export function sizesOfParts(connection: Connection, { parts }: SplitPlan): number[] {
  const ofPull = new Map(
    allRows(
      connection,
      partBytes,
      `SELECT pull_id, sum(bytes) AS bytes FROM (
         SELECT pull_id, length(chunk_table) + length(body) AS bytes FROM raw_block
         UNION ALL SELECT pull_id, length(body) FROM reading_block
         UNION ALL SELECT pull_id, byte_count FROM photo
       ) GROUP BY pull_id`,
    ).map(({ pull_id, bytes }) => [pull_id, bytes]),
  );
  const own = parts.map(({ pullIds }) =>
    pullIds.reduce((sum, pullId) => sum + ROWS_OF_PULL_BYTES + (ofPull.get(pullId) ?? 0), 0),
  );
  const whole = own.reduce((sum, bytes) => sum + bytes, 0);
  const used = usedBytes(connection);
  return own.map((bytes) => Math.floor((used * bytes) / whole));
}

/** Of the pages that hold something. */
const usedBytes = (connection: Connection): number =>
  countOf(
    connection,
    `SELECT (p.page_count - f.freelist_count) * s.page_size AS n
     FROM pragma_page_count p, pragma_freelist_count f, pragma_page_size s`,
  );

export interface WrittenPart {
  readonly year: number;
  readonly path: string;
  readonly pulls: number;
  readonly certificates: number;
}

export interface SplitOptions {
  readonly programVersion: string;
  readonly wallMs: () => number;
  readonly checkOf: (part: Archive) => CheckOptions;
  readonly onPart?: (part: WrittenPart) => void;
  /** Files that an earlier split left when it was killed; they are taken away before anything is written. */
  readonly onLeft?: (paths: readonly string[]) => void;
  /** Pulls taken and pulls checked, of twice all of them. What it throws ends the work, and nothing is left of it. */
  readonly onStep?: (done: number, of: number) => void;
  /** The archive that the parts are named after, where `original` is a copy of it. */
  readonly namedAfter?: string;
}

export const partName = (archivePath: string, year: number): string =>
  `${stemOf(archivePath)}-${String(year)}.gaugemark`;

/** Of an archive that goes on being recorded into: what its parts are made from. */
export const splitCopy = (folder: string, archivePath: string): string =>
  join(folder, `${basename(archivePath)}${COPY}${String(process.pid)}`);

/** Throws an ArchiveRefusal where a part is there already, or the folder is none. */
export function refuseTakenPlaces(folder: string, archivePath: string, years: readonly number[]): void {
  const into = resolve(folder);
  if (statSync(into, { throwIfNoEntry: false })?.isDirectory() !== true)
    throw new ArchiveRefusal(
      'folder-missing',
      `There is no folder ${into}; make it first or give another one.`,
      'into',
    );
  for (const year of years) {
    const path = join(into, partName(archivePath, year));
    if (existsSync(path))
      throw new ArchiveRefusal(
        'file-exists',
        `The file ${path} exists already and is not written over; choose another folder.`,
        'into',
      );
  }
}

/** Throws an ArchiveRefusal where a part is there already, an ArchiveFault where one is not what it should be; none is left then. */
export function splitByYear(
  original: Archive,
  folder: string,
  {
    checkOf,
    onPart = () => undefined,
    onLeft = () => undefined,
    onStep = () => undefined,
    namedAfter = original.path,
    ...keeping
  }: SplitOptions,
): WrittenPart[] {
  const { parts } = planSplit(original.connection);
  refuseTakenPlaces(
    folder,
    namedAfter,
    parts.map(({ year }) => year),
  );
  const left = discardLeftParts(resolve(folder), namedAfter);
  if (left.length > 0) onLeft(left);
  const written = parts.map(({ year, pullIds, certificateIds }) => {
    const path = join(resolve(folder), partName(namedAfter, year));
    return {
      year,
      path,
      pulls: pullIds.length,
      certificates: certificateIds.length,
      temporary: partNameOf(path),
    };
  });
  // Each pull is taken, and then checked.
  const of = 2 * parts.reduce((sum, { pullIds }) => sum + pullIds.length, 0);
  let begun = 0;
  const named: string[] = [];
  try {
    for (const [i, part] of written.entries()) {
      const before = begun;
      writePart(original, parts[i] ?? { year: part.year, pullIds: [], certificateIds: [] }, part.temporary, {
        checkOf,
        onStep: (done) => onStep(before + done, of),
        ...keeping,
      });
      begun += 2 * part.pulls;
      onPart(part);
    }
    onStep(of, of);
    for (const { temporary, path } of written) {
      renameWhenFree(temporary, path);
      named.push(path);
    }
    syncFolder(resolve(folder));
    return written.map(({ year, path, pulls, certificates }) => ({ year, path, pulls, certificates }));
  } catch (error) {
    // All of them or none: one that has its name already was made here and by nobody else.
    discardPart(
      ...named,
      ...written.flatMap(({ temporary }) => ['', '-wal', '-journal'].map((suffix) => temporary + suffix)),
    );
    // A part is opened like any archive, whose own sentences promise what is not done here.
    const fault = targetFaultOf(error, join(resolve(folder), basename(namedAfter)), 'export');
    if (fault instanceof ArchiveFault && fault.code === 'archive-disk-full')
      throw new ArchiveFault(
        fault.code,
        `The disk that holds ${resolve(folder)} is full, so nothing was split; free some space or choose another disk. The original is untouched.`,
      );
    throw fault;
  }
}

function writePart(
  original: Archive,
  { year, pullIds, certificateIds }: YearPart,
  temporary: string,
  {
    checkOf,
    onStep,
    ...keeping
  }: Pick<SplitOptions, 'programVersion' | 'wallMs' | 'checkOf'> & {
    readonly onStep: (done: number) => void;
  },
): void {
  for (const suffix of ['', '-wal', '-journal']) rmSync(temporary + suffix, { force: true });
  const part = new Archive(temporary, keeping);
  try {
    const { connection } = part;
    const wanted = new Set(pullIds);
    const into = { connection, wallMs: keeping.wallMs() };
    const from = { connection: original.connection };
    connection
      .transaction(() => {
        const rows = takeRegisters(original.connection, connection);
        appendAudit(connection, into.wallMs, {
          what: 'archive of one year split from another',
          subject: 'archive',
          subjectId: year,
          rows,
          detail: {
            from: original.identity(),
            year,
            pulls: pullIds.length,
            lastEntryThere: checkChain(original.connection).lastHash,
          },
        });
        const pulls = new Map<number, number>();
        for (const line of mergeArchive(into, from, true, (pullId) => wanted.has(pullId))) {
          if (line.pullIdHere !== null) pulls.set(line.pullIdThere, line.pullIdHere);
          if (line.fate !== 'taken')
            throw new ArchiveFault(
              'archive-damaged',
              `Pull ${String(line.pullIdThere)} could not be taken over (${line.words}), so nothing was split; the original is untouched.`,
            );
          onStep(pulls.size);
        }
        takeCertificates({
          original: original.connection,
          part: connection,
          wallMs: into.wallMs,
          certificateIds,
          pulls,
        });
      })
      .immediate();
    verifyPart(part, original, pullIds, {
      ...checkOf(part),
      onStep: (done, of) => onStep(pullIds.length * (1 + done / Math.max(1, of))),
    });
    part.checkpoint();
  } finally {
    part.close();
  }
  syncFile(temporary);
  syncFolder(dirname(temporary));
}

const endRow = z.object({
  archive_identity: z.string(),
  pull_id_there: sqlInteger,
  reading_count: sqlInteger,
  raw_sha256: sqlBlob,
  readings_sha256: sqlBlob,
});

/** Everything is checked as for any archive, and each pull has the hashes that it has in the original. */
function verifyPart(
  part: Archive,
  original: Archive,
  pullIds: readonly number[],
  options: CheckOptions & { readonly onStep: CheckStepListener },
): void {
  // Pulls that were taken in from different archives may have the same number there.
  const identityOf = (row: z.output<typeof endRow>): string =>
    `${row.archive_identity} ${String(row.pull_id_there)}`;
  const own = new Map(
    allRows(
      part.connection,
      endRow,
      'SELECT o.archive_identity, o.pull_id_there, e.reading_count, e.raw_sha256, e.readings_sha256 FROM pull_origin o JOIN pull_end e USING (pull_id)',
    ).map((row) => [identityOf(row), row]),
  );
  const identities = ownIdentities(original.connection);
  const there = allRows(
    original.connection,
    endRow.extend({ archive_identity: z.string().nullable() }),
    `SELECT o.archive_identity, coalesce(o.pull_id_there, e.pull_id) AS pull_id_there, e.reading_count, e.raw_sha256, e.readings_sha256
     FROM pull_end e LEFT JOIN pull_origin o USING (pull_id) WHERE e.pull_id IN (SELECT value FROM json_each(?))`,
    JSON.stringify(pullIds),
  ).map((row) => ({
    ...row,
    archive_identity: row.archive_identity ?? recordedUnder(identities, row.pull_id_there),
  }));
  const agrees = there.every((row) => {
    const its = own.get(identityOf(row));
    return (
      its?.reading_count === row.reading_count &&
      Buffer.compare(its.raw_sha256, row.raw_sha256) === 0 &&
      Buffer.compare(its.readings_sha256, row.readings_sha256) === 0
    );
  });
  const wrong = part.check(options).lines.find(({ ok }) => !ok);
  if (agrees && own.size === pullIds.length && wrong === undefined) return;
  throw new ArchiveFault(
    'archive-damaged',
    'A part does not agree with the archive, so nothing was split; check the archive with gaugemark archive check. The original is untouched.',
    wrong === undefined ? 'hashes or pulls are missing' : `${wrong.name}: ${wrong.words}`,
  );
}
