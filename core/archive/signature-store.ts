/** Signatures under certificates: each names the certificate and the hash of what it said. Rows are only ever added. */
import { z } from 'zod';
import type { Signature } from '../contract/signature-requests.ts';
import { ArchiveRefusal } from './archive-fault.ts';
import { appendAudit } from './audit.ts';
import { type Connection, allRows, insert, oneRow, sqlBlob, sqlInteger } from './sql.ts';

export interface SignCertificate {
  readonly number: string;
  readonly contentSha256: Uint8Array;
  readonly printedName: string;
  readonly meaning: string;
  readonly personId: number | null;
  readonly byPin: boolean;
  readonly utcOffsetMinutes: number;
}

/** Throws an ArchiveRefusal where the certificate is unknown, says something else, or is signed so already. */
export function signCertificate(connection: Connection, sign: SignCertificate, wallMs: number): Signature {
  const { number, printedName, meaning, personId, byPin, utcOffsetMinutes } = sign;
  return connection
    .transaction(() => {
      const row = oneRow(
        connection,
        z.object({ certificate_id: sqlInteger, content_sha256: sqlBlob }),
        'SELECT certificate_id, content_sha256 FROM certificate WHERE number = ?',
        number,
      );
      if (row === null || Buffer.compare(row.content_sha256, sign.contentSha256) !== 0)
        throw new ArchiveRefusal(
          row === null ? 'no-such-certificate' : 'certificate-changed',
          row === null
            ? `No certificate ${number.slice(0, 60)} was issued from this archive.`
            : `What certificate ${number} said has changed since. Write it anew, read it, and sign that one.`,
          'number',
        );
      const before = signaturesOf(connection, number);
      if (before.some((one) => one.printedName === printedName && one.meaning === meaning))
        throw new ArchiveRefusal(
          'already-signed',
          `Certificate ${number} is signed "${meaning}" by ${printedName} already. Nothing was added.`,
          'meaning',
        );
      if (before.length >= SIGNATURES_MAX)
        throw new ArchiveRefusal(
          'too-many-signatures',
          `Certificate ${number} has ${String(before.length)} signatures, as many as it takes.`,
          'number',
        );
      const signatureId = insert(connection, 'signature', {
        certificate_id: row.certificate_id,
        content_sha256: row.content_sha256,
        printed_name: printedName,
        meaning,
        person_id: personId,
        by_pin: byPin ? 1 : 0,
        wall_ms: wallMs,
        utc_offset_minutes: utcOffsetMinutes,
      });
      const contentSha256 = Buffer.from(row.content_sha256).toString('hex');
      const kept = { number, contentSha256, printedName, meaning, byPin, utcOffsetMinutes };
      appendAudit(connection, wallMs, {
        what: 'certificate signed',
        subject: 'signature',
        subjectId: signatureId,
        detail: { ...kept, personId },
      });
      return { signatureId, wallMs, ...kept };
    })
    .immediate();
}

const SIGNATURES_MAX = 20;

const signatureRow = z
  .object({
    signature_id: sqlInteger,
    number: z.string(),
    content_sha256: sqlBlob,
    printed_name: z.string(),
    meaning: z.string(),
    by_pin: sqlInteger,
    wall_ms: sqlInteger,
    utc_offset_minutes: sqlInteger,
  })
  .transform((row): Signature => ({
    signatureId: row.signature_id,
    number: row.number,
    contentSha256: Buffer.from(row.content_sha256).toString('hex'),
    printedName: row.printed_name,
    meaning: row.meaning,
    byPin: row.by_pin === 1,
    wallMs: row.wall_ms,
    utcOffsetMinutes: row.utc_offset_minutes,
  }));

/** In the order in which they were given. A certificate of another number has its own, or none. */
export function signaturesOf(connection: Connection, number: string): Signature[] {
  return allRows(
    connection,
    signatureRow,
    `SELECT s.*, c.number FROM signature s JOIN certificate c USING (certificate_id)
     WHERE c.number = ? ORDER BY s.signature_id`,
    number,
  );
}
