/** Pulls made void: never deleted, never changed, only said to count no more, by whom and why. */
import { z } from 'zod';
import type { PullVoid } from '../contract/void-requests.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { appendAudit } from './audit.ts';
import { pullRowOf } from './pull-reader.ts';
import { type Connection, allRows, insert, sqlInteger } from './sql.ts';

export interface VoidPull {
  readonly pullId: number;
  readonly reason: string;
  readonly by?: string | undefined;
  readonly utcOffsetMinutes: number;
}

/** Throws an ArchiveRefusal where the pull is unknown, still open, or void already. */
export function voidPull(connection: Connection, given: VoidPull, wallMs: number): void {
  const { pullId, reason, by, utcOffsetMinutes } = given;
  connection
    .transaction(() => {
      const { ended, void_reason } = pullRowOf(connection, pullId);
      if (ended === 0)
        throw new ArchiveRefusal(
          'pull-open',
          `The record of pull ${pullId} is still open; close it, then make it void.`,
          'pullId',
        );
      if (void_reason !== null)
        throw new ArchiveRefusal(
          'already-void',
          `Pull ${pullId} is void already: ${void_reason.slice(0, 300)}. Nothing was changed.`,
          'pullId',
        );
      insert(connection, 'pull_void', {
        pull_id: pullId,
        reason,
        voided_by: by ?? null,
        wall_ms: wallMs,
        utc_offset_minutes: utcOffsetMinutes,
      });
      appendAudit(connection, wallMs, {
        what: 'pull made void',
        subject: 'pull_void',
        subjectId: pullId,
        detail: { reason, by: by ?? null, utcOffsetMinutes },
      });
    })
    .immediate();
}

const voidedPullRow = z
  .object({
    set_member_id: sqlInteger,
    pull_id: sqlInteger,
    reason: z.string(),
    voided_by: z.string().nullable(),
    wall_ms: sqlInteger,
    utc_offset_minutes: sqlInteger,
  })
  .transform((row) => ({
    setMemberId: row.set_member_id,
    pullId: row.pull_id,
    voided: {
      reason: row.reason,
      by: row.voided_by,
      wallMs: row.wall_ms,
      utcOffsetMinutes: row.utc_offset_minutes,
    } satisfies PullVoid,
  }));

/**
 * `chain`: each member of the set `?` with every statement of its specimen, also those before the one that joined. For
 * WITH RECURSIVE.
 */
export const SPECIMENS_OF_MEMBERS = `earlier (set_member_id, specimen_id, supersedes) AS (
       SELECT m.set_member_id, s.specimen_id, s.supersedes
       FROM set_member m CROSS JOIN specimen s USING (specimen_id) WHERE m.set_id = ?
       UNION
       SELECT earlier.set_member_id, s.specimen_id, s.supersedes
       FROM earlier CROSS JOIN specimen s ON s.specimen_id = earlier.supersedes
     ), chain (set_member_id, specimen_id) AS (
       SELECT set_member_id, specimen_id FROM earlier
       UNION
       SELECT chain.set_member_id, later.specimen_id
       FROM chain CROSS JOIN specimen later ON later.supersedes = chain.specimen_id
     )`;

/** The void pulls of each member of a set (of any correction of its specimen), oldest first. */
export function voidPullsOfSet(
  connection: Connection,
  setId: number,
): { setMemberId: number; pullId: number; voided: PullVoid }[] {
  return allRows(
    connection,
    voidedPullRow,
    `WITH RECURSIVE ${SPECIMENS_OF_MEMBERS}
     SELECT chain.set_member_id, v.* FROM chain
     CROSS JOIN pull USING (specimen_id) CROSS JOIN pull_void v USING (pull_id) ORDER BY v.pull_id`,
    setId,
  );
}
