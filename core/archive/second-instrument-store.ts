/** The second instrument of a pull: what it is, and at the end the raw record of each of the two and how they were joined. */
import type { NewSecond, PullEnd } from './batch.ts';
import { keepProfile } from './profile-store.ts';
import type { RowName } from './row-hash.ts';
import { rawRecords, secondOf } from './second-instrument-reader.ts';
import { type Connection, insert } from './sql.ts';

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
