/** One search field over everything written: every text column of the archive is searched, or it is said here why not. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { issueCertificate } from '../../../core/archive/certificate-store.ts';
import { keepEvaluation } from '../../../core/archive/evaluation-store.ts';
import { chosenInstruments } from '../../../core/archive/instrument-store.ts';
import { joinSet, overrideMember, voidMember } from '../../../core/archive/member-store.ts';
import { addPhoto, withdrawPhoto } from '../../../core/archive/photo-store.ts';
import { WRITTEN } from '../../../core/archive/search/written-words.ts';
import { foundPullIds } from '../../../core/archive/search/search.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { signCertificate } from '../../../core/archive/signature-store.ts';
import { insert } from '../../../core/archive/sql.ts';
import { voidPull } from '../../../core/archive/void-store.ts';
import { NEWEST_FIRST } from '../../../core/contract/search-requests.ts';
import { instrumentsBeforeStart } from '../../../core/instruments/pull-instruments.ts';
import { CALIBRATION, CHANNEL, TODAY, calibrate, enter } from './entered-instruments.ts';
import {
  END,
  PROFILE,
  SPECIMEN,
  WALL_MS,
  batch,
  newPull,
  openArchive,
  scratchFolder,
} from './made-archive.ts';

const PROGRAM = 'words of the program, the same in every pull where it happened';
const NUMBERS = 'numbers and their units: what is worked out of them is shown and filtered by';
const REGISTER = 'of no pull; as it stood at the start of a pull it is found there (pull_instruments)';
const VERSION = 'which program wrote it: asked of the row, never looked for';
const KEYS = 'a key of the program';

/** Text columns that are not searched, and why. */
const NOT_SEARCHED: Readonly<Record<string, string>> = {
  'fact.name': KEYS,
  'fact.value': 'of the archive as a whole',
  'specimen.program_version': VERSION,
  'measurement.field': KEYS,
  'measurement.text': NUMBERS,
  'readout_profile.form_json': 'how the lines are read; the name of the profile is searched',
  'pull.source_words': 'which port or file it was; of a file the name is searched',
  'pull.rules_json': NUMBERS,
  'pull.program_version': VERSION,
  'pull.boot': KEYS,
  'pull_end.misfit_json': NUMBERS,
  'mark.kind': PROGRAM,
  'mark.cause': PROGRAM,
  'mark.words': PROGRAM,
  'gap.cause': 'there is a filter for it: interrupted',
  'gap.words': PROGRAM,
  'zero.channel_key': KEYS,
  'zero.value': NUMBERS,
  'act.kind': PROGRAM,
  'act.words': PROGRAM,
  'audit.what': 'said once more of what is searched where it stands',
  'audit.subject': 'the same',
  'audit.detail_json': 'the same',
  'set_statement.program_version': VERSION,
  'verdict_override.outcome': 'there is a filter for it: verdict',
  'certificate.program_version': VERSION,
  'certificate.language': 'of the paper, not of the pull',
  'laboratory.name': 'who issues all certificates here: of no pull more than of any other',
  'laboratory.lines_json': 'the same',
  'evaluation.values_json': NUMBERS,
  'evaluation.method_version': VERSION,
  'evaluation.program_version': VERSION,
  'photo.media_type': KEYS,
  'person.name': 'of no pull; whoever did something is found by the name that stands there',
  'person.sign': 'the same',
  'person.roles_json': 'the same',
  'person.reason': 'the same',
  'certificate_result.options_json': 'as in the evaluation that it repeats',
  'certificate_result.values_json': NUMBERS,
  'certificate_result.method_version': VERSION,
  'typed_pull.typed_json': NUMBERS,
  'instrument_statement.kind': REGISTER,
  'instrument_statement.name': REGISTER,
  'instrument_statement.form_json': REGISTER,
  'instrument_statement.said_by': REGISTER,
  'instrument_statement.reason': REGISTER,
  'calibration.certificate_number': REGISTER,
  'calibration.calibrated_on': REGISTER,
  'calibration.due_on': REGISTER,
  'calibration.form_json': REGISTER,
  'calibration.said_by': REGISTER,
  'calibration.reason': REGISTER,
  'pull_instrument.state': 'told before the start and in the verdict; there is a filter: questionable',
  'saved_search.name': 'a search, nothing that is found',
  'saved_search.query_json': 'the same',
  'pull_origin.archive_identity': KEYS,
  'second_instrument.source_json': 'which port it was; the name of its profile is searched',
  'second_instrument.source_words': 'the same',
  'two_instruments_end.records_json': NUMBERS,
  'two_instruments_end.skew_json': NUMBERS,
};

const textColumns = (archive: Archive): string[] =>
  archive.connection
    .prepare(
      `SELECT t.name || '.' || c.name FROM pragma_table_list t JOIN pragma_table_info(t.name) c
       WHERE t.schema = 'main' AND t.type = 'table' AND t.name NOT LIKE 'sqlite_%' AND t.name NOT LIKE 'search_%'
         AND c.type = 'TEXT' ORDER BY 1`,
    )
    .pluck()
    .all()
    .map(String);

test('every text column of the archive is searched or says why not', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const decided = [...WRITTEN, ...Object.keys(NOT_SEARCHED)];
  expect(textColumns(archive).filter((column) => !decided.includes(column))).toEqual([]);
  expect(decided.filter((column) => !textColumns(archive).includes(column))).toEqual([]);
  expect(WRITTEN.filter((column) => column in NOT_SEARCHED)).toEqual([]);
});

const FORM = {
  name: 'Newname',
  purpose: 'procedure-qualification',
  rulePackId: 'asme-ix',
  baseMetals: [{ designation: 'SA-36', minimum: '58 ksi', heat: 'Newheat' }],
  specimenType: 'transverse-flat',
  fewerReason: 'Fewerreason',
  requiredCount: 1,
  notes: 'Newsetnotes',
};

/** In which column each word stands that the archive below is made with. */
const WORDS: readonly (readonly [column: string, word: string])[] = [
  ['specimen.name', 'Oldspecimen'],
  ['specimen.name', 'Newspecimen'],
  ['specimen.form_json', 'Oldnotes'],
  ['specimen.form_json', 'Newnotes'],
  ['specimen.saved_by', 'Sawyer'],
  ['specimen.reason', 'Specimenreason'],
  ['readout_profile.name', PROFILE.name],
  ['pull.source_json', 'given-again.txt'],
  ['pull.operator', 'Pulloperator'],
  ['act.done_by', 'Actor'],
  ['stated_day.pulled_on', '2019-05-14'],
  ['stated_day.said_by', 'Dater'],
  ['stated_day.reason', 'Dayreason'],
  ['pull_void.reason', 'Voidreason'],
  ['pull_void.voided_by', 'Voider'],
  ['fracture_note.note_json', 'Oldremarks'],
  ['fracture_note.note_json', 'Newappearance'],
  ['fracture_note.noted_by', 'Oldnoter'],
  ['fracture_note.reason', 'Notereason'],
  ['evaluation.reason', 'Firstreason'],
  ['evaluation.reason', 'Secondreason'],
  ['evaluation.kept_by', 'Evaluator'],
  ['evaluation.sources_json', 'blank-run-7.csv'],
  ['evaluation.options_json', 'Anotherreadout'],
  ['photo.file_name', 'halves-of-9.jpg'],
  ['photo.caption', 'Photocaption'],
  ['photo.added_by', 'Photographer'],
  ['photo.reason', 'Photoreason'],
  ['photo_withdrawal.reason', 'Withdrawalreason'],
  ['photo_withdrawal.withdrawn_by', 'Withdrawer'],
  ['pull_instruments.instruments_json', CHANNEL.name],
  ['pull_instruments.instruments_json', CHANNEL.serialNumber],
  ['pull_instruments.instruments_json', CALIBRATION.certificateNumber],
  ['set_statement.name', 'Oldname'],
  ['set_statement.name', FORM.name],
  ['set_statement.set_json', 'Oldsetnotes'],
  ['set_statement.set_json', 'Oldheat'],
  ['set_statement.set_json', FORM.notes],
  ['set_statement.set_json', FORM.fewerReason],
  ['set_statement.saved_by', 'Setsayer'],
  ['set_statement.reason', 'Setreason'],
  ['set_member.retest_reason', 'Retestreason'],
  ['set_member.joined_by', 'Joiner'],
  ['set_member_void.reason', 'Membervoidreason'],
  ['set_member_void.voided_by', 'Membervoider'],
  ['verdict_override.person', 'Overruler'],
  ['verdict_override.reason', 'Overridereason'],
  ['signature.printed_name', 'Signer'],
  ['signature.meaning', 'reviewed'],
];

const JPEG = readFileSync(new URL('../../../fixtures/photos/grey-ramp.jpg', import.meta.url));

/** Everything is said of pull 2; pull 1 is another, of which nothing of it may be found. */
function made(archive: Archive): number {
  archive.closePull(
    batch(
      archive.beginPull(
        newPull(archive.saveSpecimen({ specimen: { ...SPECIMEN, id: 'other' } }), {
          profile: { ...PROFILE, name: 'unlike' },
        }),
      ),
    ),
    END,
  );
  const first = archive.saveSpecimen({
    specimen: { ...SPECIMEN, id: 'Oldspecimen', notes: 'Oldnotes' },
    by: 'Sawyer',
  });
  const instrumentId = enter(archive);
  calibrate(archive, instrumentId);
  const instruments = archive.sets((connection) => ({
    ...instrumentsBeforeStart({
      chosen: chosenInstruments(connection, [instrumentId]),
      profile: PROFILE,
      source: { kind: 'serial', path: '/dev/ttyTEST' },
      on: TODAY,
    }),
    confirmed: 'not-asked' as const,
  }));
  const pullId = archive.beginPull(
    newPull(first, {
      operator: 'Pulloperator',
      source: { kind: 'replay', file: '/somewhere/given-again.txt' },
      instruments,
    }),
  );
  const act = {
    kind: 'calibration-known',
    elapsedUs: 1,
    wallMs: WALL_MS,
    by: 'Actor',
    words: 'known before the start',
  };
  archive.appendBatch(batch(pullId, { acts: [act] }));
  expect(
    archive.check({}).lines.find((line) => line.name === 'search'),
    'while it is open',
  ).toMatchObject({
    ok: true,
  });
  archive.closePull(batch(pullId), END);
  archive.saveSpecimen({
    specimen: { ...SPECIMEN, id: 'Newspecimen', notes: 'Newnotes' },
    supersedes: first,
    reason: 'Specimenreason',
  });
  const note = archive.noteFracture({
    pullId,
    note: { place: 'weld-metal', remarks: 'Oldremarks' },
    by: 'Oldnoter',
  });
  archive.noteFracture({
    pullId,
    note: { place: 'base-metal', appearance: 'Newappearance' },
    supersedes: note,
    reason: 'Notereason',
  });
  archive.sets((connection, keeping) => {
    // Only of an imported pull it can be stated.
    const before = insert(connection, 'stated_day', {
      ...{ pull_id: pullId, pulled_on: '2019-05-14', said_by: 'Dater', wall_ms: WALL_MS },
    });
    insert(connection, 'stated_day', {
      ...{ pull_id: pullId, pulled_on: '2018-05-14', wall_ms: WALL_MS },
      ...{ supersedes: before, reason: 'Dayreason' },
    });
    const evaluation = {
      pullId,
      specimenId: first,
      options: { lineFormat: { ...PROFILE, name: 'Anotherreadout' } },
      sources: [{ what: 'blank run', name: 'blank-run-7.csv', sha256: 'ab'.repeat(32) }],
      values: [],
      methodVersion: '1',
      supersedes: null,
      reason: 'Firstreason',
      by: 'Evaluator',
    };
    const supersedes = keepEvaluation(connection, evaluation, keeping);
    keepEvaluation(
      connection,
      { ...evaluation, options: {}, sources: [], by: undefined, supersedes, reason: 'Secondreason' },
      keeping,
    );
    const photo = addPhoto(
      connection,
      { pullId, bytes: JPEG, fileName: 'halves-of-9.jpg', caption: 'Photocaption', by: 'Photographer' },
      WALL_MS,
    );
    const other = JPEG.subarray();
    const after = addPhoto(
      connection,
      {
        pullId,
        bytes: Buffer.concat([other, Buffer.from([0])]),
        fileName: 'x.jpg',
        supersedes: photo.photoId,
        reason: 'Photoreason',
      },
      WALL_MS,
    );
    withdrawPhoto(
      connection,
      { photoId: after.photoId, reason: 'Withdrawalreason', by: 'Withdrawer' },
      WALL_MS,
    );
    const packs = { ...keeping, packs: builtInPacks() };
    const setId = saveSet(
      connection,
      {
        form: {
          ...FORM,
          name: 'Oldname',
          notes: 'Oldsetnotes',
          baseMetals: [{ designation: 'SA-36', minimum: '58 ksi', heat: 'Oldheat' }],
        },
      },
      packs,
    );
    saveSet(connection, { form: FORM, setId, by: 'Setsayer', reason: 'Setreason' }, packs);
    const original = joinSet(
      connection,
      { setId, specimenId: archive.saveSpecimen({ specimen: { ...SPECIMEN, id: 'first one' } }) },
      WALL_MS,
    );
    const setMemberId = joinSet(
      connection,
      { setId, specimenId: first, by: 'Joiner', retestOf: original, reason: 'Retestreason' },
      WALL_MS,
    );
    overrideMember(
      connection,
      { setMemberId, to: 'accept', person: 'Overruler', reason: 'Overridereason', utcOffsetMinutes: 0 },
      WALL_MS,
    );
    const { number } = issueCertificate(connection, {
      about: { setId },
      contentSha256: new Uint8Array(32),
      utcOffsetMinutes: 0,
      results: [],
      ...keeping,
    });
    signCertificate(
      connection,
      {
        number,
        contentSha256: new Uint8Array(32),
        printedName: 'Signer',
        meaning: 'reviewed by',
        personId: null,
        byPin: false,
        utcOffsetMinutes: 0,
      },
      WALL_MS,
    );
    voidMember(connection, { setMemberId, by: 'Membervoider', reason: 'Membervoidreason' }, WALL_MS);
    voidPull(connection, { pullId, reason: 'Voidreason', by: 'Voider', utcOffsetMinutes: 0 }, WALL_MS);
  });
  return pullId;
}

test('what was written in any of them finds the pull, as soon as it is written and in an index made anew', () => {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  const pullId = made(archive);
  const number = String(archive.connection.prepare('SELECT number FROM certificate').pluck().get());
  const words = [...WORDS, ['certificate.number', number] as const];
  const lost = (from: Archive): string[] =>
    words
      .filter(([, word]) => {
        const found = from.sets((connection) => [
          ...foundPullIds(connection, { query: { text: word }, order: NEWEST_FIRST }),
        ]);
        return found.length !== 1 || found[0] !== pullId;
      })
      .map(([column, word]) => `${column}: ${word}`);
  expect(lost(archive)).toEqual([]);
  expect(new Set(words.map(([column]) => column)), 'each column has its word here').toEqual(new Set(WRITTEN));
  expect(archive.check({}).lines.find((line) => line.name === 'search')).toMatchObject({ ok: true });
  // As a program of another form leaves it.
  archive.connection.exec('UPDATE search_form SET form = form - 1');
  archive.close();
  expect(lost(openArchive(path))).toEqual([]);
});
