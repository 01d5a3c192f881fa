/** Reading a pull back: everything about it, checked row by row. */
import { z } from 'zod';
import { channelInfoOf } from '../pull/channel-value.ts';
import { effectiveMarks } from '../pull/effective-marks.ts';
import { type ReadoutChannel, readoutProfile } from '../contract/readout-profile.ts';
import {
  type Act,
  type Gap,
  type KeptFractureNote,
  type Mark,
  act,
  fractureNote,
  gap,
  mark,
} from '../contract/record.ts';
import type { KeptPull, PullLine } from '../contract/pull-requests.ts';
import { utcOffsetMinutes } from '../contract/message.ts';
import { breakRule, heldOpenS, tailS, triggerRule } from '../contract/rules.ts';
import { pullSource } from '../contract/source.ts';
import type { PullVoid } from '../contract/void-requests.ts';
import { zeroFromText, zeroNumber } from '../pull/channel-value.ts';
import { joinedChannels } from '../pull/joined-channels.ts';
import { pullInstruments } from '../instruments/pull-instruments.ts';
import { originOfPull } from '../pull/readings-origin.ts';
import { statedDay } from '../pull/stated-day.ts';
import { typedValues } from '../pull/typed-values.ts';
import type { Exact } from '../quantity/exact.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { type PageRequest, getSpecimen, likePattern } from './specimen-reader.ts';
import { STATED_OF_PULL, statedDaysOf } from './stated-day-reader.ts';
import { secondOf } from './second-instrument-reader.ts';
import { type Connection, RowDamagedError, allRows, countOf, oneRow, sqlInteger, sqlJson } from './sql.ts';

const rules = z.strictObject({
  trigger: triggerRule,
  breakRule,
  tailS,
  heldOpenS: heldOpenS.default(null),
});

const pullRow = z.object({
  pull_id: sqlInteger,
  specimen_id: sqlInteger,
  specimen_name: z.string(),
  profile_json: sqlJson(readoutProfile),
  source_json: sqlJson(pullSource),
  second_source_json: sqlJson(pullSource).nullable(),
  source_words: z.string(),
  rules_json: sqlJson(rules),
  operator: z.string().nullable(),
  program_version: z.string(),
  started_wall_ms: sqlInteger,
  started_utc_offset_minutes: utcOffsetMinutes.nullable(),
  started_monotonic_us: sqlInteger,
  boot: z.string(),
  planned_force_n: z.number().nullable(),
  planned_extension_mm: z.number().nullable(),
  duration_us: sqlInteger.nullable(),
  peak_force_n: z.number().nullable(),
  misfit_json: sqlJson(z.record(z.string(), sqlInteger)).nullable(),
  ended: sqlInteger,
  void_reason: z.string().nullable(),
  voided_by: z.string().nullable(),
  void_wall_ms: sqlInteger.nullable(),
  void_offset_minutes: utcOffsetMinutes.nullable(),
  typed_json: sqlJson(typedValues).nullable(),
  instruments_json: sqlJson(pullInstruments).nullable(),
  pulled_on: statedDay.nullable(),
});
export type PullRow = z.infer<typeof pullRow>;

const SELECT_PULL = `
SELECT p.*, s.name AS specimen_name, r.form_json AS profile_json,
  e.duration_us, e.peak_force_n, coalesce(e.misfit_json, '{}') AS misfit_json, e.pull_id IS NOT NULL AS ended,
  v.reason AS void_reason, v.voided_by, v.wall_ms AS void_wall_ms, v.utc_offset_minutes AS void_offset_minutes,
  t.typed_json, i.instruments_json, two.source_json AS second_source_json,
  ${STATED_OF_PULL('p')} AS pulled_on
FROM pull p
JOIN specimen s USING (specimen_id)
JOIN readout_profile r USING (profile_id)
LEFT JOIN pull_end e USING (pull_id)
LEFT JOIN pull_void v USING (pull_id)
LEFT JOIN typed_pull t USING (pull_id)
LEFT JOIN pull_instruments i USING (pull_id)
LEFT JOIN second_instrument two USING (pull_id)`;

/** The row of a pull with its profile and rules. Throws an ArchiveRefusal where there is none. */
export function pullRowOf(connection: Connection, pullId: number): PullRow {
  const row = oneRow(connection, pullRow, `${SELECT_PULL} WHERE pull_id = ?`, pullId);
  if (row === null)
    throw new ArchiveRefusal('no-such-pull', `There is no pull ${pullId} in this archive.`, 'pullId');
  return row;
}

const markRow = z
  .object({
    kind: mark.shape.kind,
    seq: sqlInteger,
    elapsed_us: sqlInteger,
    cause: mark.shape.cause,
    words: z.string(),
  })
  .transform(({ elapsed_us, ...row }): Mark => ({ ...row, elapsedUs: elapsed_us }));

/** Marks in the order in which they were made. */
export function marksOf(connection: Connection, pullId: number): Mark[] {
  return allRows(connection, markRow, 'SELECT * FROM mark WHERE pull_id = ? ORDER BY mark_id', pullId);
}

const gapRow = z
  .object({
    gap_id: sqlInteger,
    cause: gap.unwrap().shape.cause,
    before_seq: sqlInteger,
    from_us: sqlInteger,
    to_us: sqlInteger.nullable(),
    words: z.string(),
    instrument: z.literal(1).nullable(),
  })
  .transform((row): Gap => ({
    gapId: row.gap_id,
    cause: row.cause,
    beforeSeq: row.before_seq,
    fromElapsedUs: row.from_us,
    toElapsedUs: row.to_us,
    words: row.words,
    ...(row.instrument === null ? {} : { instrument: row.instrument }),
  }));

export function gapsOf(connection: Connection, pullId: number): Gap[] {
  return allRows(
    connection,
    gapRow,
    'SELECT gap.*, gap_end.to_us FROM gap LEFT JOIN gap_end USING (gap_id) WHERE pull_id = ? ORDER BY gap_id',
    pullId,
  );
}

const actRow = z
  .object({
    kind: act.unwrap().shape.kind,
    elapsed_us: sqlInteger,
    wall_ms: sqlInteger,
    done_by: z.string().nullable(),
    words: z.string(),
  })
  .transform((row): Act => ({
    kind: row.kind,
    elapsedUs: row.elapsed_us,
    wallMs: row.wall_ms,
    by: row.done_by,
    words: row.words,
  }));

export function actsOf(connection: Connection, pullId: number): Act[] {
  return allRows(connection, actRow, 'SELECT * FROM act WHERE pull_id = ? ORDER BY act_id', pullId);
}

const fractureRow = z
  .object({
    fracture_note_id: sqlInteger,
    note_json: sqlJson(fractureNote),
    noted_by: z.string().nullable(),
    wall_ms: sqlInteger,
    supersedes: sqlInteger.nullable(),
    reason: z.string().nullable(),
  })
  .transform((row): KeptFractureNote => ({
    fractureNoteId: row.fracture_note_id,
    note: row.note_json,
    by: row.noted_by,
    wallMs: row.wall_ms,
    supersedes: row.supersedes,
    reason: row.reason,
  }));

export function fractureNotesOf(connection: Connection, pullId: number): KeptFractureNote[] {
  return allRows(
    connection,
    fractureRow,
    'SELECT * FROM fracture_note WHERE pull_id = ? ORDER BY fracture_note_id',
    pullId,
  );
}

/** The newest zero of each channel, exact, by the channel's key. */
export function zerosOf(connection: Connection, pullId: number): Map<string, Exact> {
  const rows = allRows(
    connection,
    z.object({ channel_key: z.string(), value: z.string() }),
    'SELECT channel_key, value FROM zero WHERE pull_id = ? ORDER BY zero_id',
    pullId,
  );
  return new Map(rows.map(({ channel_key, value }) => [channel_key, zeroOf(value, pullId)]));
}

/** A zero of one channel, and the reading from which on it was known. */
export interface ZeroStep {
  readonly seq: number;
  readonly zero: Exact;
}

/** The zeros of one channel in the order in which they were taken. */
export function zeroStepsOf(connection: Connection, pullId: number, key: string): ZeroStep[] {
  return allRows(
    connection,
    z.object({ seq: sqlInteger, value: z.string() }),
    'SELECT seq, value FROM zero WHERE pull_id = ? AND channel_key = ? ORDER BY zero_id',
    pullId,
    key,
  ).map(({ seq, value }) => ({ seq, zero: zeroOf(value, pullId) }));
}

function zeroOf(value: string, pullId: number): Exact {
  const zero = zeroFromText(value);
  if (zero === null) throw new RowDamagedError(`the zero "${value}" of pull ${pullId} is no ratio`);
  return zero;
}

const extent = z.object({
  readings: sqlInteger.min(0),
  /** Bytes of their blocks as they are kept. */
  packed: sqlInteger,
  chunks: sqlInteger,
  bytes: sqlInteger,
});

/** A reading takes at least a byte of its block, and a block is packed by 1032 to 1 at most (zlib, technical details). */
const READINGS_PER_PACKED_BYTE_MAX = 1_032;

/** How much is kept of a pull. Throws a RowDamagedError where the rows tell of more than they can hold. */
export function extentOf(connection: Connection, pullId: number): z.infer<typeof extent> {
  const told = oneRow(
    connection,
    extent,
    `SELECT
         (SELECT coalesce(sum(reading_count), 0) FROM reading_block WHERE pull_id = ?) AS readings,
         (SELECT coalesce(sum(length(body)), 0) FROM reading_block WHERE pull_id = ?) AS packed,
         (SELECT coalesce(sum(chunk_count), 0) FROM raw_block WHERE pull_id = ?) AS chunks,
         (SELECT coalesce(sum(byte_count), 0) FROM raw_block WHERE pull_id = ?) AS bytes`,
    pullId,
    pullId,
    pullId,
    pullId,
  );
  if (told === null) return { readings: 0, chunks: 0, bytes: 0, packed: 0 };
  // Room is made for as many as are told, before the first of them is seen.
  if (told.readings > told.packed * READINGS_PER_PACKED_BYTE_MAX)
    throw new RowDamagedError(
      `the blocks of pull ${pullId} tell of ${told.readings} readings, which can't be in ${told.packed} bytes`,
    );
  return told;
}

/** Channels of a pull, those of a second instrument behind. */
export function channelsOf(
  connection: Connection,
  { pull_id, profile_json }: Pick<PullRow, 'pull_id' | 'profile_json'>,
): ReadoutChannel[] {
  return joinedChannels(profile_json, secondOf(connection, pull_id)?.profile ?? null);
}

/** One kept pull with everything but its readings. Throws an ArchiveRefusal where there is none. */
export function getPull(connection: Connection, pullId: number): KeptPull {
  const row = pullRowOf(connection, pullId);
  const marks = marksOf(connection, pullId);
  const gaps = gapsOf(connection, pullId);
  const { readings, chunks, bytes } = extentOf(connection, pullId);
  return {
    ...lineOf(row, { marks, gapCount: gaps.length, readings }),
    specimen: getSpecimen(connection, row.specimen_id),
    source: row.source_json,
    profile: row.profile_json,
    trigger: row.rules_json.trigger,
    breakRule: row.rules_json.breakRule,
    tailS: row.rules_json.tailS,
    heldOpenS: row.rules_json.heldOpenS,
    programVersion: row.program_version,
    startedUtcOffsetMinutes: row.started_utc_offset_minutes,
    startedMonotonicUs: row.started_monotonic_us,
    channels: channelsOf(connection, row).map(channelInfoOf),
    second: secondOf(connection, pullId),
    zeros: Object.fromEntries(
      [...zerosOf(connection, pullId)].map(([channelKey, zero]) => [channelKey, zeroNumber(zero)]),
    ),
    chunkCount: chunks,
    rawByteCount: bytes,
    misfitCount: row.misfit_json ?? {},
    durationUs: row.duration_us ?? 0,
    ...effectiveMarks(marks),
    marks,
    gaps,
    acts: actsOf(connection, pullId),
    instruments: row.instruments_json,
    fractureNotes: fractureNotesOf(connection, pullId),
    statedDays: statedDaysOf(connection, pullId),
  };
}

function lineOf(
  row: PullRow,
  { marks, gapCount, readings }: { marks: readonly Mark[]; gapCount: number; readings: number },
): PullLine {
  const { triggerSeq, breakSeq } = effectiveMarks(marks);
  const origin = originOfPull({
    source: row.source_json,
    second: row.second_source_json === null ? null : { source: row.second_source_json },
  });
  return {
    pullId: row.pull_id,
    specimenId: row.specimen_id,
    specimenName: row.specimen_name,
    startedWallMs: row.started_wall_ms,
    state:
      row.ended === 1 ? 'ended' : triggerSeq === null ? 'ready' : breakSeq === null ? 'pulling' : 'broken',
    readingCount: readings,
    peakForceN: row.peak_force_n,
    broke: breakSeq !== null,
    gapCount,
    operator: row.operator,
    voided: voidOf(row),
    typed: row.typed_json,
    pulledOn: row.pulled_on,
    ...(origin === null ? {} : { readings: origin }),
  };
}

function voidOf(row: PullRow): PullVoid | null {
  const { void_reason: reason, void_wall_ms: wallMs, void_offset_minutes: utcOffsetMinutes } = row;
  return reason === null || wallMs === null || utcOffsetMinutes === null
    ? null
    : { reason, by: row.voided_by, wallMs, utcOffsetMinutes };
}

/** Pulls that one page looks through for a text: a rare one would hold up the archive's thread while all are read. */
const LOOKED_THROUGH_MAX = 5_000;

/**
 * Newest first; the search looks at the specimen's name and the operator, of so many pulls a page: where few of them have
 * what is looked for, a page is short, or empty, and another one follows all the same.
 */
export function listPulls(
  connection: Connection,
  { cursor, limit, search }: PageRequest,
  lookedThroughMax = LOOKED_THROUGH_MAX,
): { items: PullLine[]; nextCursor: number | null } {
  const before = cursor ?? Number.MAX_SAFE_INTEGER;
  const lowest = countOf(
    connection,
    `SELECT coalesce((SELECT pull_id FROM pull WHERE pull_id < ? ORDER BY pull_id DESC LIMIT 1 OFFSET ?), 0) AS n`,
    before,
    lookedThroughMax - 1,
  );
  const items = allRows(
    connection,
    z.object({ pull_id: sqlInteger }),
    `SELECT p.pull_id FROM pull p CROSS JOIN specimen s USING (specimen_id)
     WHERE p.pull_id < ? AND p.pull_id >= ?
       AND (s.name LIKE ? ESCAPE '\\' OR coalesce(p.operator, '') LIKE ? ESCAPE '\\')
     ORDER BY p.pull_id DESC LIMIT ?`,
    before,
    lowest,
    likePattern(search),
    likePattern(search),
    limit,
  ).map(({ pull_id: pullId }) =>
    lineOf(pullRowOf(connection, pullId), {
      marks: marksOf(connection, pullId),
      gapCount: gapsOf(connection, pullId).length,
      readings: extentOf(connection, pullId).readings,
    }),
  );
  const last = items.length < limit ? lowest : (items.at(-1)?.pullId ?? 0);
  return { items, nextCursor: last === 0 ? null : last };
}
