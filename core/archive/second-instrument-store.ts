/** The second instrument of a pull: what it is, and at the end the raw record of each of the two and how they were joined. */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import {
  type InstrumentRecord,
  type KeptSecond,
  instrumentRecord,
  skew,
} from '../contract/second-readout.ts';
import { readoutProfile } from '../contract/readout-profile.ts';
import { source } from '../contract/source.ts';
import type { NewSecond, PullEnd } from './batch.ts';
import { keepProfile } from './profile-store.ts';
import { rawBlocks } from './read-blocks.ts';
import type { RowName } from './row-hash.ts';
import { type Connection, insert, oneRow, sqlJson } from './sql.ts';

export function writeSecond(
  connection: Connection,
  pullId: number,
  second: NewSecond,
  wallMs: number,
): RowName[] {
  insert(connection, 'second_instrument', {
    pull_id: pullId,
    profile_id: keepProfile(connection, second.profile, { wallMs, offered: false }),
    source_json: JSON.stringify(second.source),
    source_words: second.sourceWords,
    age_max_ms: second.ageMaxMs,
  });
  return [{ table: 'second_instrument', id: pullId }];
}

const NO_SKEW = { joined: 0, alone: 0, meanMs: 0, longestMs: 0 };

/** Only of a pull that has a second instrument. */
export function endTwoInstruments(connection: Connection, pullId: number, end: PullEnd): RowName[] {
  if (secondOf(connection, pullId) === null) return [];
  insert(connection, 'two_instruments_end', {
    pull_id: pullId,
    records_json: JSON.stringify(rawRecords(connection, pullId)),
    skew_json: JSON.stringify(end.skew ?? NO_SKEW),
  });
  return [{ table: 'two_instruments_end', id: pullId }];
}

const records = z.tuple([instrumentRecord, instrumentRecord]);

/** The raw record of each instrument of a pull, from its blocks. */
export function rawRecords(connection: Connection, pullId: number): z.infer<typeof records> {
  const its = [0, 1].map(() => ({ hash: createHash('sha256'), chunkCount: 0, rawByteCount: 0 }));
  for (const { chunks } of rawBlocks(connection, pullId))
    for (const { opening, bytes } of chunks) {
      const own = its[opening % 2];
      if (own === undefined) continue;
      own.hash.update(bytes);
      own.chunkCount++;
      own.rawByteCount += bytes.length;
    }
  const [first, second] = its.map(({ hash, ...counts }): InstrumentRecord => ({
    ...counts,
    rawSha256: hash.digest('hex'),
  }));
  return records.parse([first, second]);
}

const row = z.object({
  source_json: sqlJson(source),
  source_words: z.string(),
  profile_json: sqlJson(readoutProfile),
  age_max_ms: z.number(),
  records_json: sqlJson(records).nullable(),
  skew_json: sqlJson(skew).nullable(),
});

/** The second instrument of a pull; null where it has none. */
export function secondOf(connection: Connection, pullId: number): KeptSecond | null {
  const found = oneRow(
    connection,
    row,
    `SELECT i.source_json, i.source_words, i.age_max_ms, r.form_json AS profile_json, e.records_json, e.skew_json
     FROM second_instrument i JOIN readout_profile r USING (profile_id)
     LEFT JOIN two_instruments_end e USING (pull_id) WHERE i.pull_id = ?`,
    pullId,
  );
  if (found === null) return null;
  const { records_json: kept, skew_json: its } = found;
  return {
    source: found.source_json,
    sourceWords: found.source_words,
    profile: found.profile_json,
    ageMaxMs: found.age_max_ms,
    closed: kept === null || its === null ? null : { records: kept, skew: its },
  };
}
