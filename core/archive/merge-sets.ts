/** The sets of a pull that comes from another archive: what was said of them, who is in them, what was overruled. */
import { z } from 'zod';
import { type Additions, NOTHING, allOf, historyAddition } from './merge-additions.ts';
import { type SpecimenNumbers, planSpecimens, specimenHere } from './merge-specimens.ts';
import { contentHash } from './row-hash.ts';
import { oneRow, sqlInteger } from './sql.ts';
import type { Row, TakenRows } from './taken-rows.ts';

/**
 * Certificates stay where they were issued: their numbers name that archive.
 *
 * @param touched gets the numbers here of the sets of which something is put in
 */
export function planSets(taken: TakenRows, specimens: SpecimenNumbers, touched: Set<number>): Additions {
  const members = specimens.there.flatMap((there) =>
    taken.rowsThere('SELECT * FROM set_member WHERE specimen_id = ? ORDER BY set_member_id', there),
  );
  const parts = members.map((member) => {
    const setIdThere = Number(member.set_id);
    const setId = setHere(taken, setIdThere);
    const put = (of: number): void => {
      touched.add(of);
      const specimenId = specimens.of(member.specimen_id);
      if (memberHere(taken, of, specimenId) === null) takeMember(taken, member, of, specimenId);
    };
    if (setId === null)
      return {
        take: [
          {
            name: 'sets',
            count: 1,
            put: () => put(setHere(taken, setIdThere) ?? takeSet(taken, setIdThere)),
          },
        ],
        conflicts: [],
      };
    const specimenId = specimens.find(member.specimen_id);
    const memberId = specimenId === null ? null : memberHere(taken, setId, specimenId);
    return allOf([
      planStatements(taken, setIdThere, setId, touched),
      memberId === null
        ? { take: [{ name: 'places in sets', count: 1, put: () => put(setId) }], conflicts: [] }
        : planMember(taken, Number(member.set_member_id), memberId, () => touched.add(setId)),
    ]);
  });
  return allOf(parts);
}

const STATEMENTS = 'SELECT * FROM set_statement WHERE set_id = ? ORDER BY set_statement_id';

function planStatements(taken: TakenRows, there: number, here: number, touched: Set<number>): Additions {
  const known = taken.rowsHere(STATEMENTS, here);
  return historyAddition('statements of its sets', known, taken.rowsThere(STATEMENTS, there), (rows) => {
    let supersedes = known.at(-1)?.set_statement_id ?? null;
    for (const own of rows)
      supersedes = taken.put('set_statement', own, { set_statement_id: null, set_id: here, supersedes });
    touched.add(here);
  });
}

const VOIDED = 'SELECT * FROM set_member_void WHERE set_member_id = ?';
const OVERRULED = 'SELECT * FROM verdict_override WHERE set_member_id = ? ORDER BY verdict_override_id';

/** What was said of a place in a set that is here. */
function planMember(taken: TakenRows, there: number, here: number, touch: () => void): Additions {
  const overruled = historyAddition(
    'verdicts overruled',
    taken.rowsHere(OVERRULED, here),
    taken.rowsThere(OVERRULED, there),
    (rows) => {
      for (const own of rows)
        taken.put('verdict_override', own, { verdict_override_id: null, set_member_id: here });
      touch();
    },
  );
  return allOf([
    onceSaid('voided places in sets', taken.rowsHere(VOIDED, here), taken.rowsThere(VOIDED, there), (own) => {
      taken.put('set_member_void', own, { set_member_id: here });
      touch();
    }),
    overruled,
  ]);
}

/** What can be said once only, and never taken back. */
export function onceSaid(
  name: string,
  [here]: readonly Row[],
  [there]: readonly Row[],
  put: (row: Row) => void,
): Additions {
  if (there === undefined) return NOTHING;
  if (here === undefined) return { take: [{ name, count: 1, put: () => put(there) }], conflicts: [] };
  return contentHash(here) === contentHash(there) ? NOTHING : { take: [], conflicts: [name] };
}

/** The same set of an earlier pull: begun at the same moment with the same words. */
export function setHere(taken: TakenRows, setIdThere: number): number | null {
  const [first] = taken.rowsThere(
    `SELECT b.begun_wall_ms, t.set_json FROM specimen_set b JOIN set_statement t USING (set_id)
     WHERE set_id = ? ORDER BY set_statement_id LIMIT 1`,
    setIdThere,
  );
  if (first === undefined) return null;
  return (
    oneRow(
      taken.here,
      z.object({ set_id: sqlInteger }),
      `SELECT b.set_id FROM specimen_set b JOIN set_statement t USING (set_id)
       WHERE b.begun_wall_ms = ? AND t.set_json = ? AND t.supersedes IS NULL LIMIT 1`,
      first.begun_wall_ms ?? null,
      first.set_json ?? null,
    )?.set_id ?? null
  );
}

/** With everybody who is in it: what a set lacks is told of specimens that are not pulled yet too. */
function takeSet(taken: TakenRows, setIdThere: number): number {
  let setId = 0;
  for (const own of taken.rowsThere('SELECT * FROM specimen_set WHERE set_id = ?', setIdThere))
    setId = taken.put('specimen_set', own, { set_id: null });
  const ids = new Map<number, number>();
  for (const own of taken.rowsThere(
    'SELECT * FROM set_statement WHERE set_id = ? ORDER BY set_statement_id',
    setIdThere,
  )) {
    const supersedes = own.supersedes === null ? null : (ids.get(Number(own.supersedes)) ?? null);
    ids.set(
      Number(own.set_statement_id),
      taken.put('set_statement', own, { set_statement_id: null, set_id: setId, supersedes }),
    );
  }
  for (const member of taken.rowsThere(
    'SELECT * FROM set_member WHERE set_id = ? ORDER BY set_member_id',
    setIdThere,
  ))
    takeWithSpecimen(taken, member, setId);
  return setId;
}

/** Its number here; null where its specimen was corrected otherwise in both. */
function takeWithSpecimen(taken: TakenRows, member: Row, setId: number): number | null {
  const specimens = planSpecimens(taken, Number(member.specimen_id), null);
  if (specimens.conflicts.length > 0) return null;
  for (const { put } of specimens.take) put();
  const specimenId = specimens.numbers.of(member.specimen_id);
  return memberHere(taken, setId, specimenId) ?? takeMember(taken, member, setId, specimenId);
}

const memberRow = z.object({ set_member_id: sqlInteger });

const memberHere = (taken: TakenRows, setId: number, specimenId: number): number | null =>
  oneRow(
    taken.here,
    memberRow,
    'SELECT set_member_id FROM set_member WHERE set_id = ? AND specimen_id = ?',
    setId,
    specimenId,
  )?.set_member_id ?? null;

/** The same place of a set in both; null where it is not here. */
export function memberHereOf(taken: TakenRows, there: number): number | null {
  const [member] = taken.rowsThere(
    'SELECT m.set_id, s.* FROM set_member m JOIN specimen s USING (specimen_id) WHERE m.set_member_id = ?',
    there,
  );
  if (member === undefined) return null;
  const setId = setHere(taken, Number(member.set_id));
  const specimenId = specimenHere(taken, member);
  return setId === null || specimenId === null ? null : memberHere(taken, setId, specimenId);
}

/** Its number here. The original of a retest comes along; where it can't, the retest is a member like any other. */
function takeMember(taken: TakenRows, member: Row, setId: number, specimenId: number): number {
  const [first] = taken.rowsThere(
    'SELECT * FROM set_member WHERE set_member_id = ?',
    member.retest_of ?? null,
  );
  const original = first === undefined ? null : takeWithSpecimen(taken, first, setId);
  const memberId = taken.put('set_member', member, {
    set_member_id: null,
    set_id: setId,
    specimen_id: specimenId,
    retest_of: original,
    retest_reason: original === null ? null : (member.retest_reason ?? null),
  });
  for (const own of taken.rowsThere(
    'SELECT * FROM set_member_void WHERE set_member_id = ?',
    member.set_member_id ?? null,
  ))
    taken.put('set_member_void', own, { set_member_id: memberId });
  for (const own of taken.rowsThere(
    'SELECT * FROM verdict_override WHERE set_member_id = ? ORDER BY verdict_override_id',
    member.set_member_id ?? null,
  ))
    taken.put('verdict_override', own, { verdict_override_id: null, set_member_id: memberId });
  return memberId;
}
