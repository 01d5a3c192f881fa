/** The check of an archive: file, references, audit chain, raw bytes, and readings against raw bytes. */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import type { CheckLine } from '../contract/archive-requests.ts';
import type { Reading } from '../contract/reading.ts';
import type { ReadoutProfile } from '../contract/readout-profile.ts';
import type { KeptSecond } from '../contract/second-readout.ts';
import type { PullSource } from '../contract/source.ts';
import { chainInSteps } from './audit.ts';
import { CheckLines } from './check-lines.ts';
import type { RawChunk } from './codec/raw-block.ts';
import { BlockDamagedError } from './codec/varint.ts';
import { type LastRows, checkStatements, lastRows } from './check-statements.ts';
import { checkResults, type Recompute } from './check-results.ts';
import { type Steps, atOnce } from './in-steps.ts';
import { checkSearch } from './search/check-search.ts';
import { damagedPhotos } from './photo-store.ts';
import { pullRowOf } from './pull-reader.ts';
import { rawBlocks, readingBlocks } from './read-blocks.ts';
import { hashReadings } from './seal-pull.ts';
import { rawRecords, secondOf } from './second-instrument-reader.ts';
import { type Connection, RowDamagedError, allRows, oneRow, sqlBlob, sqlInteger } from './sql.ts';

/** Parses the raw chunks of one pull again, in order; handed in, since the archive knows no line formats. */
export type Reparse = (
  profile: ReadoutProfile,
  chunks: Iterable<RawChunk>,
  source: PullSource,
  second: KeptSecond | null,
) => Iterable<Reading>;

export interface CheckOptions {
  readonly pullId?: number | undefined;
  readonly reparse?: Reparse | undefined;
  readonly recompute?: Recompute | undefined;
}

/** How many pulls it has come to. */
export interface CheckStep {
  readonly done: number;
  readonly of: number;
}

export interface Checked {
  readonly sound: boolean;
  readonly lines: CheckLine[];
}

/** The whole check in one go; `onStep` is told of each pull that it comes to, and ends it by what it throws. */
export function checkArchive(
  connection: Connection,
  { onStep = () => undefined, ...options }: CheckOptions & { readonly onStep?: CheckStepListener },
): Checked {
  const steps = checkInSteps(connection, options);
  let told = -1;
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
    const { done, of } = step.value;
    if (of === 0 || done === told) continue;
    told = done;
    onStep(done, of);
  }
}

export type CheckStepListener = (done: number, of: number) => void;

/**
 * The check in steps, between which other calls may have the connection. What is kept meanwhile is left for the next check:
 * statements and pulls are looked at up to the last ones of its start. One step is as long as the file has pages: the database
 * looks through them in one call, a second or two a gigabyte. Never throws on damage: damage is what it looks for. Throws an
 * ArchiveRefusal for a pull that there is not.
 */
export function* checkInSteps(
  connection: Connection,
  { pullId, reparse, recompute }: CheckOptions,
): Generator<CheckStep, Checked> {
  const told = new CheckLines();
  const say: Say = (name, ok, words) => told.add(name, ok, words);
  let until: LastRows = { audit: Number.MAX_SAFE_INTEGER, of: new Map() };
  let ids: number[] = [];
  const begun = guarded(say, 'pulls', function* () {
    yield* [];
    until = lastRows(connection);
    ids = pullId === undefined ? allPullIds(connection) : [pullRowOf(connection, pullId).pull_id];
  });
  atOnce(begun);
  const of = ids.length;
  let done = 0;
  /** A part of the check, each of its steps told as how many pulls it has come to. */
  function* part(name: string, look: () => Steps<void>): Generator<CheckStep, void> {
    yield { done, of };
    const steps = guarded(say, name, look);
    while (steps.next().done !== true) yield { done, of };
  }
  for (const [name, look] of wholeParts(connection, { pullId, until: () => until, say }))
    yield* part(name, look);
  for (const id of ids) {
    yield* part(`pull ${id}`, () => checkPull(connection, id, reparse, (...line) => told.addOfPull(...line)));
    done++;
  }
  if (recompute !== undefined)
    yield* part('results', function* () {
      for (const { name, ok, words } of checkResults(connection, { pullId, until }, recompute)) {
        told.addOfPull(name, ok, words);
        yield;
      }
    });
  return told.result();
}

type Say = (name: string, ok: boolean, words: string) => void;

interface WholeCheck {
  readonly pullId: number | undefined;
  readonly until: () => LastRows;
  readonly say: Say;
}

/** What is looked at once for the whole archive, in order. */
function wholeParts(
  connection: Connection,
  { pullId, until, say }: WholeCheck,
): readonly (readonly [name: string, look: () => Steps<void>])[] {
  return [
    [
      'file',
      function* () {
        const verdict = z.string().parse(connection.pragma('integrity_check(1)', { simple: true }));
        say('file', verdict === 'ok', verdict === 'ok' ? 'every page of the file is sound' : verdict);
        yield;
      },
    ],
    [
      'references',
      function* () {
        const broken = z.array(z.unknown()).parse(connection.pragma('foreign_key_check'));
        say(
          'references',
          broken.length === 0,
          broken.length === 0
            ? 'every row that is named is there'
            : `${broken.length} rows name one that is missing`,
        );
        yield;
      },
    ],
    [
      'audit chain',
      function* () {
        const { length, brokenAt, lastHash } = yield* chainInSteps(connection, until().audit);
        say(
          'audit chain',
          brokenAt === null,
          brokenAt === null
            ? `all ${length} entries follow from one another; the last one is ${lastHash}`
            : `broken at entry ${brokenAt} of ${length}`,
        );
      },
    ],
    [
      'statements',
      function* () {
        const { checked, found } = yield* checkStatements(connection, until());
        say(
          'statements',
          found.length === 0,
          found.length === 0 ? `${checked} rows are what the audit chain says of them` : found.join('; '),
        );
      },
    ],
    [
      'photos',
      function* () {
        const { checked, damaged } = yield* damagedPhotos(connection, pullId);
        if (checked > 0)
          say(
            'photos',
            damaged.length === 0,
            damaged.length === 0
              ? `${checked} ${checked === 1 ? 'photo agrees with its hash' : 'photos agree with their hashes'}`
              : `${damaged.length} of ${checked} don't agree with their hashes: photo ${damaged.join(', ')}`,
          );
      },
    ],
    [
      'search',
      function* () {
        const { checked, found } = yield* checkSearch(connection, pullId);
        say(
          'search',
          found.length === 0,
          found.length === 0
            ? checked === 1
              ? '1 pull is found by what is written of it'
              : `${checked} pulls are found by what is written of them`
            : `the search index is derived and nothing recorded is touched, but ${found.join('; ')}`,
        );
      },
    ],
  ];
}

function* guarded(say: Say, name: string, look: () => Steps<void>): Steps<void> {
  try {
    yield* look();
  } catch (error) {
    const damage =
      error instanceof BlockDamagedError ||
      error instanceof RowDamagedError ||
      (error instanceof Error && 'code' in error && String(error.code).startsWith('SQLITE_'));
    if (!damage) throw error;
    say(name, false, error.message);
  }
}

function allPullIds(connection: Connection): number[] {
  return allRows(
    connection,
    z.object({ pull_id: sqlInteger }),
    'SELECT pull_id FROM pull ORDER BY pull_id',
  ).map((row) => row.pull_id);
}

/** Read again in some twenty milliseconds. */
const READINGS_PER_STEP = 2_000;

const endRow = z.object({
  reading_count: sqlInteger,
  chunk_count: sqlInteger,
  raw_byte_count: sqlInteger,
  raw_sha256: sqlBlob,
  readings_sha256: sqlBlob,
});

/** In steps of one block, or of the readings of one. */
function* checkPull(
  connection: Connection,
  pullId: number,
  reparse: Reparse | undefined,
  say: Say,
): Steps<void> {
  const raw = createHash('sha256');
  let byteCount = 0;
  let damagedBlocks = 0;
  for (const { bytes, sha256 } of rawBlocks(connection, pullId)) {
    raw.update(bytes);
    byteCount += bytes.length;
    if (Buffer.compare(createHash('sha256').update(bytes).digest(), sha256) !== 0) damagedBlocks++;
    yield;
  }
  say(
    `pull ${pullId}, raw bytes`,
    damagedBlocks === 0,
    damagedBlocks === 0
      ? `${byteCount} bytes agree with the hashes of their blocks`
      : `${damagedBlocks} blocks don't agree with their hashes`,
  );
  const readings = createHash('sha256');
  let readingCount = 0;
  // Before form 2 of the blocks nothing was kept beyond a safe integer.
  let withExact = false;
  for (const block of readingBlocks(connection, pullId)) {
    hashReadings(readings, block.readings);
    withExact ||= block.readings.some(({ channels }) => channels.some(({ exact }) => exact !== undefined));
    readingCount += block.readings.length;
    yield;
  }
  const end = oneRow(connection, endRow, 'SELECT * FROM pull_end WHERE pull_id = ?', pullId);
  if (end !== null) {
    const same =
      end.raw_byte_count === byteCount &&
      end.reading_count === readingCount &&
      Buffer.compare(end.raw_sha256, raw.digest()) === 0 &&
      Buffer.compare(end.readings_sha256, readings.copy().digest()) === 0;
    say(
      `pull ${pullId}, as closed`,
      same,
      same
        ? `${readingCount} readings and their raw bytes are what they were when the record was closed`
        : 'readings or raw bytes are not what they were when the record was closed',
    );
  }
  const second = secondOf(connection, pullId);
  const closed = second?.closed ?? null;
  if (closed !== null) {
    const same = JSON.stringify(rawRecords(connection, pullId)) === JSON.stringify(closed.records);
    say(
      `pull ${pullId}, two instruments`,
      same,
      same
        ? 'the raw record of each instrument is what it was when the pull was closed'
        : 'the raw record of an instrument is not what it was when the pull was closed',
    );
  }
  if (reparse === undefined) return;
  const again = createHash('sha256');
  let againCount = 0;
  const { profile_json: profile, source_json: source } = pullRowOf(connection, pullId);
  for (const reading of reparse(profile, allChunks(connection, pullId), source, second)) {
    hashReadings(again, [reading], { withExact });
    if (++againCount % READINGS_PER_STEP === 0) yield;
  }
  const same = againCount === readingCount && Buffer.compare(again.digest(), readings.digest()) === 0;
  say(
    `pull ${pullId}, parsed again`,
    same,
    same
      ? `the raw bytes give the same ${readingCount} readings again`
      : `the raw bytes give ${againCount} readings, ${readingCount} are kept, and they differ`,
  );
}

function* allChunks(connection: Connection, pullId: number): Generator<RawChunk> {
  for (const block of rawBlocks(connection, pullId)) yield* block.chunks;
}
