/** Writing a pull: its beginning, batch after batch, its end. Each call is one transaction: all of it or nothing. */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { appendAudit } from './audit.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import type { Batch, NewGap, NewPull, PullEnd } from './batch.ts';
import type { PullInstruments } from '../instruments/pull-instruments.ts';
import type { RowName } from './row-hash.ts';
import { PACKED_PLAIN } from './codec/packing.ts';
import { type BlocksDue, blocksDue, rememberDue } from './blocks-due.ts';
import { noteLogged } from './log-room.ts';
import { type PackedBatch, packBatch, packedBytes } from './pack-batch.ts';
import { keepProfile } from './profile-store.ts';
import { sealPull } from './seal-pull.ts';
import { endTwoInstruments, writeSecond } from './second-instrument-store.ts';
import { getSpecimen } from './specimen-reader.ts';
import { type Connection, allRows, countOf, insert, oneRow, sqlInteger, statement } from './sql.ts';

export interface Keeper {
  readonly connection: Connection;
  readonly programVersion: string;
}

/** Begins a record and gives its number. Throws an ArchiveRefusal where the specimen is unknown or another record is open. */
export function beginPull({ connection, programVersion }: Keeper, pull: NewPull): number {
  return connection
    .transaction(() => {
      getSpecimen(connection, pull.specimenId);
      const open = openPullId(connection);
      if (open !== null)
        throw new ArchiveRefusal('pull-open', `Pull ${open} is still being recorded; close it first.`);
      const profileId = keepProfile(connection, pull.profile, { wallMs: pull.startedWallMs, offered: false });
      const pullId = insert(connection, 'pull', {
        specimen_id: pull.specimenId,
        profile_id: profileId,
        source_json: JSON.stringify(pull.source),
        source_words: pull.sourceWords,
        rules_json: JSON.stringify(pull.rules),
        operator: pull.operator,
        program_version: programVersion,
        started_wall_ms: pull.startedWallMs,
        started_utc_offset_minutes: pull.startedUtcOffsetMinutes,
        started_monotonic_us: pull.startedMonotonicUs,
        boot: pull.boot,
        planned_force_n: pull.plannedForceN,
        planned_extension_mm: pull.plannedExtensionMm,
      });
      const markId = insert(connection, 'mark', {
        pull_id: pullId,
        kind: 'record-begins',
        seq: 0,
        elapsed_us: 0,
        cause: 'program',
        words: pull.source.kind === 'typed' ? pull.sourceWords : 'recording begins',
      });
      const instrumentRows =
        pull.instruments === null ? [] : writeInstruments(connection, pullId, pull.instruments);
      appendAudit(connection, pull.startedWallMs, {
        what: 'pull begun',
        subject: 'pull',
        subjectId: pullId,
        rows: [
          { table: 'pull', id: pullId },
          { table: 'mark', id: markId },
          ...instrumentRows,
          ...(pull.second === undefined
            ? []
            : writeSecond(connection, pullId, pull.second, pull.startedWallMs)),
        ],
        detail: {
          ...pull,
          profile: undefined,
          profileId,
          programVersion,
          second: pull.second === undefined ? undefined : { ...pull.second, profile: undefined },
        },
      });
      return pullId;
    })
    .immediate();
}

function writeInstruments(connection: Connection, pullId: number, its: PullInstruments): RowName[] {
  insert(connection, 'pull_instruments', { pull_id: pullId, instruments_json: JSON.stringify(its) });
  return [
    { table: 'pull_instruments', id: pullId },
    ...its.used.map(({ instrumentId, calibrationId, state }): RowName => ({
      table: 'pull_instrument',
      id: insert(connection, 'pull_instrument', {
        pull_id: pullId,
        instrument_id: instrumentId,
        calibration_id: calibrationId,
        state,
      }),
    })),
  ];
}

/** The record that has not ended, or null. There is never more than one. */
export function openPullId(connection: Connection): number | null {
  // Counting takes no row in hand; only where one is open, and that is among the newest, pulls are looked at.
  const open = countOf(
    connection,
    'SELECT (SELECT count(*) FROM pull) - (SELECT count(*) FROM pull_end) AS n',
  );
  if (open === 0) return null;
  const id = oneRow(
    connection,
    z.object({ pull_id: sqlInteger }),
    `SELECT pull_id FROM pull
     WHERE NOT EXISTS (SELECT 1 FROM pull_end WHERE pull_end.pull_id = pull.pull_id)
     ORDER BY pull_id DESC LIMIT 1`,
  );
  return id?.pull_id ?? null;
}

type WriteBatch = (batch: PackedBatch, wallMs: number) => BlocksDue;
/** Made once a connection: between two commits everything cools down, and making one anew took as long as its rows. */
const writing = new WeakMap<Connection, Database.Transaction<WriteBatch>>();

function writingOf(connection: Connection): Database.Transaction<WriteBatch> {
  const made = writing.get(connection);
  if (made !== undefined) return made;
  const makes = connection.transaction<WriteBatch>((batch, wallMs) => writeBatch(connection, batch, wallMs));
  writing.set(connection, makes);
  return makes;
}

/** Keeps one batch. Readings and chunks must follow on what is kept already: a hole would be a bug, and throws. */
export function appendBatch({ connection }: Keeper, batch: PackedBatch, wallMs: number): void {
  const due = writingOf(connection).immediate(batch, wallMs);
  rememberDue(connection, batch.pullId, due);
  noteLogged(connection, packedBytes(batch));
}

/** Gives what is due after it. */
function writeBatch(connection: Connection, batch: PackedBatch, wallMs: number): BlocksDue {
  const { pullId } = batch;
  const due = blocksDue(connection, pullId);
  const after = {
    chunk: writeChunks(connection, batch, due.chunk),
    seq: writeReadings(connection, batch, due.seq),
  };
  for (const mark of batch.marks) {
    const markId = insert(connection, 'mark', {
      pull_id: pullId,
      kind: mark.kind,
      seq: mark.seq,
      elapsed_us: mark.elapsedUs,
      cause: mark.cause,
      words: mark.words,
    });
    appendAudit(connection, wallMs, {
      what: 'mark set',
      subject: 'mark',
      subjectId: markId,
      detail: { pullId, ...mark },
    });
  }
  if (batch.gapEndedUs !== null) endOpenGap(connection, pullId, batch.gapEndedUs, wallMs, FIRST);
  if (batch.secondGapEndedUs !== undefined)
    endOpenGap(connection, pullId, batch.secondGapEndedUs, wallMs, SECOND);
  for (const gap of batch.gaps) writeGap(connection, pullId, gap, wallMs);
  for (const act of batch.acts) {
    const actId = insert(connection, 'act', {
      pull_id: pullId,
      kind: act.kind,
      elapsed_us: act.elapsedUs,
      wall_ms: act.wallMs,
      done_by: act.by,
      words: act.words,
    });
    appendAudit(connection, wallMs, {
      what: 'act noted',
      subject: 'act',
      subjectId: actId,
      detail: { pullId, ...act },
    });
  }
  for (const zero of batch.zeros) {
    const zeroId = insert(connection, 'zero', {
      pull_id: pullId,
      channel_key: zero.key,
      value: zero.value,
      seq: zero.seq,
    });
    appendAudit(connection, wallMs, {
      what: 'zero taken',
      subject: 'zero',
      subjectId: zeroId,
      detail: { pullId, ...zero },
    });
  }
  return after;
}

// The two statements of every commit, their values by place: by name each takes as long again.
const ADD_RAW_BLOCK = `INSERT INTO raw_block
  (pull_id, first_chunk, chunk_count, byte_count, table_packing, chunk_table, packing, body, sha256)
  VALUES (?, ?, ?, ?, ${PACKED_PLAIN}, ?, ${PACKED_PLAIN}, ?, ?)`;
const ADD_READING_BLOCK = `INSERT INTO reading_block
  (pull_id, first_seq, reading_count, first_chunk, last_chunk, packing, body)
  VALUES (?, ?, ?, ?, ?, ${PACKED_PLAIN}, ?)`;

/** Gives the number of the chunk that is due next. */
function writeChunks(connection: Connection, { pullId, chunks }: PackedBatch, due: number): number {
  if (chunks === null) return due;
  const { firstChunk, count, table, body, sha256 } = chunks;
  if (firstChunk !== due) throw new RangeError(`chunk ${firstChunk} came where ${due} was due`);
  statement(connection, ADD_RAW_BLOCK).run(pullId, firstChunk, count, body.length, table, body, sha256);
  return due + count;
}

/** Gives the number of the reading that is due next. */
function writeReadings(
  connection: Connection,
  { pullId, firstSeq, readings }: PackedBatch,
  due: number,
): number {
  if (readings === null) return due;
  const { count, firstChunk, lastChunk, body } = readings;
  if (firstSeq !== due) throw new RangeError(`reading ${firstSeq} came where ${due} was due`);
  statement(connection, ADD_READING_BLOCK).run(pullId, firstSeq, count, firstChunk, lastChunk, body);
  return due + count;
}

function writeGap(connection: Connection, pullId: number, gap: NewGap, wallMs: number): void {
  const gapId = insert(connection, 'gap', {
    pull_id: pullId,
    cause: gap.cause,
    before_seq: gap.beforeSeq,
    from_us: gap.fromUs,
    words: gap.words,
    instrument: gap.instrument === 1 ? 1 : null,
  });
  if (gap.toUs !== null) insert(connection, 'gap_end', { gap_id: gapId, to_us: gap.toUs });
  appendAudit(connection, wallMs, {
    what: 'gap noted',
    subject: 'gap',
    subjectId: gapId,
    detail: { pullId, ...gap },
    rows: [
      { table: 'gap', id: gapId },
      ...(gap.toUs === null ? [] : [{ table: 'gap_end', id: gapId } as const]),
    ],
  });
}

const FIRST = 'AND instrument IS NULL';
const SECOND = 'AND instrument = 1';

/** Ends every gap of the pull that still lasts, or only those of one instrument. */
function endOpenGap(
  connection: Connection,
  pullId: number,
  toUs: number,
  wallMs: number,
  of: typeof FIRST | typeof SECOND | '' = '',
): void {
  const lasting = allRows(
    connection,
    z.object({ gap_id: sqlInteger, to_us: sqlInteger }),
    `SELECT gap_id, max(from_us, ?) AS to_us FROM gap
     WHERE pull_id = ? AND gap_id NOT IN (SELECT gap_id FROM gap_end) ${of}`,
    toUs,
    pullId,
  );
  for (const { gap_id, to_us } of lasting) {
    insert(connection, 'gap_end', { gap_id, to_us });
    appendAudit(connection, wallMs, {
      what: 'gap ended',
      subject: 'gap_end',
      subjectId: gap_id,
      detail: { pullId, toUs: to_us },
    });
  }
}

/** Keeps the last batch, reseals the blocks and ends the record, all in one transaction. */
export function closePull({ connection }: Keeper, batch: Batch, end: PullEnd): void {
  connection
    .transaction(() => {
      writeBatch(connection, packBatch(batch), end.endedWallMs);
      endOpenGap(connection, batch.pullId, end.durationUs, end.endedWallMs);
      const sealed = sealPull(connection, batch.pullId);
      insert(connection, 'pull_end', {
        pull_id: batch.pullId,
        ended_wall_ms: end.endedWallMs,
        duration_us: end.durationUs,
        reading_count: sealed.readingCount,
        chunk_count: sealed.chunkCount,
        raw_byte_count: sealed.rawByteCount,
        raw_sha256: sealed.rawSha256,
        readings_sha256: sealed.readingsSha256,
        peak_force_n: end.peakForceN,
        misfit_json: JSON.stringify(end.misfitCount),
      });
      appendAudit(connection, end.endedWallMs, {
        what: 'pull closed',
        subject: 'pull',
        subjectId: batch.pullId,
        rows: [{ table: 'pull_end', id: batch.pullId }, ...endTwoInstruments(connection, batch.pullId, end)],
        detail: {
          ...end,
          readingCount: sealed.readingCount,
          chunkCount: sealed.chunkCount,
          rawByteCount: sealed.rawByteCount,
          rawSha256: hex(sealed.rawSha256),
          readingsSha256: hex(sealed.readingsSha256),
        },
      });
    })
    .immediate();
}

const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');
