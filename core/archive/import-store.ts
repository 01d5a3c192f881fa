/** A pull that comes from a file: its bytes, its rows as readings and its end, in one transaction. */
import { createHash } from 'node:crypto';
import { basename } from 'node:path';
import { z } from 'zod';
import { importReadings, profileOfImport } from '../exchange/import/import-readings.ts';
import type { ImportPlan } from '../exchange/import/import-plan.ts';
import { readingsSaidBy } from '../exchange/import/readings-said.ts';
import type { ImportReport } from '../exchange/import/import-report.ts';
import { CHUNK_BYTES_MAX, NAME_LENGTH_MAX } from '../limits.ts';
import { TYPED_RULES } from '../pull/typed-pull.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import type { NewPull } from './batch.ts';
import type { RawChunk } from './codec/raw-block.ts';
import { packBatch } from './pack-batch.ts';
import { type Keeper, appendBatch, beginPull, closePull } from './pull-store.ts';
import { refuseAhead, stateDay } from './stated-day-store.ts';
import { type Connection, oneRow, sqlInteger } from './sql.ts';

/** Readings of one block before the record is sealed. */
const READINGS_AT_ONCE = 10_000;
/** Of the time of an import, what reading the rows takes; keeping them takes the rest. Measured, about. */
const READ_SHARE = 0.5;

export interface ImportPull extends Pick<
  NewPull,
  'specimenId' | 'operator' | 'startedWallMs' | 'startedUtcOffsetMinutes' | 'startedMonotonicUs' | 'boot'
> {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly plan: ImportPlan;
  /** The day on which it was made, as whoever imports it states it. */
  readonly pulledOn?: string | undefined;
  /** How much of it is done, from 0 to 1; what it throws ends the import, and nothing is kept. */
  readonly onShare?: ((share: number) => void) | undefined;
}

export interface ImportedPull {
  readonly pullId: number;
  readonly report: ImportReport;
  /** Hexadecimal, of the file's bytes. */
  readonly sha256: string;
}

/** Throws an ArchiveRefusal where the rows can't be read, or the same bytes are here already. Nothing is kept then. */
export function importPull(
  keeper: Keeper,
  { file, bytes, plan, pulledOn, onShare = () => undefined, ...pull }: ImportPull,
): ImportedPull {
  const { connection } = keeper;
  if (pulledOn !== undefined) refuseAhead(pulledOn, pull.startedWallMs);
  const sha256 = createHash('sha256').update(bytes).digest();
  const there = pullOfBytes(connection, sha256);
  if (there !== null)
    throw new ArchiveRefusal(
      'imported-already',
      `The bytes of ${basename(file)} are in this archive already, as pull ${String(there)}; nothing was imported.`,
      'file',
    );
  const read = importReadings(bytes, plan, (done) => {
    onShare((READ_SHARE * done) / bytes.length);
  });
  if (!read.ok)
    throw new ArchiveRefusal(read.fault.code, `${basename(file)}: ${read.fault.sentence}`, 'file');
  const readings = readingsSaidBy(bytes, plan);
  const name = basename(file).slice(0, NAME_LENGTH_MAX);
  return connection
    .transaction(() => {
      const pullId = beginPull(keeper, {
        ...pull,
        profile: profileOfImport(plan),
        source: { kind: 'imported', file: name, plan, ...(readings === null ? {} : { readings }) },
        sourceWords: `imported from ${name}`,
        rules: TYPED_RULES,
        plannedForceN: null,
        plannedExtensionMm: null,
        instruments: null,
      });
      const empty = { pullId, readings: [], marks: [], gaps: [], gapEndedUs: null, acts: [], zeros: [] };
      appendBatch(keeper, packBatch({ ...empty, chunks: chunksOf(bytes), firstSeq: 0 }), pull.startedWallMs);
      let firstSeq = 0;
      for (const readings of inBatches(read.readings(), READINGS_AT_ONCE)) {
        appendBatch(keeper, packBatch({ ...empty, chunks: [], readings, firstSeq }), pull.startedWallMs);
        firstSeq += readings.length;
        onShare(READ_SHARE + ((1 - READ_SHARE) * firstSeq) / read.curve.length);
      }
      closePull(
        keeper,
        { ...empty, chunks: [], firstSeq },
        {
          endedWallMs: pull.startedWallMs,
          durationUs: 0,
          peakForceN: largest(read.curve.forceN),
          misfitCount:
            read.report.misfits.count === 0 ? {} : { 'rows that did not fit': read.report.misfits.count },
        },
      );
      if (pulledOn !== undefined) {
        const by = pull.operator ?? undefined;
        stateDay(connection, { pullId, pulledOn, by }, pull.startedWallMs);
      }
      return { pullId, report: read.report, sha256: sha256.toString('hex') };
    })
    .immediate();
}

/** A pull whose raw bytes have this hash; null where there is none. */
function pullOfBytes(connection: Connection, sha256: Uint8Array): number | null {
  return (
    oneRow(
      connection,
      z.object({ pull_id: sqlInteger }),
      'SELECT pull_id FROM pull_end WHERE raw_sha256 = ? AND raw_byte_count > 0 LIMIT 1',
      sha256,
    )?.pull_id ?? null
  );
}

function chunksOf(bytes: Uint8Array): RawChunk[] {
  const chunks: RawChunk[] = [];
  for (let at = 0; at < bytes.length; at += CHUNK_BYTES_MAX)
    chunks.push({
      chunkSeq: chunks.length,
      opening: 0,
      elapsedUs: 0,
      bytes: bytes.subarray(at, at + CHUNK_BYTES_MAX),
    });
  return chunks;
}

function* inBatches<T>(items: Iterable<T>, size: number): Generator<T[]> {
  let held: T[] = [];
  for (const item of items) {
    held.push(item);
    if (held.length < size) continue;
    yield held;
    held = [];
  }
  if (held.length > 0) yield held;
}

function largest(column: Float64Array | undefined): number | null {
  let peak = -Infinity;
  for (const value of column ?? []) if (value > peak) peak = value;
  return Number.isFinite(peak) ? peak : null;
}
