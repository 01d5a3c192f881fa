/** Certificates that were issued, each in its language, and the laboratory that issues them. The same content keeps its number. */
import { z } from 'zod';
import type { Certified } from '../contract/certificate-requests.ts';
import {
  type CertificatesOfPull,
  type CertifiedValues,
  type KeptValue,
  keptValues,
} from '../contract/evaluation-requests.ts';
import { CERTIFICATES_TOLD_MAX } from '../contract/exchange-requests.ts';
import { CERTIFICATES_LOOKED_AT_MAX } from '../limits.ts';
import type { EvaluationOptions } from '../results/evaluation.ts';
import { PAPER_LANGUAGES, type PaperLanguage } from '../words/paper-words.ts';
import { appendAudit } from './audit.ts';
import { numberMark } from './own-identities.ts';
import { type Connection, allRows, insert, oneRow, sqlBlob, sqlInteger, sqlJson } from './sql.ts';

export interface IssuedCertificate {
  readonly number: string;
  readonly issuedWallMs: number;
  readonly utcOffsetMinutes: number;
  readonly language: PaperLanguage;
}

/** Rows say nothing of English. */
const languageColumn = z
  .enum(PAPER_LANGUAGES)
  .nullable()
  .transform((language) => language ?? 'en');

const certificateRow = z.object({
  number: z.string(),
  issued_wall_ms: sqlInteger,
  utc_offset_minutes: sqlInteger,
  content_sha256: sqlBlob,
  language: languageColumn,
});

const inRow = (language: PaperLanguage): string | null => (language === 'en' ? null : language);

/** Numbers of the rows that a certificate is about: a set, one specimen of it, or one pull without a set. */
const rowsOf = (
  about: Certified,
): { setId: number | null; setMemberId: number | null; pullId: number | null } =>
  'pullId' in about
    ? { setId: null, setMemberId: null, pullId: about.pullId }
    : { setId: about.setId, setMemberId: about.setMemberId ?? null, pullId: null };

export interface LastIssued extends IssuedCertificate {
  /** False where what it says has changed since. */
  readonly saysTheSame: boolean;
}

/** The language of the newest certificate of the same; null where nothing was issued. */
export function lastLanguage(connection: Connection, about: Certified): PaperLanguage | null {
  const { setId, setMemberId, pullId } = rowsOf(about);
  return languageWhere(
    connection,
    'set_id IS ? AND set_member_id IS ? AND pull_id IS ?',
    setId,
    setMemberId,
    pullId,
  );
}

/** The language of the certificate of this number; null where none was issued under it. */
export function languageOfCertificate(connection: Connection, number: string): PaperLanguage | null {
  return languageWhere(connection, 'number = ?', number);
}

/** Of the newest certificate that this is so of. */
function languageWhere(
  connection: Connection,
  condition: string,
  ...given: readonly (string | number | null)[]
): PaperLanguage | null {
  const row = oneRow(
    connection,
    z.object({ language: languageColumn }),
    `SELECT language FROM certificate WHERE ${condition} ORDER BY certificate_id DESC LIMIT 1`,
    ...given,
  );
  return row?.language ?? null;
}

/** The newest certificate of the same in this language; null where nothing was issued in it. */
export function lastIssued(
  connection: Connection,
  about: Certified,
  contentSha256: Uint8Array,
  language: PaperLanguage = 'en',
): LastIssued | null {
  const { setId, setMemberId, pullId } = rowsOf(about);
  const row = oneRow(
    connection,
    certificateRow,
    `SELECT number, issued_wall_ms, utc_offset_minutes, content_sha256, language FROM certificate
     WHERE set_id IS ? AND set_member_id IS ? AND pull_id IS ? AND language IS ?
     ORDER BY certificate_id DESC LIMIT 1`,
    setId,
    setMemberId,
    pullId,
    inRow(language),
  );
  return row === null
    ? null
    : {
        number: row.number,
        issuedWallMs: row.issued_wall_ms,
        utcOffsetMinutes: row.utc_offset_minutes,
        language: row.language,
        saysTheSame: Buffer.compare(row.content_sha256, contentSha256) === 0,
      };
}

/** Number of the last certificate of the whole set; null where none was issued. */
export function lastCertificateOf(connection: Connection, setId: number): string | null {
  const row = oneRow(
    connection,
    z.object({ number: z.string() }),
    `SELECT number FROM certificate WHERE set_id = ? AND set_member_id IS NULL ORDER BY certificate_id DESC LIMIT 1`,
    setId,
  );
  return row?.number ?? null;
}

export interface IssueCertificate {
  readonly about: Certified;
  readonly contentSha256: Uint8Array;
  /** English where left out. */
  readonly language?: PaperLanguage;
  readonly wallMs: number;
  readonly utcOffsetMinutes: number;
  readonly programVersion: string;
  /** What it rests on, pull by pull. */
  readonly results: readonly IssuedResult[];
}

export interface IssuedResult {
  readonly pullId: number;
  readonly specimenId: number;
  readonly options: EvaluationOptions;
  readonly values: readonly KeptValue[];
  readonly methodVersion: string;
}

const COUNT_DIGITS = 4;

/** Gives the next number, "2026-0007-3f9a": year, count in this archive, the archive's mark. */
export function issueCertificate(connection: Connection, issue: IssueCertificate): IssuedCertificate {
  const { about, contentSha256, language = 'en', wallMs, utcOffsetMinutes, programVersion } = issue;
  const { setId, setMemberId, pullId } = rowsOf(about);
  return connection
    .transaction(() => {
      const { next } = oneRow(
        connection,
        z.object({ next: sqlInteger }),
        'SELECT coalesce(max(certificate_id), 0) + 1 AS next FROM certificate',
      ) ?? { next: 1 };
      const year = new Date(wallMs + utcOffsetMinutes * 60_000).getUTCFullYear();
      const number = `${String(year)}-${String(next).padStart(COUNT_DIGITS, '0')}-${numberMark(connection)}`;
      const certificateId = insert(connection, 'certificate', {
        number,
        set_id: setId,
        set_member_id: setMemberId,
        pull_id: pullId,
        issued_wall_ms: wallMs,
        utc_offset_minutes: utcOffsetMinutes,
        content_sha256: contentSha256,
        program_version: programVersion,
        language: inRow(language),
      });
      const resultIds = issue.results.map((one) =>
        insert(connection, 'certificate_result', {
          certificate_id: certificateId,
          pull_id: one.pullId,
          specimen_id: one.specimenId,
          options_json: JSON.stringify(one.options),
          values_json: JSON.stringify(one.values),
          method_version: one.methodVersion,
        }),
      );
      appendAudit(connection, wallMs, {
        rows: [
          { table: 'certificate', id: certificateId },
          ...resultIds.map((id) => ({ table: 'certificate_result', id }) as const),
        ],
        what: 'certificate issued',
        subject: 'certificate',
        subjectId: certificateId,
        detail: {
          number,
          ...about,
          ...(language === 'en' ? {} : { language }),
          contentSha256: Buffer.from(contentSha256).toString('hex'),
        },
      });
      return { number, issuedWallMs: wallMs, utcOffsetMinutes, language };
    })
    .immediate();
}

/** Numbers that another archive has given and this one has not, the newest first. */
export function certificatesOnlyThere(
  there: Connection,
  here: Connection,
): { readonly count: number; readonly numbers: string[] } {
  const number = z.object({ number: z.string() });
  const own = new Set(allRows(here, number, 'SELECT number FROM certificate').map((row) => row.number));
  const numbers = allRows(there, number, 'SELECT number FROM certificate ORDER BY certificate_id DESC')
    .map((row) => row.number)
    .filter((one) => !own.has(one));
  return { count: numbers.length, numbers: numbers.slice(0, CERTIFICATES_TOLD_MAX) };
}

export interface Laboratory {
  readonly name: string;
  readonly lines: readonly string[];
}

export function saveLaboratory(connection: Connection, { name, lines }: Laboratory, wallMs: number): void {
  connection
    .transaction(() => {
      const subjectId = insert(connection, 'laboratory', {
        name,
        lines_json: JSON.stringify(lines),
        wall_ms: wallMs,
      });
      appendAudit(connection, wallMs, {
        what: 'laboratory named',
        subject: 'laboratory',
        subjectId,
        detail: { name, lines },
      });
    })
    .immediate();
}

const laboratoryRow = z
  .object({ name: z.string(), lines_json: sqlJson(z.array(z.string())) })
  .transform((row) => ({ name: row.name, lines: row.lines_json }));

/** Null where nobody has named it yet. */
export function laboratory(connection: Connection): { name: string; lines: string[] } | null {
  return oneRow(
    connection,
    laboratoryRow,
    'SELECT name, lines_json FROM laboratory ORDER BY laboratory_id DESC LIMIT 1',
  );
}

/** `pullId`: the pull whose certificate it is where it is about no set. */
function aboutOf(
  row: { readonly set_id: number | null; readonly set_member_id: number | null },
  pullId: number,
): Certified {
  if (row.set_id === null) return { pullId };
  return { setId: row.set_id, ...(row.set_member_id === null ? {} : { setMemberId: row.set_member_id }) };
}

const certificateOnRow = z.object({
  number: z.string(),
  issued_wall_ms: sqlInteger,
  set_id: sqlInteger.nullable(),
  set_member_id: sqlInteger.nullable(),
  set_name: z.string().nullable(),
  language: languageColumn,
  in_all: sqlInteger,
});

/**
 * The certificates that rest on this pull, of each subject and language the newest one; the newest of all first, at most
 * CERTIFICATES_LOOKED_AT_MAX.
 */
export function certificatesOn(connection: Connection, pullId: number): CertificatesOfPull {
  // SQLite takes the other columns of a group from the row that max() is of.
  const rows = allRows(
    connection,
    certificateOnRow,
    `SELECT number, issued_wall_ms, set_id, set_member_id, language, max(certificate_id) AS newest,
       count(*) OVER () AS in_all,
       (SELECT t.name FROM set_statement t WHERE t.set_id = certificate.set_id
        ORDER BY t.set_statement_id DESC LIMIT 1) AS set_name
     FROM certificate WHERE certificate_id IN (SELECT certificate_id FROM certificate_result WHERE pull_id = ?)
     GROUP BY set_id, set_member_id, pull_id, language ORDER BY newest DESC LIMIT ?`,
    pullId,
    CERTIFICATES_LOOKED_AT_MAX,
  );
  return {
    newest: rows.map((row) => ({
      number: row.number,
      issuedWallMs: row.issued_wall_ms,
      about: aboutOf(row, pullId),
      setName: row.set_name,
      language: row.language,
    })),
    beyond: (rows[0]?.in_all ?? 0) - rows.length,
  };
}

/** The results that the newest certificate about this pull was issued with; null where there is none. */
export function certifiedValuesOf(connection: Connection, pullId: number): CertifiedValues | null {
  const row = oneRow(
    connection,
    z.object({
      number: z.string(),
      issued_wall_ms: sqlInteger,
      values_json: sqlJson(keptValues),
      method_version: z.string(),
    }),
    `SELECT c.number, c.issued_wall_ms, r.values_json, r.method_version
     FROM certificate_result r JOIN certificate c USING (certificate_id)
     WHERE r.pull_id = ? ORDER BY c.certificate_id DESC LIMIT 1`,
    pullId,
  );
  return row === null
    ? null
    : {
        number: row.number,
        issuedWallMs: row.issued_wall_ms,
        values: row.values_json,
        methodVersion: row.method_version,
      };
}
