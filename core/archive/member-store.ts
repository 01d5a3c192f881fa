/** Who is in a set: joining, leaving by a void, and what a person overruled. Rows are only ever added. */
import { z } from 'zod';
import type { Override } from '../acceptance/override.ts';
import { momentText } from '../exchange/export/moment-text.ts';
import { SET_MEMBERS_MAX } from '../sets/set-form.ts';
import { memberFaults } from '../sets/set-faults.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { appendAudit } from './audit.ts';
import { getSet } from './set-store.ts';
import { withSpecimenChain } from './specimen-chain.ts';
import { getSpecimen } from './specimen-reader.ts';
import { type Connection, allRows, insert, oneRow, sqlInteger } from './sql.ts';

export interface JoinSet {
  readonly setId: number;
  readonly specimenId: number;
  readonly retestOf?: number | undefined;
  readonly reason?: string | undefined;
  readonly by?: string | undefined;
}

/** Number of the member. Throws an ArchiveRefusal where it is in the set already or the retest makes no sense. */
export function joinSet(connection: Connection, join: JoinSet, wallMs: number): number {
  return connection
    .transaction(() => {
      const { members } = getSet(connection, join.setId);
      const { specimen } = getSpecimen(connection, join.specimenId);
      if (members.length >= SET_MEMBERS_MAX)
        throw new ArchiveRefusal(
          'set-full',
          `A set holds at most ${String(SET_MEMBERS_MAX)} specimens; begin another.`,
          'setId',
        );
      const original = members.find((one) => one.setMemberId === join.retestOf);
      if (join.retestOf !== undefined && (original === undefined || join.reason === undefined))
        throw new ArchiveRefusal(
          original === undefined ? 'no-such-member' : 'reason-missing',
          original === undefined
            ? `There is no member ${join.retestOf} in set ${join.setId}, so nothing can be a retest of it.`
            : 'A retest needs its reason; say in a few words why.',
          original === undefined ? 'retestOf' : 'reason',
        );
      const named = members.map((one) => ({
        specimenId: one.specimenName,
        ...(one.retestOf === null
          ? {}
          : { retest: { of: nameOf(members, one.retestOf), reason: one.retestReason ?? '' } }),
      }));
      const fault = memberFaults([
        ...named,
        {
          specimenId: specimen.id,
          ...(original === undefined
            ? {}
            : { retest: { of: original.specimenName, reason: join.reason ?? '' } }),
        },
      ])[0];
      if (fault !== undefined)
        throw new ArchiveRefusal(
          'member-wrong',
          // The field is told beside it, under the name that the request has for it.
          fault.sentence.slice(fault.field.length + 2),
          fault.field.endsWith('specimenId') ? 'specimenId' : 'retestOf',
        );
      const setMemberId = insert(connection, 'set_member', {
        set_id: join.setId,
        specimen_id: join.specimenId,
        retest_of: join.retestOf ?? null,
        retest_reason: join.retestOf === undefined ? null : (join.reason ?? null),
        joined_wall_ms: wallMs,
        joined_by: join.by ?? null,
      });
      appendAudit(connection, wallMs, {
        what: 'specimen put into a set',
        subject: 'set_member',
        subjectId: setMemberId,
        detail: { ...join },
      });
      return setMemberId;
    })
    .immediate();
}

const nameOf = (
  members: readonly { readonly setMemberId: number; readonly specimenName: string }[],
  id: number,
): string => members.find((one) => one.setMemberId === id)?.specimenName ?? String(id);

export interface VoidMember {
  readonly setMemberId: number;
  readonly by: string;
  readonly reason: string;
}

/** It stays visible and counts no more. Throws an ArchiveRefusal where it is void already. */
export function voidMember(
  connection: Connection,
  { setMemberId, by, reason }: VoidMember,
  wallMs: number,
): void {
  connection
    .transaction(() => {
      refuseUnknown(connection, setMemberId);
      const there = oneRow(
        connection,
        z.object({ voided_by: z.string() }),
        'SELECT voided_by FROM set_member_void WHERE set_member_id = ?',
        setMemberId,
      );
      if (there !== null)
        throw new ArchiveRefusal(
          'already-void',
          `Member ${setMemberId} was made void already, by ${there.voided_by}.`,
          'setMemberId',
        );
      insert(connection, 'set_member_void', {
        set_member_id: setMemberId,
        voided_by: by,
        reason,
        wall_ms: wallMs,
      });
      appendAudit(connection, wallMs, {
        what: 'member made void',
        subject: 'set_member',
        subjectId: setMemberId,
        rows: [{ table: 'set_member_void', id: setMemberId }],
        detail: { by, reason },
      });
    })
    .immediate();
}

export interface OverrideMember {
  readonly setMemberId: number;
  readonly to: Override['to'];
  readonly person: string;
  readonly reason: string;
  readonly utcOffsetMinutes: number;
}

export function overrideMember(connection: Connection, given: OverrideMember, wallMs: number): void {
  const { setMemberId, to, person, reason, utcOffsetMinutes } = given;
  connection
    .transaction(() => {
      refuseUnknown(connection, setMemberId);
      const id = insert(connection, 'verdict_override', {
        set_member_id: setMemberId,
        outcome: to,
        person,
        reason,
        wall_ms: wallMs,
        utc_offset_minutes: utcOffsetMinutes,
      });
      appendAudit(connection, wallMs, {
        what: 'verdict overruled',
        subject: 'verdict_override',
        subjectId: id,
        detail: { ...given },
      });
    })
    .immediate();
}

const overrideRow = z
  .object({
    outcome: z.enum(['accept', 'reject', 'undecided']),
    person: z.string(),
    reason: z.string(),
    wall_ms: sqlInteger,
    utc_offset_minutes: sqlInteger,
  })
  .transform((row): Override => ({
    to: row.outcome,
    person: row.person,
    reason: row.reason,
    at: momentText(row.wall_ms, row.utc_offset_minutes),
  }));

/** In the order in which they were given. */
export function overridesOf(connection: Connection, setMemberId: number): Override[] {
  return allRows(
    connection,
    overrideRow,
    'SELECT * FROM verdict_override WHERE set_member_id = ? ORDER BY verdict_override_id',
    setMemberId,
  );
}

function refuseUnknown(connection: Connection, setMemberId: number): void {
  const row = oneRow(
    connection,
    z.object({ set_member_id: sqlInteger }),
    'SELECT set_member_id FROM set_member WHERE set_member_id = ?',
    setMemberId,
  );
  if (row === null)
    throw new ArchiveRefusal(
      'no-such-member',
      `There is no member ${setMemberId} in any set of this archive.`,
      'setMemberId',
    );
}

export interface SpecimenOrPull {
  readonly specimenId?: number | undefined;
  readonly pullId?: number | undefined;
}

const placeRow = z
  .object({ set_id: sqlInteger, set_member_id: sqlInteger, name: z.string() })
  .transform((row) => ({ setId: row.set_id, setMemberId: row.set_member_id, setName: row.name }));

/** The sets in which a specimen is (in any of its corrections), or that of a pull; the newest place first. */
export function membershipsOf(
  connection: Connection,
  { specimenId, pullId }: SpecimenOrPull,
): { setId: number; setMemberId: number; setName: string }[] {
  return allRows(
    connection,
    placeRow,
    `${withSpecimenChain('SELECT ? UNION SELECT specimen_id FROM pull WHERE pull_id = ?')}
     SELECT m.set_id, m.set_member_id, t.name FROM chain CROSS JOIN set_member m USING (specimen_id)
     CROSS JOIN set_statement t ON t.set_id = m.set_id
     WHERE NOT EXISTS (SELECT 1 FROM set_statement newer WHERE newer.supersedes = t.set_statement_id)
     ORDER BY m.set_member_id DESC LIMIT 100`,
    specimenId ?? null,
    pullId ?? null,
  );
}

/** The pulls of a specimen (in any of its corrections) that are not void; the newest first. */
export function pullsThatCount(connection: Connection, specimenId: number): number[] {
  return allRows(
    connection,
    z.object({ pull_id: sqlInteger }).transform((row) => row.pull_id),
    `${withSpecimenChain('?')}
     SELECT pull_id FROM chain CROSS JOIN pull USING (specimen_id)
     WHERE pull_id NOT IN (SELECT pull_id FROM pull_void) ORDER BY pull_id DESC LIMIT 100`,
    specimenId,
  );
}
