/**
 * Takes the pulls of another archive into this one, with all that was said of them. A pull keeps its identity: the
 * archive in which it was recorded and its number there. Of one that is here already, by identity or by the hash of its
 * raw bytes, only what was said there since is taken, where it goes on what is said here. What both say otherwise is a
 * conflict, which is told and never decided by the program.
 */
import { z } from 'zod';
import type { MergeLine } from '../contract/exchange-requests.ts';
import { readoutProfile } from '../contract/readout-profile.ts';
import { appendAudit } from './audit.ts';
import { takeFirstStated } from './keep-first-stated.ts';
import { type Additions, allOf, countsText } from './merge-additions.ts';
import { takeInstruments } from './merge-instruments.ts';
import { planSets } from './merge-sets.ts';
import { CORRECTED_DIMENSIONS, planSpecimens } from './merge-specimens.ts';
import { planStatements } from './merge-statements.ts';
import { type OwnIdentity, ownIdentities, recordedUnder } from './own-identities.ts';
import { keepProfile } from './profile-store.ts';
import { keepInStep } from './search/keep-entries.ts';
import { withSpecimenChain } from './specimen-chain.ts';
import { type Connection, allRows, countOf, oneRow, sqlBlob, sqlInteger, sqlJson } from './sql.ts';
import { TakenRows } from './taken-rows.ts';

export interface MergeFrom {
  readonly connection: Connection;
}

export interface MergeInto extends MergeFrom {
  readonly wallMs: number;
}

/** One of both, with the identities under which it recorded. */
type Known<A extends MergeFrom> = A & { readonly own: readonly OwnIdentity[] };

const pullThere = z.object({
  pull_id: sqlInteger,
  name: z.string(),
  started_wall_ms: sqlInteger,
  ended: sqlInteger,
  raw_sha256: sqlBlob.nullable(),
  readings_sha256: sqlBlob.nullable(),
  raw_byte_count: sqlInteger.nullable(),
  archive_identity: z.string().nullable(),
  pull_id_there: sqlInteger.nullable(),
});
type PullThere = z.output<typeof pullThere>;

/** How many pulls it has. */
export const pullsThere = (connection: Connection): number =>
  countOf(connection, 'SELECT count(*) AS n FROM pull');

/** One line for each pull there that is looked at, in their order. Without `write` nothing is changed. Each pull is one transaction. */
export function* mergeArchive(
  here: MergeInto,
  other: MergeFrom,
  write: boolean,
  which: (pullIdThere: number) => boolean = () => true,
): Generator<MergeLine> {
  const into = { ...here, own: ownIdentities(here.connection) };
  const from = { ...other, own: ownIdentities(other.connection) };
  const there = allRows(
    from.connection,
    pullThere,
    `SELECT p.pull_id, s.name, p.started_wall_ms, e.pull_id IS NOT NULL AS ended, e.raw_sha256, e.readings_sha256,
       e.raw_byte_count, o.archive_identity, o.pull_id_there
     FROM pull p JOIN specimen s USING (specimen_id) LEFT JOIN pull_end e USING (pull_id)
     LEFT JOIN pull_origin o USING (pull_id) ORDER BY p.pull_id`,
  );
  for (const pull of there) {
    if (!which(pull.pull_id)) continue;
    const line = { pullIdThere: pull.pull_id, specimenName: pull.name };
    const known = knownHere(into, from, pull);
    if (known === null) yield { ...line, ...newPull(into, from, pull, write) };
    else if ('conflict' in known)
      yield { ...line, fate: 'conflict', pullIdHere: null, words: known.conflict };
    else yield { ...line, ...knownPull(into, from, { ...known, there: pull.pull_id }, write) };
  }
}

type Fate = Pick<MergeLine, 'fate' | 'pullIdHere' | 'words'>;

const endHere = z.object({
  pull_id: sqlInteger,
  started_wall_ms: sqlInteger,
  raw_sha256: sqlBlob,
  readings_sha256: sqlBlob,
});

interface KnownPull {
  readonly here: number;
  /** By what it is known. */
  readonly by: string;
}

function knownHere(
  into: Known<MergeInto>,
  from: Known<MergeFrom>,
  pull: PullThere,
): KnownPull | { readonly conflict: string } | null {
  if (pull.ended === 0 || pull.raw_sha256 === null)
    return { conflict: 'its record is still open there; close it in that archive first' };
  const its = identityOf(from, pull);
  const same = sameIdentity(into, its);
  if (same !== null)
    return agrees(same, pull)
      ? { here: same.pull_id, by: 'the same pull of the same archive' }
      : {
          conflict: `pull ${String(same.pull_id)} here has the same identity and other readings or raw bytes; check both archives`,
        };
  if (pull.raw_byte_count === 0) return null;
  const byHash = allRows(
    into.connection,
    endHere.extend({ archive_identity: z.string().nullable() }),
    `SELECT p.pull_id, p.started_wall_ms, e.raw_sha256, e.readings_sha256, o.archive_identity
     FROM pull_end e JOIN pull p USING (pull_id) LEFT JOIN pull_origin o USING (pull_id)
     WHERE e.raw_sha256 = ? ORDER BY p.started_wall_ms = ? DESC`,
    pull.raw_sha256,
    pull.started_wall_ms,
    // Two pulls of one archive are two, however alike: a recording that was played twice, say.
  ).find((row) => (row.archive_identity ?? recordedUnder(into.own, row.pull_id)) !== its.archive);
  if (byHash === undefined) return null;
  return agrees(byHash, pull)
    ? { here: byHash.pull_id, by: 'the same raw bytes, begun at the same moment' }
    : {
        conflict: `pull ${String(byHash.pull_id)} here has the same raw bytes and another start or other readings; look at both and say which counts`,
      };
}

const specimenOf = (connection: Connection, pullId: number): number =>
  countOf(connection, 'SELECT specimen_id AS n FROM pull WHERE pull_id = ?', pullId);

/** What was said there since; what both say otherwise stays as it is here. */
function knownPull(
  into: MergeInto,
  from: Known<MergeFrom>,
  { here, there, by }: KnownPull & { readonly there: number },
  write: boolean,
): Fate {
  const taken = new TakenRows(from.connection, into.connection);
  const touched = new Set<number>();
  const specimens = planSpecimens(
    taken,
    specimenOf(from.connection, there),
    specimenOf(into.connection, here),
  );
  const agree = specimens.conflicts.length === 0;
  const { take, conflicts } = allOf([
    specimens,
    planStatements(taken, { there, here, numberHere: () => here }, agree ? specimens.numbers : null),
    ...(agree ? [planSets(taken, specimens.numbers, touched)] : []),
  ]);
  const fate = conflicts.length > 0 ? 'conflict' : take.length > 0 ? 'added-to' : 'here-already';
  const told = (how: string): Fate => ({
    fate,
    pullIdHere: here,
    words: [
      by,
      ...(take.length === 0 ? [] : [`${how}: ${countsText(take)}`]),
      ...(conflicts.length === 0
        ? []
        : [
            `said otherwise in both and left as it is here: ${conflicts.join(', ')}; look at both and say which counts`,
          ]),
    ].join('; '),
  });
  // Beside the record, and no addition to it: nothing is told of it.
  const takeStated = (): void =>
    takeFirstStated(from.connection, into.connection, { there, here }, (id) => specimens.numbers.find(id));
  if (write && take.length === 0) into.connection.transaction(takeStated)();
  if (!write || take.length === 0) return told('would be added');
  into.connection
    .transaction(() => {
      for (const { put } of take) put();
      takeStated();
      appendAudit(into.connection, into.wallMs, {
        what: 'statements of a pull taken from another archive',
        subject: 'pull',
        subjectId: here,
        rows: taken.named,
        detail: { archive: from.own[0]?.identity, pullIdThere: there, taken: countsText(take) },
      });
      keepOthersInStep(into.connection, here, touched);
    })
    .immediate();
  return told('added');
}

/** Other pulls of the same specimen and of the same sets. */
function keepOthersInStep(connection: Connection, pullId: number, sets: ReadonlySet<number>): void {
  const newest = countOf(
    connection,
    `${withSpecimenChain('SELECT specimen_id FROM pull WHERE pull_id = ?')} SELECT max(specimen_id) AS n FROM chain`,
    pullId,
  );
  keepInStep(connection, { subject: 'specimen', subjectId: newest });
  for (const setId of sets) keepInStep(connection, { subject: 'specimen_set', subjectId: setId });
}

/** Where it was recorded, also when it has been taken along before. */
const identityOf = (from: Known<MergeFrom>, pull: PullThere): { archive: string; pullId: number } =>
  pull.archive_identity !== null && pull.pull_id_there !== null
    ? { archive: pull.archive_identity, pullId: pull.pull_id_there }
    : { archive: recordedUnder(from.own, pull.pull_id), pullId: pull.pull_id };

function sameIdentity(
  into: Known<MergeInto>,
  { archive, pullId }: { readonly archive: string; readonly pullId: number },
): z.output<typeof endHere> | null {
  const SELECT = `SELECT p.pull_id, p.started_wall_ms, e.raw_sha256, e.readings_sha256
     FROM pull p JOIN pull_end e USING (pull_id)`;
  return archive === recordedUnder(into.own, pullId)
    ? oneRow(into.connection, endHere, `${SELECT} WHERE p.pull_id = ?`, pullId)
    : oneRow(
        into.connection,
        endHere,
        `${SELECT} JOIN pull_origin o USING (pull_id) WHERE o.archive_identity = ? AND o.pull_id_there = ?`,
        archive,
        pullId,
      );
}

const agrees = (here: z.output<typeof endHere>, there: PullThere): boolean =>
  here.started_wall_ms === there.started_wall_ms &&
  there.raw_sha256 !== null &&
  there.readings_sha256 !== null &&
  Buffer.compare(here.raw_sha256, there.raw_sha256) === 0 &&
  Buffer.compare(here.readings_sha256, there.readings_sha256) === 0;

/** All of it, where its specimen was not corrected otherwise in both. */
function newPull(into: MergeInto, from: Known<MergeFrom>, pull: PullThere, write: boolean): Fate {
  const { connection } = into;
  const its = identityOf(from, pull);
  const taken = new TakenRows(from.connection, connection);
  const touched = new Set<number>();
  const there = pull.pull_id;
  let pullId = 0;
  const specimens = planSpecimens(taken, specimenOf(from.connection, there), null);
  if (specimens.conflicts.length > 0)
    return {
      fate: 'conflict',
      pullIdHere: null,
      words: `the ${CORRECTED_DIMENSIONS} of its specimen differ in both archives; correct the specimen in one of them to what counts`,
    };
  const statements: Additions = planStatements(
    taken,
    { there, here: null, numberHere: () => pullId },
    specimens.numbers,
  );
  const sets = planSets(taken, specimens.numbers, touched);
  const words =
    sets.conflicts.length === 0
      ? ''
      : `said otherwise in both and left as it is here: ${sets.conflicts.join(', ')}; look at both and say which counts`;
  if (!write) return { fate: 'taken', pullIdHere: null, words };
  connection
    .transaction(() => {
      const [own] = taken.rowsThere('SELECT * FROM pull WHERE pull_id = ?', there);
      if (own === undefined) throw new Error(`pull ${String(there)} went away while it was taken`);
      for (const { put } of specimens.take) put();
      pullId = taken.put('pull', own, {
        pull_id: null,
        specimen_id: specimens.numbers.of(own.specimen_id),
        profile_id: takeProfile(into, from, Number(own.profile_id)),
      });
      takeInstruments(taken, there, pullId);
      takeRecord(taken, there, pullId, (profileId) => takeProfile(into, from, profileId));
      for (const { put } of statements.take) put();
      taken.put('pull_origin', {
        pull_id: pullId,
        archive_identity: its.archive,
        pull_id_there: its.pullId,
        taken_wall_ms: into.wallMs,
      });
      for (const { put } of sets.take) put();
      takeFirstStated(from.connection, connection, { there, here: pullId }, (id) =>
        specimens.numbers.find(id),
      );
      appendAudit(connection, into.wallMs, {
        what: 'pull taken from another archive',
        subject: 'pull',
        subjectId: pullId,
        rows: taken.named,
        detail: { archive: its.archive, pullIdThere: its.pullId },
      });
      keepOthersInStep(connection, pullId, touched);
    })
    .immediate();
  return { fate: 'taken', pullIdHere: pullId, words };
}

function takeProfile(into: MergeInto, from: MergeFrom, profileId: number): number {
  const found = oneRow(
    from.connection,
    z.object({ form_json: sqlJson(readoutProfile) }),
    'SELECT form_json FROM readout_profile WHERE profile_id = ?',
    profileId,
  );
  if (found === null) throw new Error(`profile ${String(profileId)} is not there`);
  return keepProfile(into.connection, found.form_json, { wallMs: into.wallMs, offered: false });
}

/** Everything of the record itself. The end comes last: nothing can be added to a closed pull. */
function takeRecord(
  taken: TakenRows,
  there: number,
  here: number,
  profileOf: (idThere: number) => number,
): void {
  for (const table of ['raw_block', 'reading_block'])
    for (const block of taken.eachThere(`SELECT * FROM ${table} WHERE pull_id = ?`, there))
      taken.put(table, block, { pull_id: here });
  for (const [table, key] of [
    ['mark', 'mark_id'],
    ['zero', 'zero_id'],
    ['act', 'act_id'],
  ] as const)
    for (const own of taken.rowsThere(`SELECT * FROM ${table} WHERE pull_id = ? ORDER BY ${key}`, there))
      taken.put(table, own, { [key]: null, pull_id: here });
  for (const own of taken.rowsThere('SELECT * FROM gap WHERE pull_id = ? ORDER BY gap_id', there)) {
    const gapId = taken.put('gap', own, { gap_id: null, pull_id: here });
    for (const end of taken.rowsThere('SELECT * FROM gap_end WHERE gap_id = ?', own.gap_id ?? null))
      taken.put('gap_end', end, { gap_id: gapId });
  }
  for (const own of taken.rowsThere('SELECT * FROM second_instrument WHERE pull_id = ?', there))
    taken.put('second_instrument', own, { pull_id: here, profile_id: profileOf(Number(own.profile_id)) });
  for (const table of ['typed_pull', 'two_instruments_end', 'pull_end'])
    for (const own of taken.rowsThere(`SELECT * FROM ${table} WHERE pull_id = ?`, there))
      taken.put(table, own, { pull_id: here });
}
