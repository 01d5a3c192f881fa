/** The second instrument of a pull, as it is read; and the raw record of each of the two, from the blocks. */
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
import { rawBlocks } from './read-blocks.ts';
import { type Connection, oneRow, sqlJson } from './sql.ts';

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
