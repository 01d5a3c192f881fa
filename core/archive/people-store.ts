/** People of this machine. A correction is a new row that names the one before; a PIN is kept as a salted hash only. */
import { z } from 'zod';
import { type Person, PERSON_ROLES } from '../contract/people-requests.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { checkReason } from './correction-reason.ts';
import { appendAudit } from './audit.ts';
import { type Connection, allRows, insert, sqlBlob, sqlInteger, sqlJson } from './sql.ts';

export interface PinHash {
  readonly salt: Uint8Array;
  readonly hash: Uint8Array;
}

export interface SavePerson {
  readonly name: string;
  readonly sign: string;
  readonly roles: readonly (typeof PERSON_ROLES)[number][];
  readonly pin: PinHash | null;
  readonly retired: boolean;
  readonly supersedes?: number | undefined;
  readonly reason?: string | undefined;
}

/** Throws an ArchiveRefusal where the sign is another's, or a correction lacks its reason. */
export function savePerson(connection: Connection, save: SavePerson, wallMs: number): number {
  const { name, sign, roles, pin, retired, supersedes, reason } = save;
  return connection
    .transaction(() => {
      const others = people(connection).filter((one) => one.person.personId !== supersedes);
      if (supersedes !== undefined) checkReason(reason);
      if (supersedes !== undefined) personOf(connection, supersedes);
      if (!retired && others.some(({ person }) => !person.retired && folded(person.sign) === folded(sign)))
        throw new ArchiveRefusal(
          'sign-taken',
          `The sign ${sign} belongs to another person here; choose another.`,
          'sign',
        );
      const personId = insert(connection, 'person', {
        name,
        sign,
        roles_json: JSON.stringify(roles),
        pin_salt: pin?.salt ?? null,
        pin_hash: pin?.hash ?? null,
        retired: retired ? 1 : 0,
        wall_ms: wallMs,
        supersedes: supersedes ?? null,
        reason: supersedes === undefined ? null : (reason ?? null),
      });
      appendAudit(connection, wallMs, {
        what: supersedes === undefined ? 'person kept' : 'person corrected',
        subject: 'person',
        subjectId: personId,
        // Neither salt nor hash: they would be no use here, and stand in every copy of the chain.
        detail: { name, sign, roles, hasPin: pin !== null, retired, supersedes, reason },
      });
      return personId;
    })
    .immediate();
}

const folded = (text: string): string => text.normalize('NFKC').trim().toLocaleLowerCase('en');

export interface PersonWithPin {
  readonly person: Person;
  readonly pin: PinHash | null;
}

const personRow = z
  .object({
    person_id: sqlInteger,
    name: z.string(),
    sign: z.string(),
    roles_json: sqlJson(z.array(z.enum(PERSON_ROLES))),
    pin_salt: sqlBlob.nullable(),
    pin_hash: sqlBlob.nullable(),
    retired: sqlInteger,
  })
  .transform((row): PersonWithPin => ({
    person: {
      personId: row.person_id,
      name: row.name,
      sign: row.sign,
      roles: row.roles_json,
      hasPin: row.pin_hash !== null,
      retired: row.retired === 1,
    },
    pin: row.pin_salt === null || row.pin_hash === null ? null : { salt: row.pin_salt, hash: row.pin_hash },
  }));

/** As they stand now, in the order in which they were entered. */
export function people(connection: Connection): PersonWithPin[] {
  return allRows(
    connection,
    personRow,
    `SELECT * FROM person p WHERE NOT EXISTS (SELECT 1 FROM person later WHERE later.supersedes = p.person_id)
     ORDER BY person_id`,
  );
}

/** Throws an ArchiveRefusal where there is none, or another row stands in its place. */
export function personOf(connection: Connection, personId: number): PersonWithPin {
  const found = people(connection).find(({ person }) => person.personId === personId);
  if (found === undefined)
    throw new ArchiveRefusal(
      'no-such-person',
      `There is no person ${String(personId)} here, or the entry was corrected meanwhile; look at the list again.`,
      'personId',
    );
  return found;
}

/** Whose name or sign that is; null where it is nobody's of this machine. */
export function personNamed(connection: Connection, name: string): PersonWithPin | null {
  return (
    people(connection).find(
      ({ person }) =>
        !person.retired && [person.name, person.sign].some((own) => folded(own) === folded(name)),
    ) ?? null
  );
}
