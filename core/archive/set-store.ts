/**
 * Sets of specimens. What is said of a set is never changed: a correction is a new statement that names the one it
 * supersedes, and why. A specimen joins once; leaving is a void with a reason.
 */
import { z } from 'zod';
import type { RulePack } from '../acceptance/read-rule-pack.ts';
import type { KeptMember, KeptSet, SetLine } from '../contract/set-requests.ts';
import { frozenSet, setForm } from '../sets/set-form.ts';
import { readSet } from '../sets/set-faults.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { checkReason } from './correction-reason.ts';
import { appendAudit } from './audit.ts';
import { lastCertificateOf } from './certificate-store.ts';
import { type PageRequest, likePattern } from './specimen-reader.ts';
import { type Connection, allRows, insert, oneRow, sqlInteger, sqlJson } from './sql.ts';
import { SPECIMENS_OF_MEMBERS, voidPullsOfSet } from './void-store.ts';

export interface SaveSet {
  /** As a person filled it in, see core/sets/set-form.ts. */
  readonly form: unknown;
  /** The set that is corrected; absent for a new one. */
  readonly setId?: number | undefined;
  readonly reason?: string | undefined;
  readonly by?: string | undefined;
}

interface Keeping {
  readonly wallMs: number;
  readonly programVersion: string;
  readonly packs: readonly RulePack[];
}

/** Number of the set. Throws an ArchiveRefusal that names the field where the form is wrong or a correction lacks its reason. */
export function saveSet(connection: Connection, save: SaveSet, keeping: Keeping): number {
  const read = readSet(save.form, keeping.packs);
  if (!read.ok) {
    const field = read.faults[0]?.field ?? '';
    throw new ArchiveRefusal(
      'set-wrong',
      read.faults.map((fault) => fault.sentence).join(' '),
      field === '' ? 'form' : `form.${field}`,
    );
  }
  return connection
    .transaction(() => {
      const supersedes = save.setId === undefined ? null : newestStatement(connection, save.setId);
      if (supersedes !== null) checkReason(save.reason);
      const setId = save.setId ?? insert(connection, 'specimen_set', { begun_wall_ms: keeping.wallMs });
      const statementId = insert(connection, 'set_statement', {
        set_id: setId,
        name: read.set.form.name,
        set_json: JSON.stringify(read.set),
        saved_wall_ms: keeping.wallMs,
        saved_by: save.by ?? null,
        supersedes: supersedes?.set_statement_id ?? null,
        reason: supersedes === null ? null : (save.reason ?? null),
        program_version: keeping.programVersion,
      });
      appendAudit(connection, keeping.wallMs, {
        what: supersedes === null ? 'set kept' : 'set corrected',
        subject: 'specimen_set',
        subjectId: setId,
        rows: [
          { table: 'specimen_set', id: setId },
          { table: 'set_statement', id: statementId },
        ],
        detail: { form: read.set.form, by: save.by ?? null, reason: save.reason ?? null },
      });
      return setId;
    })
    .immediate();
}

const statementRow = z.object({
  set_statement_id: sqlInteger,
  set_id: sqlInteger,
  set_json: sqlJson(frozenSet),
  saved_wall_ms: sqlInteger,
  saved_by: z.string().nullable(),
  reason: z.string().nullable(),
});

function newestStatement(connection: Connection, setId: number): z.infer<typeof statementRow> {
  const row = oneRow(
    connection,
    statementRow,
    `SELECT set_statement_id, set_id, set_json, saved_wall_ms, saved_by, reason FROM set_statement
     WHERE set_id = ? ORDER BY set_statement_id DESC LIMIT 1`,
    setId,
  );
  if (row === null)
    throw new ArchiveRefusal('no-such-set', `There is no set ${setId} in this archive.`, 'setId');
  return row;
}

/** The set as it stands now, with its members in the order in which they joined. */
export function getSet(connection: Connection, setId: number): KeptSet {
  const { set_json: set, saved_wall_ms, saved_by, reason } = newestStatement(connection, setId);
  return {
    setId,
    set,
    savedWallMs: saved_wall_ms,
    by: saved_by,
    reason,
    members: membersOf(connection, setId),
    certificate: lastCertificateOf(connection, setId),
  };
}

const memberRow = z
  .object({
    set_member_id: sqlInteger,
    specimen_id: sqlInteger,
    newest_id: sqlInteger,
    name: z.string(),
    retest_of: sqlInteger.nullable(),
    retest_reason: z.string().nullable(),
    voided_by: z.string().nullable(),
    void_reason: z.string().nullable(),
    pull_id: sqlInteger.nullable(),
  })
  .transform((row): KeptMember => ({
    setMemberId: row.set_member_id,
    specimenId: row.newest_id,
    firstSpecimenId: row.specimen_id,
    specimenName: row.name,
    retestOf: row.retest_of,
    retestReason: row.retest_reason,
    voided:
      row.voided_by === null || row.void_reason === null
        ? null
        : { by: row.voided_by, reason: row.void_reason },
    pullId: row.pull_id,
    voidedPulls: [],
  }));

/** Each member with its specimen's newest correction, and the newest pull that counts of any of its corrections. */
function membersOf(connection: Connection, setId: number): KeptMember[] {
  const voided = voidPullsOfSet(connection, setId);
  return memberRows(connection, setId).map((member) => ({
    ...member,
    voidedPulls: voided
      .filter((one) => one.setMemberId === member.setMemberId)
      .map(({ pullId, voided: its }) => ({ pullId, voided: its })),
  }));
}

function memberRows(connection: Connection, setId: number): KeptMember[] {
  return allRows(
    connection,
    memberRow,
    `WITH RECURSIVE ${SPECIMENS_OF_MEMBERS}, newest AS (
       SELECT set_member_id, max(specimen_id) AS newest_id FROM chain GROUP BY set_member_id
     ), pulled AS (
       SELECT chain.set_member_id, max(pull.pull_id) AS pull_id
       FROM chain CROSS JOIN pull ON pull.specimen_id = chain.specimen_id
       WHERE pull.pull_id NOT IN (SELECT pull_id FROM pull_void)
       GROUP BY chain.set_member_id
     )
     SELECT m.set_member_id, m.specimen_id, newest.newest_id, s.name, m.retest_of, m.retest_reason,
       v.voided_by, v.reason AS void_reason, pulled.pull_id
     FROM set_member m
     JOIN newest USING (set_member_id)
     JOIN specimen s ON s.specimen_id = newest.newest_id
     LEFT JOIN pulled USING (set_member_id)
     LEFT JOIN set_member_void v USING (set_member_id)
     ORDER BY m.set_member_id`,
    setId,
  );
}

const lineRow = z
  .object({
    set_id: sqlInteger,
    name: z.string(),
    purpose: setForm.unwrap().shape.purpose,
    rule_pack_id: setForm.unwrap().shape.rulePackId,
    begun_wall_ms: sqlInteger,
    member_count: sqlInteger,
  })
  .transform((row): SetLine => ({
    setId: row.set_id,
    name: row.name,
    purpose: row.purpose,
    rulePackId: row.rule_pack_id,
    begunWallMs: row.begun_wall_ms,
    memberCount: row.member_count,
  }));

/** Newest first. Gone along by key, so that a page costs its own lines whatever the archive holds beside them. */
export function listSets(
  connection: Connection,
  { cursor, limit, search }: PageRequest,
): { items: SetLine[]; nextCursor: number | null } {
  const items = allRows(
    connection,
    lineRow,
    `SELECT s.set_id, t.name, t.set_json ->> '$.form.purpose' AS purpose,
       t.set_json ->> '$.form.rulePackId' AS rule_pack_id, s.begun_wall_ms,
       (SELECT count(*) FROM set_member m WHERE m.set_id = s.set_id) AS member_count
     FROM specimen_set s CROSS JOIN set_statement t ON t.set_id = s.set_id
     WHERE NOT EXISTS (SELECT 1 FROM set_statement later WHERE later.supersedes = t.set_statement_id)
       AND s.set_id < ? AND t.name LIKE ? ESCAPE '\\'
     ORDER BY s.set_id DESC LIMIT ?`,
    cursor ?? Number.MAX_SAFE_INTEGER,
    likePattern(search),
    limit,
  );
  return { items, nextCursor: items.length < limit ? null : (items.at(-1)?.setId ?? null) };
}
