/** What the recorder asks of the archive: a list of functions that run in the archive's own thread. */
import { packsWith } from '../../core/acceptance/packs.ts';
import type { RulePack } from '../../core/acceptance/read-rule-pack.ts';
import type { Archive } from '../../core/archive/archive.ts';
import type { PackedBatch } from '../../core/archive/pack-batch.ts';
import type { Batch, NewPull, PullEnd } from '../../core/archive/batch.ts';
import type { RawChunk } from '../../core/archive/codec/raw-block.ts';
import {
  type IssueCertificate,
  type Laboratory,
  certificatesOn,
  certifiedValuesOf,
  issueCertificate,
  languageOfCertificate,
  lastIssued,
  lastLanguage,
  laboratory,
  saveLaboratory,
} from '../../core/archive/certificate-store.ts';
import {
  type JoinSet,
  type OverrideMember,
  type SpecimenOrPull,
  type VoidMember,
  joinSet,
  membershipsOf,
  pullsThatCount,
  overrideMember,
  overridesOf,
  voidMember,
} from '../../core/archive/member-store.ts';
import {
  type KeepEvaluation,
  evaluationHistory,
  keepEvaluation,
  standingEvaluation,
} from '../../core/archive/evaluation-store.ts';
import {
  type CorrectSpecimen,
  correctSpecimen,
  pullsOfSpecimen,
} from '../../core/archive/correct-specimen.ts';
import { firstStated } from '../../core/archive/first-stated.ts';
import { knownValues } from '../../core/archive/known-values.ts';
import { type StatedNow, keepFirstStated } from '../../core/archive/keep-first-stated.ts';
import { rawSha256 } from '../../core/archive/raw-hash.ts';
import {
  type AddPhoto,
  type WithdrawPhoto,
  addPhoto,
  getPhoto,
  photosOf,
  withdrawPhoto,
} from '../../core/archive/photo-store.ts';
import {
  type KeepCalibration,
  type SaveInstrument,
  chosenInstruments,
  instrumentHistory,
  keepCalibration,
  listInstruments,
  saveInstrument,
} from '../../core/archive/instrument-store.ts';
import { type TypePull, typePull } from '../../core/archive/typed-store.ts';
import {
  type SavePerson,
  people,
  personNamed,
  personOf,
  savePerson,
} from '../../core/archive/people-store.ts';
import { type SignCertificate, signCertificate, signaturesOf } from '../../core/archive/signature-store.ts';
import { copyInSteps } from '../../core/archive/backup-in-steps.ts';
import { planRestoreInto } from '../../core/archive/restore-backup.ts';
import { type StateDay, stateDay } from '../../core/archive/stated-day-store.ts';
import { type VoidPull, voidPull } from '../../core/archive/void-store.ts';
import { type SaveSet, getSet, listSets, saveSet } from '../../core/archive/set-store.ts';
import type { NoteFracture } from '../../core/archive/fracture-store.ts';
import type { ColumnsRequest } from '../../core/archive/pull-columns.ts';
import type { PageRequest } from '../../core/archive/specimen-reader.ts';
import type { SaveSpecimen } from '../../core/archive/specimen-store.ts';
import type { Certified } from '../../core/contract/certificate-requests.ts';
import type { RequestOf } from '../../core/contract/index.ts';
import type { CsvFormName } from '../../core/exchange/export/csv-form.ts';
import type { ImportChoices } from '../../core/exchange/import/propose-import.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { EvaluationOptions } from '../../core/results/evaluation.ts';
import type { PaperLanguage } from '../../core/words/paper-words.ts';
import { checkInSteps } from './check-in-steps.ts';
import { type ImportFile, importFile, previewImport, previewPlan } from './import-file.ts';
import { type LongWork, UNWATCHED } from './long-work.ts';
import { mergeFrom } from './merge-from.ts';
import { readAnew } from './read-anew.ts';
import { searchElsewhere } from './search-elsewhere.ts';
import { searchCalls } from './search-calls.ts';
import { toldPlan } from './split-plan.ts';
import { exportCsv } from './export-csv.ts';
import { type JudgedAndEvaluated, exportJson } from './export-json.ts';
import { exportOriginal } from './export-original.ts';
import { countAnew } from './reparse.ts';

export function archiveCalls(archive: Archive, work: LongWork = UNWATCHED) {
  return {
    ...searchCalls(archive),
    identity: () => archive.identity(),
    saveSpecimen: (save: SaveSpecimen) => archive.saveSpecimen(save),
    correctSpecimen: (given: CorrectSpecimen) =>
      archive.sets((connection, keeping) => correctSpecimen(connection, given, keeping)),
    pullsOfSpecimen: (specimenId: number) =>
      archive.sets((connection) => pullsOfSpecimen(connection, specimenId)),
    getSpecimen: (specimenId: number) => archive.getSpecimen(specimenId),
    listSpecimens: (page: PageRequest) => archive.listSpecimens(page),
    saveProfile: (profile: ReadoutProfile) => archive.saveProfile(profile),
    profiles: () => archive.profiles(),
    beginPull: (pull: NewPull) => archive.beginPull(pull),
    appendPacked: (batch: PackedBatch) => archive.appendPacked(batch),
    closePull: (batch: Batch, end: PullEnd, countMisfitsAnew: boolean) => {
      closePull(archive, batch, end, countMisfitsAnew);
    },
    getPull: (pullId: number) => archive.getPull(pullId),
    listPulls: (page: PageRequest) => archive.listPulls(page),
    readColumns: (request: ColumnsRequest) => archive.readColumns(request),
    outlineOf: (pullId: number) => archive.outlineOf(pullId),
    readRaw: (pullId: number, fromChunk: number, count: number) => archive.readRaw(pullId, fromChunk, count),
    /** The recorded curve, or read anew where the options that are asked for, or else those that stand, say so. */
    curve: (pullId: number, asked?: EvaluationOptions) => {
      const pull = archive.getPull(pullId);
      const standing = archive.sets((connection) => standingEvaluation(connection, pullId));
      const anew = readAnew(archive, pullId, asked ?? standing?.options ?? {});
      return {
        ...(anew ?? archive.curve(pullId)),
        /** In the numbering of this curve. */
        breakSeq: anew === null ? pull.breakSeq : anew.breakSeq,
        readAnew: anew === null ? null : { by: anew.by, isFile: anew.isFile, remark: anew.remark },
        pull,
        standing,
      };
    },
    specimenOfPull: (pullId: number) => archive.newestSpecimenOfPull(pullId),
    noteFracture: (note: NoteFracture) => archive.noteFracture(note),
    keepEvaluation: (keep: KeepEvaluation) =>
      archive.sets((connection, keeping) => keepEvaluation(connection, keep, keeping)),
    statedOf: (pullId: number) =>
      archive.sets((connection) => ({
        standing: evaluationHistory(connection, pullId).at(-1) ?? null,
        certified: certifiedValuesOf(connection, pullId),
        certificates: certificatesOn(connection, pullId),
        first: firstStated(connection, pullId, archive.newestSpecimenOfPull(pullId).specimenId),
      })),
    knownValues: (pullIds: readonly number[]) =>
      archive.sets((connection, { programVersion }) => knownValues(connection, pullIds, programVersion)),
    keepFirstStated: (stated: StatedNow) =>
      archive.sets((connection, keeping) => keepFirstStated(connection, stated, keeping)),
    evaluationHistory: (pullId: number) =>
      archive.sets((connection) => evaluationHistory(connection, pullId)),
    /** `own`: the laboratory's own packs, which take the place of the program's with the same id. */
    saveSet: (save: SaveSet, own: readonly RulePack[]) =>
      archive.sets((connection, keeping) => saveSet(connection, save, { ...keeping, packs: packsWith(own) })),
    listSets: (page: PageRequest) => archive.sets((connection) => listSets(connection, page)),
    getSet: (setId: number) =>
      archive.sets((connection) => {
        const kept = getSet(connection, setId);
        const overrides = kept.members.map((member) => overridesOf(connection, member.setMemberId));
        return { kept, overrides };
      }),
    joinSet: (join: JoinSet) => archive.sets((connection, { wallMs }) => joinSet(connection, join, wallMs)),
    voidMember: (given: VoidMember) => {
      archive.sets((connection, { wallMs }) => voidMember(connection, given, wallMs));
    },
    overrideMember: (given: OverrideMember) => {
      archive.sets((connection, { wallMs }) => overrideMember(connection, given, wallMs));
    },
    stateDay: (given: StateDay) =>
      archive.sets((connection, { wallMs }) => stateDay(connection, given, wallMs)),
    voidPull: (given: VoidPull) => {
      archive.sets((connection, { wallMs }) => voidPull(connection, given, wallMs));
    },
    typePull: (given: TypePull) =>
      archive.sets((connection, { programVersion }) => typePull({ connection, programVersion }, given)),
    addPhoto: (given: AddPhoto) =>
      archive.sets((connection, { wallMs }) => addPhoto(connection, given, wallMs)),
    withdrawPhoto: (given: WithdrawPhoto) => {
      archive.sets((connection, { wallMs }) => withdrawPhoto(connection, given, wallMs));
    },
    photosOf: (pullId: number) => archive.sets((connection) => photosOf(connection, pullId)),
    getPhoto: (photoId: number) => archive.sets((connection) => getPhoto(connection, photoId)),
    savePerson: (given: SavePerson) =>
      archive.sets((connection, { wallMs }) => savePerson(connection, given, wallMs)),
    people: () => archive.sets(people),
    personOf: (personId: number) => archive.sets((connection) => personOf(connection, personId)),
    personNamed: (name: string) => archive.sets((connection) => personNamed(connection, name)),
    saveInstrument: (given: SaveInstrument) =>
      archive.sets((connection, { wallMs }) => saveInstrument(connection, given, wallMs)),
    keepCalibration: (given: KeepCalibration) =>
      archive.sets((connection, { wallMs }) => keepCalibration(connection, given, wallMs)),
    listInstruments: (on: string) => archive.sets((connection) => listInstruments(connection, on)),
    instrumentHistory: (instrumentId: number, on: string) =>
      archive.sets((connection) => instrumentHistory(connection, instrumentId, on)),
    chosenInstruments: (instrumentIds: readonly number[]) =>
      archive.sets((connection) => chosenInstruments(connection, instrumentIds)),
    signCertificate: (given: SignCertificate) =>
      archive.sets((connection, { wallMs }) => signCertificate(connection, given, wallMs)),
    signaturesOf: (number: string) => archive.sets((connection) => signaturesOf(connection, number)),
    rawSha256: (pullId: number) => archive.sets((connection) => rawSha256(connection, pullId)),
    membershipsOf: (asked: SpecimenOrPull) => archive.sets((connection) => membershipsOf(connection, asked)),
    pullsThatCount: (specimenId: number) =>
      archive.sets((connection) => pullsThatCount(connection, specimenId)),
    lastLanguage: (certified: Certified) => archive.sets((connection) => lastLanguage(connection, certified)),
    languageOfCertificate: (number: string) =>
      archive.sets((connection) => languageOfCertificate(connection, number)),
    lastIssued: (certified: Certified, contentSha256: Uint8Array, language: PaperLanguage) =>
      archive.sets((connection) => lastIssued(connection, certified, contentSha256, language)),
    issueCertificate: (issue: Omit<IssueCertificate, 'wallMs' | 'programVersion'>) =>
      archive.sets((connection, keeping) => issueCertificate(connection, { ...issue, ...keeping })),
    saveLaboratory: (given: Laboratory) => {
      archive.sets((connection, { wallMs }) => saveLaboratory(connection, given, wallMs));
    },
    laboratory: () => archive.sets((connection) => laboratory(connection)),
    check: (pullId: number | undefined) => checkInSteps(archive, pullId, work),
    mergeFrom: (from: string, write: boolean) => mergeFrom(archive, from, write, work),
    importFile: (given: ImportFile) => importFile(archive, given, work),
    searchElsewhere: (asked: RequestOf<'archive.search-elsewhere'>) =>
      archive.sets((_, { programVersion }) => searchElsewhere(asked, programVersion)),
    planSplit: () => archive.sets((connection) => toldPlan(connection, archive.path)),
    planRestore: (backup: string) =>
      archive.sets((_, { programVersion }) =>
        planRestoreInto(archive, backup, { programVersion, wallMs: Date.now }),
      ),
    copyInSteps: (to: string) =>
      copyInSteps(archive.connection, to, (pages, ofPages) => work.step('backup', pages, ofPages)),
    previewImport: (file: string, choices: ImportChoices) => previewImport(file, choices),
    previewPlan: (pullId: number, choices: ImportChoices) => previewPlan(archive, pullId, choices),
    exportCsv: (asked: { pullId: number; to: string; form: CsvFormName }) =>
      exportCsv(archive, asked, undefined, work),
    exportOriginal: (pullId: number, to: string) => exportOriginal(archive, pullId, to, work),
    exportJson: (pullId: number, to: string, worked: JudgedAndEvaluated) =>
      exportJson(archive, pullId, to, worked, work),
    info: () => archive.info(),
    freeBytes: () => archive.freeBytes(),
    checkpoint: () => archive.checkpoint(),
    close: () => archive.close(),
  };
}
/**
 * After a crash the counts of the recorder before are lost, but its raw bytes are not: they are parsed once more.
 */
function closePull(archive: Archive, batch: Batch, end: PullEnd, countMisfitsAnew: boolean): void {
  if (!countMisfitsAnew) {
    archive.closePull(batch, end);
    return;
  }
  const readouts = archive.getPull(batch.pullId);
  archive.closePull(batch, { ...end, ...countAnew(readouts, allChunks(archive, batch)) });
}

function* allChunks(archive: Archive, batch: Batch): Generator<RawChunk> {
  yield* archive.rawChunks(batch.pullId);
  yield* batch.chunks;
}

export type ArchiveCalls = ReturnType<typeof archiveCalls>;
export type ArchiveCall = keyof ArchiveCalls;
