/** Everything that the archive says of one pull in rows beside its record: for a document that is to hold all of it. */
import { z } from 'zod';
import { OUTCOMES } from '../acceptance/verdict.ts';
import { keptValues } from '../contract/evaluation-requests.ts';
import { PERSON_ROLES } from '../contract/people-requests.ts';
import type { SaidOfPull } from '../exchange/export/document-statements.ts';
import { momentText } from '../exchange/export/moment-text.ts';
import { CALIBRATION_STATES } from '../instruments/calibration.ts';
import { instrumentForm } from '../instruments/instrument.ts';
import { frozenSet } from '../sets/set-form.ts';
import { PAPER_LANGUAGES } from '../words/paper-words.ts';
import { calibrationsOf } from './instrument-store.ts';
import { keptOptions } from './kept-options.ts';
import { membershipsOf } from './member-store.ts';
import { pullRowOf } from './pull-reader.ts';
import { signaturesOf } from './signature-store.ts';
import { specimenChain, withSpecimenChain } from './specimen-chain.ts';
import { getSpecimen } from './specimen-reader.ts';
import { type Connection, allRows, oneRow, sqlBlob, sqlInteger, sqlJson } from './sql.ts';

const hex = (bytes: Uint8Array): string => Buffer.from(bytes).toString('hex');
const text = z.string();
const maybe = z.string().nullable();

/** Throws an ArchiveRefusal where there is no such pull. */
export function saidOfPull(connection: Connection, pullId: number): SaidOfPull {
  pullRowOf(connection, pullId);
  const sets = membershipsOf(connection, { pullId }).map(({ setId, setMemberId, setName }) => ({
    ...setOf(connection, setId),
    name: setName,
    setMemberId,
    member: memberOf(connection, setMemberId),
  }));
  return {
    archive: archiveOf(connection),
    record: recordOf(connection, pullId),
    specimens: specimensOf(connection, pullId),
    instruments: instrumentsOf(connection, pullId),
    sets,
    certificates: certificatesOf(connection, pullId),
    audit: auditOf(connection, pullId),
  };
}

function archiveOf(connection: Connection): SaidOfPull['archive'] {
  const facts = allRows(connection, z.object({ name: text, value: text }), 'SELECT name, value FROM fact');
  const house = oneRow(
    connection,
    z.object({ name: text, lines_json: sqlJson(z.array(text)), wall_ms: sqlInteger }),
    'SELECT name, lines_json, wall_ms FROM laboratory ORDER BY laboratory_id DESC LIMIT 1',
  );
  return {
    facts: Object.fromEntries(facts.map(({ name, value }) => [name, value])),
    laboratory: house === null ? null : { name: house.name, lines: house.lines_json, wallMs: house.wall_ms },
  };
}

const recordRow = z.object({
  source_words: text,
  boot: text,
  planned_force_n: z.number().nullable(),
  planned_extension_mm: z.number().nullable(),
  profile_sha256: sqlBlob,
  profile_wall_ms: sqlInteger,
  second_sha256: sqlBlob.nullable(),
  second_wall_ms: sqlInteger.nullable(),
  ended_wall_ms: sqlInteger.nullable(),
  peak_force_n: z.number().nullable(),
  readings_sha256: sqlBlob.nullable(),
  archive_identity: maybe,
  pull_id_there: sqlInteger.nullable(),
  taken_wall_ms: sqlInteger.nullable(),
});

function recordOf(connection: Connection, pullId: number): SaidOfPull['record'] {
  const row = oneRow(
    connection,
    recordRow,
    `SELECT p.source_words, p.boot, p.planned_force_n, p.planned_extension_mm,
       r.sha256 AS profile_sha256, r.saved_wall_ms AS profile_wall_ms,
       r2.sha256 AS second_sha256, r2.saved_wall_ms AS second_wall_ms,
       e.ended_wall_ms, e.peak_force_n, e.readings_sha256, o.archive_identity, o.pull_id_there, o.taken_wall_ms
     FROM pull p JOIN readout_profile r USING (profile_id)
     LEFT JOIN second_instrument two USING (pull_id)
     LEFT JOIN readout_profile r2 ON r2.profile_id = two.profile_id
     LEFT JOIN pull_end e USING (pull_id) LEFT JOIN pull_origin o USING (pull_id) WHERE p.pull_id = ?`,
    pullId,
  );
  if (row === null) throw new Error(`pull ${String(pullId)} was there a moment ago`);
  const { second_sha256, second_wall_ms, ended_wall_ms, readings_sha256 } = row;
  const { archive_identity, pull_id_there, taken_wall_ms } = row;
  return {
    sourceWords: row.source_words,
    boot: row.boot,
    plannedForceN: row.planned_force_n,
    plannedExtensionMm: row.planned_extension_mm,
    profile: { sha256: hex(row.profile_sha256), savedWallMs: row.profile_wall_ms },
    secondProfile:
      second_sha256 === null || second_wall_ms === null
        ? null
        : { sha256: hex(second_sha256), savedWallMs: second_wall_ms },
    zeros: allRows(
      connection,
      z
        .object({ channel_key: text, value: text, seq: sqlInteger })
        .transform(({ channel_key, ...zero }) => ({ channelKey: channel_key, ...zero })),
      'SELECT channel_key, value, seq FROM zero WHERE pull_id = ? ORDER BY zero_id',
      pullId,
    ),
    ended:
      ended_wall_ms === null || readings_sha256 === null
        ? null
        : { wallMs: ended_wall_ms, peakForceN: row.peak_force_n, readingsSha256: hex(readings_sha256) },
    origin:
      archive_identity === null || pull_id_there === null || taken_wall_ms === null
        ? null
        : { archiveIdentity: archive_identity, pullIdThere: pull_id_there, takenWallMs: taken_wall_ms },
  };
}

function specimensOf(connection: Connection, pullId: number): SaidOfPull['specimens'] {
  return allRows(
    connection,
    z.object({ specimen_id: sqlInteger, program_version: text }),
    specimenChain('s.specimen_id, s.program_version'),
    pullRowOf(connection, pullId).specimen_id,
  ).map(({ specimen_id, program_version }) => ({
    ...getSpecimen(connection, specimen_id),
    programVersion: program_version,
  }));
}

function instrumentsOf(connection: Connection, pullId: number): SaidOfPull['instruments'] {
  return allRows(
    connection,
    z.object({
      instrument_id: sqlInteger,
      begun_wall_ms: sqlInteger,
      state: z.enum(CALIBRATION_STATES),
      calibration_id: sqlInteger.nullable(),
    }),
    `SELECT i.instrument_id, i.begun_wall_ms, p.state, p.calibration_id
     FROM pull_instrument p JOIN instrument i USING (instrument_id) WHERE p.pull_id = ? ORDER BY p.pull_instrument_id`,
    pullId,
  ).map((row) => ({
    instrumentId: row.instrument_id,
    begunWallMs: row.begun_wall_ms,
    stateAtStart: row.state,
    calibrationAtStart: row.calibration_id,
    statements: instrumentStatements(connection, row.instrument_id),
    calibrations: calibrationsOf(connection, row.instrument_id),
  }));
}

const instrumentStatements = (
  connection: Connection,
  instrumentId: number,
): SaidOfPull['instruments'][number]['statements'] =>
  allRows(
    connection,
    z
      .object({
        instrument_statement_id: sqlInteger,
        form_json: sqlJson(instrumentForm),
        retired: sqlInteger,
        wall_ms: sqlInteger,
        said_by: maybe,
        supersedes: sqlInteger.nullable(),
        reason: maybe,
      })
      .transform((row) => ({
        statementId: row.instrument_statement_id,
        form: row.form_json,
        retired: row.retired === 1,
        wallMs: row.wall_ms,
        by: row.said_by,
        supersedes: row.supersedes,
        reason: row.reason,
      })),
    'SELECT * FROM instrument_statement WHERE instrument_id = ? ORDER BY instrument_statement_id',
    instrumentId,
  );

type SaidSet = SaidOfPull['sets'][number];

function setOf(connection: Connection, setId: number): Pick<SaidSet, 'setId' | 'begunWallMs' | 'statements'> {
  const begun = oneRow(
    connection,
    z.object({ begun_wall_ms: sqlInteger }),
    'SELECT begun_wall_ms FROM specimen_set WHERE set_id = ?',
    setId,
  );
  const statements = allRows(
    connection,
    z
      .object({
        set_statement_id: sqlInteger,
        set_json: sqlJson(frozenSet),
        saved_wall_ms: sqlInteger,
        saved_by: maybe,
        supersedes: sqlInteger.nullable(),
        reason: maybe,
        program_version: text,
      })
      .transform((row) => ({
        statementId: row.set_statement_id,
        set: row.set_json,
        wallMs: row.saved_wall_ms,
        by: row.saved_by,
        supersedes: row.supersedes,
        reason: row.reason,
        programVersion: row.program_version,
      })),
    'SELECT * FROM set_statement WHERE set_id = ? ORDER BY set_statement_id',
    setId,
  );
  return { setId, begunWallMs: begun?.begun_wall_ms ?? 0, statements };
}

function memberOf(connection: Connection, setMemberId: number): SaidSet['member'] {
  const row = oneRow(
    connection,
    z.object({
      specimen_id: sqlInteger,
      joined_wall_ms: sqlInteger,
      joined_by: maybe,
      retest_of: sqlInteger.nullable(),
      retest_reason: maybe,
      retest_name: maybe,
      voided_by: maybe,
      void_reason: maybe,
      void_wall_ms: sqlInteger.nullable(),
    }),
    `SELECT m.*, first.name AS retest_name, v.voided_by, v.reason AS void_reason, v.wall_ms AS void_wall_ms
     FROM set_member m LEFT JOIN set_member_void v USING (set_member_id)
     LEFT JOIN set_member of ON of.set_member_id = m.retest_of
     LEFT JOIN specimen first ON first.specimen_id = of.specimen_id WHERE m.set_member_id = ?`,
    setMemberId,
  );
  if (row === null) throw new Error(`member ${String(setMemberId)} was there a moment ago`);
  const { voided_by, void_reason, void_wall_ms, retest_of } = row;
  return {
    specimenId: row.specimen_id,
    joinedWallMs: row.joined_wall_ms,
    joinedBy: row.joined_by,
    retestOf:
      retest_of === null
        ? null
        : { setMemberId: retest_of, specimenName: row.retest_name ?? '', reason: row.retest_reason ?? '' },
    voided:
      voided_by === null || void_reason === null || void_wall_ms === null
        ? null
        : { by: voided_by, reason: void_reason, wallMs: void_wall_ms },
    overrides: allRows(
      connection,
      z
        .object({
          verdict_override_id: sqlInteger,
          outcome: z.enum(OUTCOMES),
          person: text,
          reason: text,
          wall_ms: sqlInteger,
          utc_offset_minutes: sqlInteger,
        })
        .transform((one) => ({
          overrideId: one.verdict_override_id,
          to: one.outcome,
          person: one.person,
          reason: one.reason,
          wallMs: one.wall_ms,
          utcOffsetMinutes: one.utc_offset_minutes,
        })),
      'SELECT * FROM verdict_override WHERE set_member_id = ? ORDER BY verdict_override_id',
      setMemberId,
    ),
  };
}

const certificateRow = z.object({
  number: text,
  set_id: sqlInteger.nullable(),
  set_member_id: sqlInteger.nullable(),
  pull_id: sqlInteger.nullable(),
  issued_wall_ms: sqlInteger,
  utc_offset_minutes: sqlInteger,
  content_sha256: sqlBlob,
  language: z.enum(PAPER_LANGUAGES).exclude(['en']).nullable(),
  program_version: text,
  specimen_id: sqlInteger.nullable(),
  options_json: keptOptions.nullable(),
  values_json: sqlJson(keptValues).nullable(),
  method_version: maybe,
});

/** In the order in which they were issued. */
function certificatesOf(connection: Connection, pullId: number): SaidOfPull['certificates'] {
  return allRows(
    connection,
    certificateRow,
    `SELECT c.*, r.specimen_id, r.options_json, r.values_json, r.method_version
     FROM certificate c LEFT JOIN certificate_result r ON r.certificate_id = c.certificate_id AND r.pull_id = ?
     WHERE c.pull_id = ? OR r.pull_id IS NOT NULL ORDER BY c.certificate_id`,
    pullId,
    pullId,
  ).map((row) => {
    const { specimen_id, options_json, values_json, method_version } = row;
    return {
      number: row.number,
      issued: momentText(row.issued_wall_ms, row.utc_offset_minutes),
      about: { setId: row.set_id, setMemberId: row.set_member_id, pullId: row.pull_id },
      contentSha256: hex(row.content_sha256),
      ...(row.language === null ? {} : { language: row.language }),
      programVersion: row.program_version,
      result:
        specimen_id === null || values_json === null || method_version === null
          ? null
          : {
              specimenId: specimen_id,
              options: { ...options_json },
              values: values_json,
              methodVersion: method_version,
            },
      signatures: signaturesOf(connection, row.number).map((one) => ({
        ...one,
        signer: signerOf(connection, one.signatureId),
      })),
    };
  });
}

type Signer = SaidOfPull['certificates'][number]['signatures'][number]['signer'];

/** Never with the PIN, nor its hash. */
const signerOf = (connection: Connection, signatureId: number): Signer =>
  oneRow(
    connection,
    z
      .object({
        person_id: sqlInteger,
        name: text,
        sign: text,
        roles_json: sqlJson(z.array(z.enum(PERSON_ROLES))),
        retired: sqlInteger,
        wall_ms: sqlInteger,
        supersedes: sqlInteger.nullable(),
        reason: maybe,
      })
      .transform((row) => ({
        personId: row.person_id,
        name: row.name,
        sign: row.sign,
        roles: row.roles_json,
        retired: row.retired === 1,
        wallMs: row.wall_ms,
        supersedes: row.supersedes,
        reason: row.reason,
      })),
    `SELECT p.person_id, p.name, p.sign, p.roles_json, p.retired, p.wall_ms, p.supersedes, p.reason
     FROM signature s JOIN person p USING (person_id) WHERE s.signature_id = ?`,
    signatureId,
  );

/** Rows that a document of the pull tells of, as entries of the chain name them: "mark 12". Takes the pull once. */
const NAMED = `${withSpecimenChain('SELECT specimen_id FROM pull WHERE pull_id = @pull')},
  member (id, set_id) AS (SELECT set_member_id, set_id FROM set_member WHERE specimen_id IN (SELECT specimen_id FROM chain)),
  issued (id) AS (
    SELECT certificate_id FROM certificate WHERE pull_id = @pull
    UNION SELECT certificate_id FROM certificate_result WHERE pull_id = @pull
  ),
  used (id) AS (SELECT instrument_id FROM pull_instrument WHERE pull_id = @pull),
  named (subject, id) AS (
    SELECT value, @pull FROM json_each('["pull", "pull_void", "typed_pull"]')
    UNION SELECT 'specimen', specimen_id FROM chain
    UNION SELECT 'mark', mark_id FROM mark WHERE pull_id = @pull
    UNION SELECT 'gap', gap_id FROM gap WHERE pull_id = @pull
    UNION SELECT 'gap_end', gap_id FROM gap WHERE pull_id = @pull
    UNION SELECT 'zero', zero_id FROM zero WHERE pull_id = @pull
    UNION SELECT 'act', act_id FROM act WHERE pull_id = @pull
    UNION SELECT 'fracture_note', fracture_note_id FROM fracture_note WHERE pull_id = @pull
    UNION SELECT 'stated_day', stated_day_id FROM stated_day WHERE pull_id = @pull
    UNION SELECT 'evaluation', evaluation_id FROM evaluation WHERE pull_id = @pull
    UNION SELECT 'photo', photo_id FROM photo WHERE pull_id = @pull
    UNION SELECT 'photo_withdrawal', photo_id FROM photo WHERE pull_id = @pull
    UNION SELECT 'specimen_set', set_id FROM member
    UNION SELECT 'set_member', id FROM member
    UNION SELECT 'set_member_void', id FROM member
    UNION SELECT 'verdict_override', verdict_override_id FROM verdict_override WHERE set_member_id IN (SELECT id FROM member)
    UNION SELECT 'certificate', id FROM issued
    UNION SELECT 'signature', signature_id FROM signature WHERE certificate_id IN (SELECT id FROM issued)
    UNION SELECT 'instrument', id FROM used
    UNION SELECT 'calibration', calibration_id FROM calibration WHERE instrument_id IN (SELECT id FROM used)
  )`;

/** Walks through the whole chain once: entries have no index by what they speak of. */
function auditOf(connection: Connection, pullId: number): SaidOfPull['audit'] {
  const rows = connection
    .prepare(
      `${NAMED} SELECT a.* FROM audit a WHERE (a.subject, a.subject_id) IN (SELECT subject, id FROM named) ORDER BY a.audit_id`,
    )
    .all({ pull: pullId });
  return z
    .array(
      z
        .object({
          audit_id: sqlInteger,
          wall_ms: sqlInteger,
          what: text,
          subject: text,
          subject_id: sqlInteger,
          detail_json: text,
          previous_hash: sqlBlob,
          hash: sqlBlob,
        })
        .transform((row) => ({
          auditId: row.audit_id,
          wallMs: row.wall_ms,
          what: row.what,
          subject: row.subject,
          subjectId: row.subject_id,
          detail: row.detail_json,
          previousHash: hex(row.previous_hash),
          hash: hex(row.hash),
        })),
    )
    .parse(rows);
}
