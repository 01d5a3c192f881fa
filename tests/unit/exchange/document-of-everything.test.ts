/**
 * The JSON document of a pull holds everything that the archive holds of it: each table stands in it, column by column,
 * or it is said here why not. A table or a column of a later form is missing here until somebody decides.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { issueCertificate, saveLaboratory } from '../../../core/archive/certificate-store.ts';
import { keepEvaluation } from '../../../core/archive/evaluation-store.ts';
import { TABLES_OF_NO_FORM } from '../../../core/archive/tables-of-no-form.ts';
import { chosenInstruments } from '../../../core/archive/instrument-store.ts';
import { joinSet, overrideMember, voidMember } from '../../../core/archive/member-store.ts';
import { savePerson } from '../../../core/archive/people-store.ts';
import { addPhoto, withdrawPhoto } from '../../../core/archive/photo-store.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { signCertificate } from '../../../core/archive/signature-store.ts';
import { insert } from '../../../core/archive/sql.ts';
import { typePull } from '../../../core/archive/typed-store.ts';
import { voidPull } from '../../../core/archive/void-store.ts';
import { type ReadoutProfile, readoutProfile } from '../../../core/contract/readout-profile.ts';
import { type PullDocument, pullDocument } from '../../../core/exchange/export/pull-document.ts';
import { instrumentsBeforeStart } from '../../../core/instruments/pull-instruments.ts';
import { CALIBRATION, CHANNEL, TODAY, calibrate, enter } from '../archive/entered-instruments.ts';
import {
  END,
  SPECIMEN,
  WALL_MS,
  batch,
  newPull,
  openArchive,
  scratchFolder,
} from '../archive/made-archive.ts';
import { ran } from '../command-line/in-process.ts';

interface Place {
  readonly at: (document: PullDocument) => unknown;
  /** Rows of the archive below that are of neither of its two pulls. */
  readonly but?: string;
}

/** Where in the document the rows of each table stand. */
const PLACES: Readonly<Record<string, Place>> = {
  fact: { at: (d) => [Object.keys(d.archive.facts), d.archive.facts] },
  laboratory: { at: (d) => d.archive.laboratory },
  specimen: { at: (d) => d.specimens, but: "name = 'first one'" },
  measurement: {
    at: (d) => d.specimens,
    but: "specimen_id IN (SELECT specimen_id FROM specimen WHERE name = 'first one')",
  },
  readout_profile: { at: (d) => [d.pull.profile, d.pull.second, d.record] },
  pull: { at: (d) => [d.pull, d.record] },
  pull_end: { at: (d) => [d.pull, d.record.ended, d.raw] },
  raw_block: { at: (d) => [d.pull, d.raw] },
  reading_block: { at: (d) => d.readings },
  mark: { at: (d) => d.pull.marks },
  gap: { at: (d) => d.pull.gaps },
  gap_end: { at: (d) => d.pull.gaps },
  zero: { at: (d) => d.record.zeros },
  act: { at: (d) => d.pull.acts },
  fracture_note: { at: (d) => d.pull.fractureNotes },
  audit: {
    at: (d) => d.audit,
    but: "subject IN ('archive', 'readout_profile', 'laboratory', 'person') OR detail_json LIKE '%first one%' OR subject = 'set_member'",
  },
  specimen_set: { at: (d) => d.sets },
  set_statement: { at: (d) => d.sets.map(({ statements }) => statements) },
  set_member: { at: (d) => d.sets, but: 'retest_of IS NULL' },
  set_member_void: { at: (d) => d.sets.map(({ member }) => member.voided) },
  verdict_override: { at: (d) => d.sets.map(({ member }) => member.overrides) },
  certificate: { at: (d) => d.certificates },
  certificate_result: { at: (d) => d.certificates.map(({ result }) => result) },
  signature: { at: (d) => d.certificates.map(({ signatures }) => signatures) },
  person: { at: (d) => d.certificates.map(({ signatures }) => signatures.map(({ signer }) => signer)) },
  evaluation: { at: (d) => d.evaluations },
  stated_day: { at: (d) => d.pull.statedDays },
  pull_void: { at: (d) => d.pull.voided },
  photo: { at: (d) => d.photos },
  photo_withdrawal: { at: (d) => d.photos },
  typed_pull: { at: (d) => d.pull.typed },
  instrument: { at: (d) => d.instruments },
  instrument_statement: { at: (d) => d.instruments.map(({ statements }) => statements) },
  calibration: { at: (d) => d.instruments.map(({ calibrations }) => calibrations) },
  pull_instruments: { at: (d) => d.pull.instruments },
  pull_instrument: { at: (d) => d.instruments },
  pull_origin: { at: (d) => d.record.origin },
  second_instrument: { at: (d) => [d.pull.second, d.record.secondProfile] },
  two_instruments_end: { at: (d) => d.pull.second?.closed },
};

const MADE_OF_OTHERS = 'made of what stands elsewhere, for searching';
/** Tables that are of no pull. */
const NOT_THERE: Readonly<Record<string, string>> = {
  saved_search: 'a search that a person wants again, nothing of a pull',
  thumbnail: MADE_OF_OTHERS,
};
const ofSearch = (table: string): boolean => table.startsWith('search_');

const PACKED = 'how it is packed; what it holds stands there unpacked';
const ROW = 'number of a row, which only the archive itself counts by';
const COLUMNS_NOT_THERE: Readonly<Record<string, string>> = {
  'measurement.field': 'the names of the fields of the specimen, in which the texts stand',
  'measurement.place': 'the place in the list there',
  'readout_profile.profile_id': ROW,
  'readout_profile.offered': 'whether it is offered for other pulls',
  'pull.profile_id': ROW,
  'raw_block.first_chunk': PACKED,
  'raw_block.byte_count': PACKED,
  'raw_block.table_packing': PACKED,
  'raw_block.chunk_table': PACKED,
  'raw_block.packing': PACKED,
  'raw_block.body': PACKED,
  'raw_block.sha256': PACKED,
  'reading_block.pull_id': 'the pull of the document',
  'reading_block.packing': PACKED,
  'reading_block.body': PACKED,
  'mark.mark_id': ROW,
  'mark.pull_id': 'the pull of the document',
  'gap.pull_id': 'the pull of the document',
  'zero.zero_id': ROW,
  'zero.pull_id': 'the pull of the document',
  'act.act_id': ROW,
  'act.pull_id': 'the pull of the document',
  'fracture_note.pull_id': 'the pull of the document',
  'laboratory.laboratory_id': ROW,
  'certificate.certificate_id': ROW,
  'certificate.utc_offset_minutes': 'in the moment of issue',
  'certificate_result.certificate_result_id': ROW,
  'certificate_result.certificate_id': ROW,
  'certificate_result.pull_id': 'the pull of the document',
  'signature.certificate_id': ROW,
  'set_member_void.set_member_id': 'stands one step above',
  'set_statement.set_id': 'stands one step above',
  'verdict_override.set_member_id': 'stands one step above',
  'person.pin_salt': 'a PIN is nobody else’s business',
  'person.pin_hash': 'a PIN is nobody else’s business',
  'evaluation.pull_id': 'the pull of the document',
  'stated_day.pull_id': 'the pull of the document',
  'pull_void.pull_id': 'the pull of the document',
  'photo.body': 'base64; compared below',
  'typed_pull.pull_id': 'the pull of the document',
  'instrument_statement.instrument_id': 'stands one step above',
  'calibration.instrument_id': 'stands one step above',
  'pull_instruments.pull_id': 'the pull of the document',
  'pull_instrument.pull_instrument_id': ROW,
  'pull_instrument.pull_id': 'the pull of the document',
  'pull_origin.pull_id': 'the pull of the document',
  'second_instrument.pull_id': 'the pull of the document',
  'second_instrument.profile_id': ROW,
  'two_instruments_end.pull_id': 'the pull of the document',
};

const JPEG = readFileSync(new URL('../../../fixtures/photos/grey-ramp.jpg', import.meta.url));
const oneChannel = (name: string, field: string, quantity: string, unit: string): ReadoutProfile =>
  readoutProfile.parse({
    schema: 'gaugemark.readout-profile/1',
    name,
    format: { kind: 'delimited', delimiter: ',', fields: [field] },
    channels: [{ field, quantity, unit: { kind: 'fixed', unit } }],
  });
const LOAD = oneChannel('load readout', 'load', 'force', 'lbf');
const DIAL = oneChannel('dial', 'dial', 'extension', 'mm');
const FORM = {
  name: 'Bridge post 12',
  purpose: 'procedure-qualification',
  rulePackId: 'asme-ix',
  baseMetals: [{ designation: 'SA-36', minimum: '58 ksi', heat: 'H-31', lot: 'L-4' }],
  filler: { classification: 'E7018', lot: 'F-77', heat: 'FH-2' },
  welder: 'W. Elder',
  documents: [{ kind: 'wps', number: 'WPS-9' }],
  specimenType: 'transverse-flat',
  fewerReason: 'only one coupon',
  requiredCount: 1,
  notes: 'notes of the set',
};

/** A recorded pull of which everything is said that can be, and a typed one. */
function made(archive: Archive): void {
  const { connection } = archive;
  const keeping = { wallMs: WALL_MS + 5_000, programVersion: '9.9.9' };
  saveLaboratory(connection, { name: 'Laboratory of the yard', lines: ['Quay 4'] }, WALL_MS + 1);
  const first = archive.saveSpecimen({
    specimen: { ...SPECIMEN, id: 'W-17', notes: 'as cut' },
    by: 'Sawyer',
  });
  const instrumentId = enter(archive);
  const wrong = calibrate(archive, instrumentId, {
    form: { ...CALIBRATION, certificateNumber: 'K-71' },
    by: 'Clerk',
  });
  calibrate(archive, instrumentId, { supersedes: wrong, reason: 'digits turned round' });
  const instruments = {
    ...instrumentsBeforeStart({
      chosen: chosenInstruments(connection, [instrumentId]),
      profile: LOAD,
      source: { kind: 'serial', path: '/dev/ttyTEST' },
      on: TODAY,
    }),
    confirmed: 'not-asked' as const,
  };
  const statementId = Number(
    connection.prepare('SELECT instrument_statement_id FROM instrument_statement').pluck().get(),
  );
  enter(archive, {
    form: { ...CHANNEL, notes: 'new cable' },
    supersedes: statementId,
    reason: 'cable',
    by: 'Fitter',
  });
  const pullId = archive.beginPull(
    newPull(first, {
      operator: 'Pulloperator',
      profile: LOAD,
      plannedForceN: 123_456,
      plannedExtensionMm: 7.25,
      second: {
        source: { kind: 'serial', path: '/dev/ttyDIAL' },
        sourceWords: 'the dial',
        profile: DIAL,
        ageMaxMs: 321,
      },
      instruments,
    }),
  );
  const count = 40;
  archive.appendBatch(
    batch(pullId, {
      chunks: Array.from({ length: 2 * count }, (_, i) => ({
        chunkSeq: i,
        opening: i % 2,
        elapsedUs: 500 * i,
        bytes: Buffer.from(`${String(i)}\r\n`),
      })),
      readings: Array.from({ length: count }, (_, i) => ({
        chunkSeq: 2 * i,
        lineIndex: 0,
        status: 'ok',
        channels: [
          { mantissa: 2 * i, exponent: 0, unit: 'lbf', status: 'ok' },
          { mantissa: 2 * i + 1, exponent: 0, unit: 'mm', status: 'ok' },
        ],
      })),
      marks: [{ kind: 'trigger', seq: 3, elapsedUs: 3_210, cause: 'person', words: 'started by hand' }],
      gaps: [
        {
          cause: 'silence',
          beforeSeq: 20,
          fromUs: 20_001,
          toUs: 20_777,
          words: 'dial unplugged',
          instrument: 1,
        },
      ],
      acts: [
        {
          kind: 'calibration-known',
          elapsedUs: 1_234,
          wallMs: WALL_MS + 77,
          by: 'Actor',
          words: 'known before',
        },
      ],
      zeros: [
        { key: 'load', value: '-1113/500', seq: 1 },
        { key: 'load', value: '-1114/500', seq: 2 },
      ],
    }),
  );
  archive.closePull(batch(pullId, { firstSeq: count }), {
    ...END,
    misfitCount: { malformed: 17 },
    skew: { joined: 39, alone: 1, meanMs: 0.5, longestMs: 0.75 },
  });
  archive.saveSpecimen({
    specimen: { ...SPECIMEN, id: 'W-17', notes: 'as measured again' },
    supersedes: first,
    reason: 'calliper was off',
  });
  const note = archive.noteFracture({
    pullId,
    note: { place: 'weld-metal', remarks: 'porosity' },
    by: 'Looker',
  });
  archive.noteFracture({
    pullId,
    note: { place: 'base-metal' },
    supersedes: note,
    reason: 'seen under glass',
  });
  insert(connection, 'pull_origin', {
    pull_id: pullId,
    archive_identity: 'the archive of elsewhere',
    pull_id_there: 4_711,
    taken_wall_ms: WALL_MS + 99,
  });
  // Only of an imported pull it can be stated.
  const before = insert(connection, 'stated_day', {
    ...{ pull_id: pullId, pulled_on: '2019-05-14', said_by: 'Dater', wall_ms: WALL_MS + 98 },
  });
  insert(connection, 'stated_day', {
    ...{ pull_id: pullId, pulled_on: '2018-05-14T10:30', said_by: 'Second dater', wall_ms: WALL_MS + 97 },
    ...{ supersedes: before, reason: 'year misread' },
  });
  const values = [{ symbol: 'Rm', value: 412.5, unit: 'MPa' as const }];
  const evaluation = {
    pullId,
    specimenId: first,
    options: {},
    sources: [{ what: 'blank run', name: 'blank-run-7.csv', sha256: 'ab'.repeat(32) }],
    values,
    methodVersion: 'm-1',
    supersedes: null,
    reason: 'grips were not zeroed',
    by: 'Evaluator',
  };
  const supersedes = keepEvaluation(connection, evaluation, keeping);
  keepEvaluation(connection, { ...evaluation, supersedes, reason: 'and again' }, keeping);
  const photo = addPhoto(
    connection,
    { pullId, bytes: JPEG, fileName: 'halves.jpg', caption: 'both halves', by: 'Photographer' },
    WALL_MS + 3,
  );
  const { photoId } = addPhoto(
    connection,
    {
      ...{ pullId, bytes: Buffer.concat([JPEG, Buffer.from([0])]), fileName: 'sharper.jpg' },
      ...{ supersedes: photo.photoId, reason: 'sharper' },
    },
    WALL_MS + 4,
  );
  withdrawPhoto(connection, { photoId, reason: 'of another weld', by: 'Withdrawer' }, WALL_MS + 6);
  const packs = { ...keeping, packs: builtInPacks() };
  const setId = saveSet(connection, { form: { ...FORM, notes: 'notes of before' } }, packs);
  saveSet(connection, { form: FORM, setId, by: 'Setsayer', reason: 'heat was wrong' }, packs);
  const other = archive.saveSpecimen({ specimen: { ...SPECIMEN, id: 'first one' } });
  const original = joinSet(connection, { setId, specimenId: other }, WALL_MS + 7);
  const setMemberId = joinSet(
    connection,
    { setId, specimenId: first, by: 'Joiner', retestOf: original, reason: 'slipped in the grips' },
    WALL_MS + 8,
  );
  for (const [to, person] of [
    ['accept', 'Overruler'],
    ['reject', 'Second overruler'],
  ] as const)
    overrideMember(
      connection,
      { setMemberId, to, person, reason: `because ${person} said so`, utcOffsetMinutes: 60 },
      WALL_MS + 9,
    );
  const personId = savePerson(
    connection,
    {
      ...{ name: 'Ada Signer', sign: 'AS', roles: ['inspector'], retired: false },
      pin: { salt: Buffer.from('saltsalt'), hash: Buffer.from('hashhash') },
    },
    WALL_MS + 10,
  );
  const contentSha256 = createHash('sha256').update('content').digest();
  const { number } = issueCertificate(connection, {
    about: { setId, setMemberId },
    contentSha256,
    language: 'es',
    utcOffsetMinutes: 60,
    results: [{ pullId, specimenId: first, options: {}, values, methodVersion: 'm-of-certificate' }],
    ...keeping,
  });
  signCertificate(
    connection,
    {
      ...{ number, contentSha256, printedName: 'A. Signer', meaning: 'reviewed by', personId },
      ...{ byPin: true, utcOffsetMinutes: 60 },
    },
    WALL_MS + 11,
  );
  voidMember(connection, { setMemberId, by: 'Membervoider', reason: 'burnt' }, WALL_MS + 12);
  voidPull(connection, { pullId, reason: 'wrong coupon', by: 'Voider', utcOffsetMinutes: 60 }, WALL_MS + 13);
  typePull(
    { connection, programVersion: '9.9.9' },
    {
      ...{ specimenId: first, operator: null, startedWallMs: WALL_MS + 14, startedUtcOffsetMinutes: 120 },
      ...{ startedMonotonicUs: 9, boot: 'boot-2', instruments: null, typed: { load: '46.5 kN' } },
    },
  );
}

/** Every value in it, as text; of a moment with its offset the milliseconds too. */
function leaves(value: unknown, into = new Set<string>()): Set<string> {
  if (typeof value === 'object' && value !== null) for (const its of Object.values(value)) leaves(its, into);
  else if (typeof value === 'boolean') into.add(value ? '1' : '0').add(String(value));
  else if (typeof value === 'number') into.add(String(value));
  else if (typeof value === 'string') {
    into.add(value);
    if (/^\d{4}-\d\d-\d\dT/.test(value)) into.add(String(Date.parse(value)));
  }
  return into;
}

/** What of a column must be found. */
function textsOf(column: string, value: unknown): string[] {
  if (value instanceof Uint8Array) return [Buffer.from(value).toString('hex')];
  const isJson = column.endsWith('_json') && column !== 'detail_json';
  return isJson && typeof value === 'string'
    ? [...leaves(JSON.parse(value))]
    : [...leaves(value)].slice(0, 1);
}

it('has every table and column of the archive, or says why not', async () => {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  made(archive);
  const texts: string[] = [];
  archive.close();
  for (const pull of ['1', '2']) {
    const to = join(path, '..', `${pull}.json`);
    const { code, err } = await ran('archive', 'export', pull, '--archive', path, '--out', to);
    expect(code, err).toBe(0);
    texts.push(readFileSync(to, 'utf8'));
  }
  const schema = new URL('../../../fixtures/schemas/pull-4.schema.json', import.meta.url);
  const validate = new Ajv2020({ strict: false, validateFormats: false, allErrors: true }).compile(
    JSON.parse(readFileSync(schema, 'utf8')) as object,
  );
  for (const text of texts) {
    validate(JSON.parse(text));
    expect(validate.errors ?? []).toEqual([]);
  }
  const documents = texts.map((text) => pullDocument.parse(JSON.parse(text)));
  const { connection } = openArchive(path);
  const tables = connection
    .prepare(
      `SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY 1`,
    )
    .pluck()
    .all()
    .map(String)
    .filter((table) => !ofSearch(table) && !TABLES_OF_NO_FORM.includes(table));
  const decided = [...Object.keys(PLACES), ...Object.keys(NOT_THERE)];
  expect(tables.filter((table) => !decided.includes(table))).toEqual([]);
  expect(decided.filter((table) => !tables.includes(table))).toEqual([]);

  const missing: string[] = [];
  for (const [table, { at, but }] of Object.entries(PLACES)) {
    const told = leaves(documents.map(at));
    const rows = connection
      .prepare(`SELECT * FROM ${table}${but === undefined ? '' : ` WHERE NOT (${but})`}`)
      .all() as Record<string, unknown>[];
    if (rows.length === 0) missing.push(`${table}: the archive of this test has no row of it`);
    for (const row of rows)
      for (const [column, value] of Object.entries(row)) {
        const name = `${table}.${column}`;
        if (name in COLUMNS_NOT_THERE) continue;
        for (const text of textsOf(column, value)) if (!told.has(text)) missing.push(`${name}: ${text}`);
      }
  }
  expect(missing).toEqual([]);
  const columns = Object.keys(PLACES).flatMap((table) =>
    connection
      .prepare('SELECT name FROM pragma_table_info(?)')
      .pluck()
      .all(table)
      .map((column) => `${table}.${String(column)}`),
  );
  expect(Object.keys(COLUMNS_NOT_THERE).filter((column) => !columns.includes(column))).toEqual([]);
  connection.close();

  const [first] = documents;
  // The bytes themselves, and the chain by its own description.
  expect(first?.photos.map(({ sha256 }) => sha256)).toEqual(
    first?.photos.map(({ base64 }) =>
      createHash('sha256')
        .update(Buffer.from(base64 ?? '', 'base64'))
        .digest('hex'),
    ),
  );
  const raw = Buffer.concat((first?.raw.chunks ?? []).map(({ base64 }) => Buffer.from(base64, 'base64')));
  expect(createHash('sha256').update(raw).digest('hex')).toBe(first?.raw.sha256);
  expect(first?.audit.length).toBeGreaterThan(20);
  for (const { previousHash, hash, wallMs, what, subject, subjectId, detail } of first?.audit ?? [])
    expect(
      createHash('sha256')
        .update(Buffer.from(previousHash, 'hex'))
        .update(JSON.stringify([wallMs, what, subject, subjectId, detail]), 'utf8')
        .digest('hex'),
    ).toBe(hash);
  for (const secret of ['saltsalt', 'hashhash'])
    for (const form of ['utf8', 'hex', 'base64'] as const)
      expect(texts.join('')).not.toContain(Buffer.from(secret).toString(form));
});
