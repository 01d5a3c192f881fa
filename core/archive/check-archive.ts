/** The check of an archive: file, references, audit chain, raw bytes, and readings against raw bytes. */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import type { CheckLine } from '../contract/archive-requests.ts';
import type { Reading } from '../contract/reading.ts';
import type { ReadoutProfile } from '../contract/readout-profile.ts';
import type { KeptSecond } from '../contract/second-readout.ts';
import type { PullSource } from '../contract/source.ts';
import { checkChain } from './audit.ts';
import type { RawChunk } from './codec/raw-block.ts';
import { BlockDamagedError } from './codec/varint.ts';
import { checkStatements } from './check-statements.ts';
import { checkKeptResults, type Recompute } from './check-results.ts';
import { checkSearch } from './search/check-search.ts';
import { damagedPhotos } from './photo-store.ts';
import { pullRowOf } from './pull-reader.ts';
import { rawBlocks, readingBlocks } from './read-blocks.ts';
import { hashReadings } from './seal-pull.ts';
import { rawRecords, secondOf } from './second-instrument-store.ts';
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
  /** Before each pull and each kept result; what it throws ends the check. */
  readonly onStep?: ((done: number, of: number) => void) | undefined;
}

/** Never throws on damage: damage is what it looks for. Throws what `onStep` does. */
export function checkArchive(
  connection: Connection,
  { pullId, reparse, recompute, onStep = () => undefined }: CheckOptions,
): { sound: boolean; lines: CheckLine[] } {
  const lines: CheckLine[] = [];
  const say = (name: string, ok: boolean, words: string): void => {
    lines.push({ name, ok, words: words.slice(0, 2000) });
  };
  guarded(say, 'file', () => {
    const verdict = z.string().parse(connection.pragma('integrity_check(1)', { simple: true }));
    say('file', verdict === 'ok', verdict === 'ok' ? 'every page of the file is sound' : verdict);
  });
  guarded(say, 'references', () => {
    const broken = z.array(z.unknown()).parse(connection.pragma('foreign_key_check'));
    say(
      'references',
      broken.length === 0,
      broken.length === 0
        ? 'every row that is named is there'
        : `${broken.length} rows name one that is missing`,
    );
  });
  guarded(say, 'audit chain', () => {
    const { length, brokenAt, lastHash } = checkChain(connection);
    say(
      'audit chain',
      brokenAt === null,
      brokenAt === null
        ? `all ${length} entries follow from one another; the last one is ${lastHash}`
        : `broken at entry ${brokenAt} of ${length}`,
    );
  });
  guarded(say, 'statements', () => {
    const { checked, found } = checkStatements(connection);
    say(
      'statements',
      found.length === 0,
      found.length === 0 ? `${checked} rows are what the audit chain says of them` : found.join('; '),
    );
  });
  guarded(say, 'photos', () => {
    const { checked, damaged } = damagedPhotos(connection, pullId);
    if (checked > 0)
      say(
        'photos',
        damaged.length === 0,
        damaged.length === 0
          ? `${checked} ${checked === 1 ? 'photo agrees with its hash' : 'photos agree with their hashes'}`
          : `${damaged.length} of ${checked} don't agree with their hashes: photo ${damaged.join(', ')}`,
      );
  });
  guarded(say, 'search', () => {
    const { checked, found } = checkSearch(connection, pullId);
    say(
      'search',
      found.length === 0,
      found.length === 0
        ? `${checked} ${checked === 1 ? 'pull is' : 'pulls are'} found by what is written of ${checked === 1 ? 'it' : 'them'}`
        : `the search index is derived and nothing recorded is touched, but ${found.join('; ')}`,
    );
  });
  let done = 0;
  guarded(say, 'pulls', () => {
    const ids = pullId === undefined ? allPullIds(connection) : [pullRowOf(connection, pullId).pull_id];
    for (const id of ids) {
      onStep(done++, ids.length);
      guarded(say, `pull ${id}`, () => {
        checkPull(connection, id, reparse, say);
      });
    }
  });
  if (recompute !== undefined)
    guarded(say, 'results', () => {
      for (const { name, ok, words } of checkKeptResults(connection, pullId, recompute)) {
        // How many there are is known only when they have been read: the pulls are what counts.
        onStep(done, done);
        say(name, ok, words);
      }
    });
  return { sound: lines.every((line) => line.ok), lines };
}

type Say = (name: string, ok: boolean, words: string) => void;

function guarded(say: Say, name: string, look: () => void): void {
  try {
    look();
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

const endRow = z.object({
  reading_count: sqlInteger,
  chunk_count: sqlInteger,
  raw_byte_count: sqlInteger,
  raw_sha256: sqlBlob,
  readings_sha256: sqlBlob,
});

function checkPull(connection: Connection, pullId: number, reparse: Reparse | undefined, say: Say): void {
  const raw = createHash('sha256');
  let byteCount = 0;
  let damagedBlocks = 0;
  for (const { bytes, sha256 } of rawBlocks(connection, pullId)) {
    raw.update(bytes);
    byteCount += bytes.length;
    if (Buffer.compare(createHash('sha256').update(bytes).digest(), sha256) !== 0) damagedBlocks++;
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
    againCount++;
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
