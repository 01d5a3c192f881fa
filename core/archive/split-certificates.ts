/**
 * The certificates of a year: each goes with the pulls that it rests on, with its number, its results and its
 * signatures. One that rests on pulls of several years is in the original only.
 */
import { z } from 'zod';
import { appendAudit } from './audit.ts';
import { memberHereOf, setHere } from './merge-sets.ts';
import { specimenHere } from './merge-specimens.ts';
import { type Connection, allRows, sqlInteger } from './sql.ts';
import { type Cell, type Row, TakenRows } from './taken-rows.ts';

const restsOn = z.object({ certificate_id: sqlInteger, pull_id: sqlInteger.nullable() });

/** Pulls that each certificate rests on; of one from before results were kept, those of its set. */
export function pullsOfCertificates(connection: Connection): ReadonlyMap<number, readonly number[]> {
  const rows = allRows(
    connection,
    restsOn,
    `SELECT certificate_id, pull_id FROM certificate WHERE pull_id IS NOT NULL
     UNION SELECT certificate_id, pull_id FROM certificate_result
     UNION SELECT c.certificate_id, p.pull_id FROM certificate c
       LEFT JOIN set_member m ON m.set_id = c.set_id AND c.set_member_id IS NULL OR m.set_member_id = c.set_member_id
       LEFT JOIN pull p ON p.specimen_id = m.specimen_id
       WHERE c.pull_id IS NULL AND NOT EXISTS
         (SELECT 1 FROM certificate_result r WHERE r.certificate_id = c.certificate_id)`,
  );
  const pulls = new Map<number, number[]>();
  for (const { certificate_id, pull_id } of rows)
    pulls.set(certificate_id, [...(pulls.get(certificate_id) ?? []), ...(pull_id === null ? [] : [pull_id])]);
  return pulls;
}

export interface TakeCertificates {
  readonly original: Connection;
  readonly part: Connection;
  readonly wallMs: number;
  readonly certificateIds: readonly number[];
  /** Numbers of pulls in the original, and in the part. */
  readonly pulls: ReadonlyMap<number, number>;
}

/** Its number in the file stays too, so that the next one gets a number that no other has. */
export function takeCertificates({ original, part, wallMs, certificateIds, pulls }: TakeCertificates): void {
  for (const certificateId of certificateIds) {
    const taken = new TakenRows(original, part);
    const rows = (sql: string): Row[] => taken.rowsThere(sql, certificateId);
    const pullOf = (there: Cell | undefined): number | null => pulls.get(Number(there)) ?? null;
    const [own] = rows('SELECT * FROM certificate WHERE certificate_id = ?');
    if (own === undefined) throw new Error(`certificate ${String(certificateId)} is not there`);
    taken.put('certificate', own, {
      set_id: own.set_id === null ? null : setHere(taken, Number(own.set_id)),
      set_member_id: own.set_member_id === null ? null : memberHereOf(taken, Number(own.set_member_id)),
      pull_id: own.pull_id === null ? null : pullOf(own.pull_id),
    });
    for (const result of rows('SELECT * FROM certificate_result WHERE certificate_id = ?')) {
      const [specimen] = taken.rowsThere(
        'SELECT * FROM specimen WHERE specimen_id = ?',
        result.specimen_id ?? null,
      );
      taken.put('certificate_result', result, {
        pull_id: pullOf(result.pull_id),
        specimen_id: specimen === undefined ? null : specimenHere(taken, specimen),
      });
    }
    for (const signature of rows('SELECT * FROM signature WHERE certificate_id = ?'))
      taken.put('signature', signature);
    appendAudit(part, wallMs, {
      what: 'certificate taken from the archive that issued it',
      subject: 'certificate',
      subjectId: certificateId,
      rows: taken.named,
      detail: { number: own.number },
    });
  }
}
