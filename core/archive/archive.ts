/** The archive: one open connection and everything that can be asked of it. */
import { statSync, statfsSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { z } from 'zod';
import type { ReplyOf } from '../contract/index.ts';
import type { KeptSpecimen } from '../contract/specimen-requests.ts';
import type { ReadoutProfile } from '../contract/readout-profile.ts';
import { archiveFaultOf } from './archive-fault.ts';
import type { Batch, NewPull, PullEnd } from './batch.ts';
import {
  type CheckOptions,
  type CheckStep,
  type CheckStepListener,
  type Checked,
  checkArchive,
  checkInSteps,
} from './check-archive.ts';
import { type RawChunk } from './codec/raw-block.ts';
import { type NoteFracture, noteFracture } from './fracture-store.ts';
import { type OpenOptions, isFull, openArchiveFile, pragmaNumber } from './open-archive.ts';
import { openArchiveForReading } from './open-for-reading.ts';
import { type OpenRecord, readOpenRecord } from './open-record.ts';
import { keepProfile, offeredProfiles } from './profile-store.ts';
import { type ColumnsRequest, type TimedCurve, curveOf, readColumns } from './pull-columns.ts';
import { outlineOf } from './pull-outline.ts';
import { halfCopySentence } from './half-copy.ts';
import { logBytesOf, tendLog } from './log-room.ts';
import { extentOf, getPull, listPulls } from './pull-reader.ts';
import { type PackedBatch, packBatch } from './pack-batch.ts';
import { type Keeper, appendBatch, beginPull, closePull, openPullId } from './pull-store.ts';
import { rawBlocks } from './read-blocks.ts';
import { type Connection, countOf } from './sql.ts';
import { type PageRequest, getSpecimen, listSpecimens } from './specimen-reader.ts';
import { type SaveSpecimen, saveSpecimen } from './specimen-store.ts';

/** The moment and the program that a statement is kept with. */
export interface SetKeeping {
  readonly wallMs: number;
  readonly programVersion: string;
}

export class Archive {
  readonly path: string;
  readonly connection: Connection;
  readonly #options: OpenOptions;
  /** It was copied without its log: what was kept last is missing. */
  readonly isHalfCopy: boolean;
  /** A restore had been killed over it, and it was put back at its place. */
  readonly isTakenBack: boolean;
  readonly #close: () => void;
  readonly #keeper: Keeper;

  /** Throws an ArchiveFault that says what is wrong and what to do. */
  constructor(path: string, options: OpenOptions) {
    this.path = resolve(path);
    this.#options = options;
    const opened =
      options.purpose === 'read'
        ? openArchiveForReading(this.path, options)
        : openArchiveFile(this.path, options);
    this.connection = opened.connection;
    this.isHalfCopy = opened.isHalfCopy;
    this.isTakenBack = opened.isTakenBack;
    this.#close = opened.close;
    this.#keeper = { connection: this.connection, programVersion: options.programVersion };
  }

  /** Identity of the archive, so that a spool is never taken into another one. */
  identity(): string {
    return z
      .string()
      .parse(this.connection.prepare("SELECT value FROM fact WHERE name = 'archive-identity'").pluck().get());
  }

  saveSpecimen(save: SaveSpecimen): number {
    return this.#guarded(() =>
      saveSpecimen(this.connection, save, {
        wallMs: this.#options.wallMs(),
        programVersion: this.#options.programVersion,
      }),
    );
  }

  getSpecimen(specimenId: number): ReturnType<typeof getSpecimen> {
    return this.#guarded(() => getSpecimen(this.connection, specimenId));
  }

  listSpecimens(page: PageRequest): ReturnType<typeof listSpecimens> {
    return this.#guarded(() => listSpecimens(this.connection, page));
  }

  saveProfile(profile: ReadoutProfile): number {
    return this.#guarded(() =>
      this.connection
        .transaction(() =>
          keepProfile(this.connection, profile, { wallMs: this.#options.wallMs(), offered: true }),
        )
        .immediate(),
    );
  }

  profiles(): ReturnType<typeof offeredProfiles> {
    return this.#guarded(() => offeredProfiles(this.connection));
  }

  beginPull(pull: NewPull): number {
    return this.#guarded(() => beginPull(this.#keeper, pull));
  }

  appendBatch(batch: Batch): void {
    this.appendPacked(packBatch(batch));
    this.tendLog();
  }

  /** The commit alone; whoever calls it calls `tendLog` when the commit is told. */
  appendPacked(batch: PackedBatch): void {
    // As `#guarded` does it, without a function made for it: twenty times a second, each time on a cold processor.
    try {
      appendBatch(this.#keeper, batch, this.#options.wallMs());
    } catch (error) {
      throw archiveFaultOf(error, this.path, 'record') ?? error;
    }
  }

  closePull(batch: Batch, end: PullEnd): void {
    this.#guarded(() => closePull(this.#keeper, batch, end), 'record');
  }

  openPullId(): number | null {
    return this.#guarded(() => openPullId(this.connection));
  }

  getPull(pullId: number): ReturnType<typeof getPull> {
    return this.#guarded(() => getPull(this.connection, pullId));
  }

  listPulls(page: PageRequest): ReturnType<typeof listPulls> {
    return this.#guarded(() => listPulls(this.connection, page));
  }

  readColumns(request: ColumnsRequest): ReturnType<typeof readColumns> {
    return this.#guarded(() => readColumns(this.connection, request));
  }

  outlineOf(pullId: number): ReturnType<typeof outlineOf> {
    return this.#guarded(() => outlineOf(this.connection, pullId));
  }

  /** Chunks of the range, and how many there are in all. */
  readRaw(pullId: number, fromChunk: number, count: number): { total: number; chunks: RawChunk[] } {
    return this.#guarded(() => {
      const total = countOf(
        this.connection,
        'SELECT coalesce(sum(chunk_count), 0) AS n FROM raw_block WHERE pull_id = ?',
        getPull(this.connection, pullId).pullId,
      );
      const chunks: RawChunk[] = [];
      for (const block of rawBlocks(this.connection, pullId, { from: fromChunk, to: fromChunk + count }))
        for (const chunk of block.chunks)
          if (chunk.chunkSeq >= fromChunk && chunk.chunkSeq < fromChunk + count) chunks.push(chunk);
      return { total, chunks };
    });
  }

  /** Every chunk of a pull in order, block by block. */
  *rawChunks(pullId: number): Generator<RawChunk> {
    for (const block of rawBlocks(this.connection, pullId)) yield* block.chunks;
  }

  /** The curve of a pull, and which clock its time is of. */
  curve(pullId: number): TimedCurve {
    return this.#guarded(() => curveOf(this.connection, pullId));
  }

  /** The specimen of a pull with its newest correction. */
  newestSpecimenOfPull(pullId: number): KeptSpecimen {
    return this.#guarded(() => {
      let kept = getPull(this.connection, pullId).specimen;
      while (kept.supersededBy !== null) kept = getSpecimen(this.connection, kept.supersededBy);
      return kept;
    });
  }

  /** The record that was open when the last recorder ended, with its newest chunks; null where there is none. */
  openRecord(replayBytes: number): OpenRecord | null {
    return this.#guarded(() => readOpenRecord(this.connection, replayBytes));
  }

  noteFracture(note: NoteFracture): number {
    return this.#guarded(() => noteFracture(this.connection, note, this.#options.wallMs()));
  }

  /** What is kept of sets, in files of its own: see set-store, member-store, certificate-store. */
  sets<T>(work: (connection: Connection, keeping: SetKeeping) => T): T {
    return this.#guarded(() =>
      work(this.connection, {
        wallMs: this.#options.wallMs(),
        programVersion: this.#options.programVersion,
      }),
    );
  }

  check(options: CheckOptions & { readonly onStep?: CheckStepListener }): Checked {
    return this.#withHalfCopy(checkArchive(this.connection, options));
  }

  /** Other calls may come between two steps. */
  *checkInSteps(options: CheckOptions): Generator<CheckStep, Checked> {
    return this.#withHalfCopy(yield* checkInSteps(this.connection, options));
  }

  #withHalfCopy(checked: Checked): Checked {
    if (!this.isHalfCopy) return checked;
    // What is there agrees with itself; what was kept last is not there.
    const line = { name: 'log', ok: false, words: halfCopySentence(this.path) };
    return { sound: false, lines: [line, ...checked.lines] };
  }

  info(): ReplyOf<'archive.info'> {
    return this.#guarded(() => {
      if (!isFull(this.connection)) throw new Error('the connection no longer syncs every commit');
      const openId = openPullId(this.connection);
      const count = (table: string): number => countOf(this.connection, `SELECT count(*) AS n FROM ${table}`);
      return {
        path: this.path,
        schemaVersion: pragmaNumber(this.connection, 'user_version'),
        sqliteVersion: z.string().parse(this.connection.prepare('SELECT sqlite_version()').pluck().get()),
        synchronous: 'FULL',
        fileBytes: statSync(this.path).size,
        logBytes: logBytesOf(this.path),
        freeBytes: this.freeBytes(),
        pullCount: count('pull'),
        specimenCount: count('specimen'),
        // Only an open pull has none that its end tells.
        readingCount:
          countOf(this.connection, 'SELECT coalesce(sum(reading_count), 0) AS n FROM pull_end') +
          (openId === null ? 0 : extentOf(this.connection, openId).readings),
      };
    });
  }

  /** Free space of the disk that holds the archive, null where the system doesn't tell. */
  freeBytes(): number | null {
    try {
      const { bavail, bsize } = statfsSync(dirname(this.path));
      return bavail * bsize;
    } catch {
      return null;
    }
  }

  /** Between two commits: see log-room.ts. Never throws; a disk that refuses is told by the next commit. */
  tendLog(): void {
    tendLog(this.connection);
  }

  /**
   * Takes the log into the main file. Between pulls only: it may take long on a slow disk. The log keeps its room on
   * the disk and is written over by the next pull.
   */
  checkpoint(): void {
    this.#guarded(() => this.connection.pragma('wal_checkpoint(RESTART)'));
  }

  close(): void {
    this.#close();
  }

  /** Errors of database and disk become faults with a sentence; bugs pass through. */
  #guarded<T>(work: () => T, written: 'record' | 'asked' = 'asked'): T {
    try {
      return work();
    } catch (error) {
      throw archiveFaultOf(error, this.path, written) ?? error;
    }
  }
}
