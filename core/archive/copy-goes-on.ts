/**
 * A backup that is recorded into goes on beside the archive that it was copied from, which has issued certificates since
 * that the backup does not know, and may still be in use elsewhere. So a backup says that it is one, and gets a mark of its
 * own for the numbers of its certificates when it is first opened for recording: two certificates never bear one number,
 * whether or not the other archive can still be read.
 */
import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import { appendAudit } from './audit.ts';
import { type Connection, allRows, countOf, insert, oneRow } from './sql.ts';

/** Belongs to no form: it says nothing of what is kept. */
export const COPY_TABLE = 'copied_from_archive';

/** Letters of a mark: of the archive's identity, so that two archives of one shop don't give the same numbers. */
const MARK_LETTERS = 4;
const MARK_FACT = 'number-mark-';

/** To be said of a copy that is whole, before it gets its name. */
export function sayCopy(connection: Connection): void {
  connection.exec(`CREATE TABLE IF NOT EXISTS ${COPY_TABLE} (unused INTEGER) STRICT`);
}

const saysCopy = (connection: Connection): boolean =>
  countOf(connection, `SELECT count(*) AS n FROM sqlite_schema WHERE name = '${COPY_TABLE}'`) === 1;

/** Of an archive of the present form that is opened for recording; nothing happens to one that is no copy. */
export function goOnByItself(
  connection: Connection,
  { wallMs, programVersion }: { readonly wallMs: number; readonly programVersion: string },
): void {
  if (!saysCopy(connection)) return;
  connection
    .transaction(() => {
      const given = [firstMark(connection), ...ownMarks(connection)];
      let mark = newMark();
      while (given.includes(mark)) mark = newMark();
      insert(connection, 'fact', { name: `${MARK_FACT}${String(given.length)}`, value: mark });
      appendAudit(connection, wallMs, {
        what: 'backup went on as an archive',
        subject: 'archive',
        subjectId: given.length,
        detail: { numberMark: mark, programVersion },
      });
      connection.exec(`DROP TABLE ${COPY_TABLE}`);
    })
    .immediate();
}

const newMark = (): string => randomUUID().slice(0, MARK_LETTERS);

/** What the numbers of this archive's certificates end with. */
export const numberMark = (connection: Connection): string =>
  ownMarks(connection).at(-1) ?? firstMark(connection);

const factValue = z.object({ value: z.string() });

const firstMark = (connection: Connection): string =>
  (
    oneRow(connection, factValue, "SELECT value FROM fact WHERE name = 'archive-identity'")?.value ?? ''
  ).slice(0, MARK_LETTERS);

/** In the order in which they were given. */
const ownMarks = (connection: Connection): string[] =>
  allRows(
    connection,
    factValue,
    `SELECT value FROM fact WHERE name LIKE '${MARK_FACT}%' ORDER BY length(name), name`,
  ).map(({ value }) => value);
