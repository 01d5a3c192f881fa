/** What the recorder asks of the archive: a list of functions that run in the archive's own thread. */
import { builtInPacks } from '../../core/acceptance/packs.ts';
import type { Archive } from '../../core/archive/archive.ts';
import type { Batch, NewPull, PullEnd } from '../../core/archive/batch.ts';
import type { RawChunk } from '../../core/archive/codec/raw-block.ts';
import {
  type Certified,
  type IssuedResult,
  type Laboratory,
  issueCertificate,
  issuedBefore,
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
import { rawSha256 } from '../../core/archive/raw-hash.ts';
import {
  type AddPhoto,
  type WithdrawPhoto,
  addPhoto,
  getPhoto,
  photosOf,
  withdrawPhoto,
} from '../../core/archive/photo-store.ts';
import { type TypePull, typePull } from '../../core/archive/typed-store.ts';
import {
  type SavePerson,
  people,
  personNamed,
  personOf,
  savePerson,
} from '../../core/archive/people-store.ts';
import { type SignCertificate, signCertificate, signaturesOf } from '../../core/archive/signature-store.ts';
import { type VoidPull, voidPull } from '../../core/archive/void-store.ts';
import { type SaveSet, getSet, listSets, saveSet } from '../../core/archive/set-store.ts';
import type { NoteFracture } from '../../core/archive/fracture-store.ts';
import type { ColumnsRequest } from '../../core/archive/pull-columns.ts';
import type { PageRequest, SaveSpecimen } from '../../core/archive/specimen-store.ts';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import { RECOVERY_REPLAY_BYTES } from '../../core/limits.ts';
import { recomputeIn } from './recompute.ts';
import { exportCsv } from './export-csv.ts';
import { countMisfits, reparse } from './reparse.ts';

export function archiveCalls(archive: Archive) {
  return {
    identity: () => archive.identity(),
    saveSpecimen: (save: SaveSpecimen) => archive.saveSpecimen(save),
    getSpecimen: (specimenId: number) => archive.getSpecimen(specimenId),
    listSpecimens: (page: PageRequest) => archive.listSpecimens(page),
    saveProfile: (profile: ReadoutProfile) => archive.saveProfile(profile),
    profiles: () => archive.profiles(),
    beginPull: (pull: NewPull) => archive.beginPull(pull),
    appendBatch: (batch: Batch) => archive.appendBatch(batch),
    closePull: (batch: Batch, end: PullEnd, countMisfitsAnew: boolean) => {
      closePull(archive, batch, end, countMisfitsAnew);
    },
    openRecord: () => archive.openRecord(RECOVERY_REPLAY_BYTES),
    getPull: (pullId: number) => archive.getPull(pullId),
    listPulls: (page: PageRequest) => archive.listPulls(page),
    readColumns: (request: ColumnsRequest) => archive.readColumns(request),
    readRaw: (pullId: number, fromChunk: number, count: number) => archive.readRaw(pullId, fromChunk, count),
    curve: (pullId: number) => ({
      ...archive.curve(pullId),
      pull: archive.getPull(pullId),
      standing: archive.sets((connection) => standingEvaluation(connection, pullId)),
    }),
    specimenOfPull: (pullId: number) => archive.newestSpecimenOfPull(pullId),
    noteFracture: (note: NoteFracture) => archive.noteFracture(note),
    keepEvaluation: (keep: KeepEvaluation) =>
      archive.sets((connection, keeping) => keepEvaluation(connection, keep, keeping)),
    evaluationHistory: (pullId: number) =>
      archive.sets((connection) => evaluationHistory(connection, pullId)),
    saveSet: (save: SaveSet) =>
      archive.sets((connection, keeping) => saveSet(connection, save, { ...keeping, packs: builtInPacks() })),
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
    signCertificate: (given: SignCertificate) =>
      archive.sets((connection, { wallMs }) => signCertificate(connection, given, wallMs)),
    signaturesOf: (number: string) => archive.sets((connection) => signaturesOf(connection, number)),
    rawSha256: (pullId: number) => archive.sets((connection) => rawSha256(connection, pullId)),
    membershipsOf: (asked: SpecimenOrPull) => archive.sets((connection) => membershipsOf(connection, asked)),
    issuedBefore: (certified: Certified, contentSha256: Uint8Array) =>
      archive.sets((connection) => issuedBefore(connection, certified, contentSha256)),
    issueCertificate: (
      certified: Certified,
      contentSha256: Uint8Array,
      utcOffsetMinutes: number,
      results: readonly IssuedResult[],
    ) =>
      archive.sets((connection, keeping) =>
        issueCertificate(connection, { ...certified, contentSha256, utcOffsetMinutes, results, ...keeping }),
      ),
    saveLaboratory: (given: Laboratory) => {
      archive.sets((connection, { wallMs }) => saveLaboratory(connection, given, wallMs));
    },
    laboratory: () => archive.sets((connection) => laboratory(connection)),
    check: (pullId: number | undefined) =>
      archive.check({ pullId, reparse, recompute: recomputeIn(archive) }),
    backup: (to: string) => archive.backup(to),
    exportCsv: (pullId: number, to: string) => exportCsv(archive, pullId, to),
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
  const { profile } = archive.getPull(batch.pullId);
  const misfitCount = countMisfits(profile, allChunks(archive, batch));
  archive.closePull(batch, { ...end, misfitCount });
}

function* allChunks(archive: Archive, batch: Batch): Generator<RawChunk> {
  yield* archive.rawChunks(batch.pullId);
  yield* batch.chunks;
}

export type ArchiveCalls = ReturnType<typeof archiveCalls>;
export type ArchiveCall = keyof ArchiveCalls;
