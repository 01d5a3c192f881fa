/** Readout profiles: each form of a profile once, found again by its hash; the newest of a name is offered. */
import { createHash } from 'node:crypto';
import { z } from 'zod';
import { type ReadoutProfile, readoutProfile } from '../contract/readout-profile.ts';
import { appendAudit } from './audit.ts';
import { type Connection, allRows, insert, oneRow, sqlBlob, sqlInteger, sqlJson } from './sql.ts';

export interface KeepProfile {
  readonly wallMs: number;
  /** Saved by a person under its name, or kept because a pull uses it: two statements, even when alike. */
  readonly offered: boolean;
}

/** Keeps a profile and gives its number; where the newest of its name is the same form, that one. Call in a transaction. */
export function keepProfile(
  connection: Connection,
  profile: ReadoutProfile,
  { wallMs, offered }: KeepProfile,
): number {
  const form = JSON.stringify(profile);
  const sha256 = createHash('sha256').update(form, 'utf8').digest();
  const newest = oneRow(
    connection,
    z.object({ profile_id: sqlInteger, sha256: sqlBlob }),
    'SELECT profile_id, sha256 FROM readout_profile WHERE name = ? AND offered = ? ORDER BY profile_id DESC LIMIT 1',
    profile.name,
    offered ? 1 : 0,
  );
  if (newest !== null && Buffer.compare(newest.sha256, sha256) === 0) return newest.profile_id;
  const profileId = insert(connection, 'readout_profile', {
    name: profile.name,
    form_json: form,
    sha256,
    offered: offered ? 1 : 0,
    saved_wall_ms: wallMs,
  });
  appendAudit(connection, wallMs, {
    what: offered ? 'readout profile saved' : 'readout profile used',
    subject: 'readout_profile',
    subjectId: profileId,
    detail: { profile },
  });
  return profileId;
}

const profileRow = z.object({ form_json: sqlJson(readoutProfile), saved_wall_ms: sqlInteger });

/** The newest saved form of each name. */
export function offeredProfiles(
  connection: Connection,
): { readonly profile: ReadoutProfile; readonly savedWallMs: number }[] {
  return allRows(
    connection,
    profileRow,
    `SELECT form_json, saved_wall_ms FROM readout_profile
     WHERE profile_id IN (SELECT max(profile_id) FROM readout_profile WHERE offered = 1 GROUP BY name)
     ORDER BY name`,
  ).map((row) => ({ profile: row.form_json, savedWallMs: row.saved_wall_ms }));
}
