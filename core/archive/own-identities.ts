/**
 * Under which identities an archive has recorded. A pull is known everywhere by the archive in which it was recorded and its
 * number there. A copy that goes on by itself has the same pulls as the original up to its last one, and others under the
 * same numbers from then on, so it records these under an identity of its own (`copy-goes-on.ts`).
 */
import { z } from 'zod';
import { ArchiveFault } from './archive-fault.ts';
import { type Connection, allRows, oneRow } from './sql.ts';

export interface OwnIdentity {
  readonly identity: string;
  /** The last pull that was recorded before it. */
  readonly afterPull: number;
}

/** Its fact is called by this and a number, from 1 on. */
export const OWN_IDENTITY_FACT = 'own-identity-';
/** Far more than any archive is ever put back. */
export const OWN_IDENTITIES_MAX = 1_000;

const IDENTITY = '[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}';
const written = z
  .string()
  .regex(new RegExp(`^${IDENTITY} \\d{1,15}$`))
  .transform((text): OwnIdentity => {
    const [identity = '', afterPull] = text.split(' ');
    return { identity, afterPull: Number(afterPull) };
  });

/** As it stands in its fact. */
export const identityText = ({ identity, afterPull }: OwnIdentity): string =>
  `${identity} ${String(afterPull)}`;

const value = z.object({ value: z.string() });

/** The one with which it was begun first; throws an ArchiveFault where one can't be read. */
export function ownIdentities(connection: Connection): readonly OwnIdentity[] {
  const first = oneRow(connection, value, "SELECT value FROM fact WHERE name = 'archive-identity'");
  if (first === null) throw unreadable('it is missing');
  const facts = allRows(
    connection,
    value,
    `SELECT value FROM fact WHERE name LIKE '${OWN_IDENTITY_FACT}%' ORDER BY length(name), name LIMIT ${String(OWN_IDENTITIES_MAX + 1)}`,
  );
  if (facts.length > OWN_IDENTITIES_MAX)
    throw unreadable(`there are more than ${String(OWN_IDENTITIES_MAX)}`);
  return [
    { identity: first.value, afterPull: 0 },
    ...facts.map((row) => {
      const read = written.safeParse(row.value);
      if (!read.success) throw unreadable(row.value.slice(0, TOLD_LENGTH_MAX));
      return read.data;
    }),
  ];
}

const TOLD_LENGTH_MAX = 60;

const unreadable = (detail: string): ArchiveFault =>
  new ArchiveFault(
    'archive-damaged',
    'The archive does not say under which identity it records, or not so that it can be read; check it with gaugemark archive check, and use a backup.',
    detail,
  );

/** Under which of them a pull that was not taken from another archive was recorded. */
export const recordedUnder = (identities: readonly OwnIdentity[], pullId: number): string =>
  identities.findLast(({ afterPull }) => afterPull < pullId)?.identity ?? '';

/** Letters of an identity that stand in the numbers of certificates, so that two archives of one shop don't give the same. */
const MARK_LETTERS = 4;
/** Of a copy that went on: of its original there may be many, and nobody knows their marks. */
const COPY_MARK_LETTERS = 8;

/** What the numbers of certificates that are issued now end with. */
export function numberMark(connection: Connection): string {
  const identities = ownIdentities(connection);
  return (identities.at(-1)?.identity ?? '').slice(
    0,
    identities.length === 1 ? MARK_LETTERS : COPY_MARK_LETTERS,
  );
}
