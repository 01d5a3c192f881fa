/** The certificate of a set, from the archive alone. The same content keeps the number that it was issued under. */
import { createHash } from 'node:crypto';
import { basename } from 'node:path';
import { DISCONTINUITY_WORDS, FRACTURE_MARK_WORDS } from '../../core/acceptance/fracture-details.ts';
import type { IssuedResult } from '../../core/archive/certificate-store.ts';
import type { Signature } from '../../core/contract/signature-requests.ts';
import { standingOptions } from '../../core/evaluation/standing-options.ts';
import type { CertificateContent, PhotoContent } from '../../core/certificate/certificate-content.ts';
import type {
  CertificateInput,
  CertifiedSpecimen,
  RecordFacts,
} from '../../core/certificate/certificate-input.ts';
import { composeCertificate } from '../../core/certificate/compose-certificate.ts';
import { curveContent } from '../../core/certificate/curve-content.ts';
import type { PullSource } from '../../core/contract/source.ts';
import type { FractureNote } from '../../core/contract/record.ts';
import { measuredInInches } from '../../core/results/specimen-findings.ts';
import type { FrozenSet } from '../../core/sets/set-form.ts';
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import type { KeptEvaluation } from '../../core/contract/evaluation-requests.ts';
import { momentText } from '../../core/exchange/export/moment-text.ts';
import { type JudgedMember, gapWords, judgedSet, voidRemarks } from './judged-set.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';
import { utcOffsetMinutes } from './utc-offset.ts';

/** Stands for number and moment while the content is hashed. */
const NOT_YET = 'not issued yet';

type Asked = RequestOf<'set.certificate'>;

/** What stays the same whenever the certificate is made; number and moment are put in last. */
type Composed = Omit<CertificateInput, 'number' | 'issued'> & { readonly results: readonly IssuedResult[] };

export async function setCertificate(recorder: Recorder, asked: Asked): Promise<ReplyOf<'set.certificate'>> {
  const input = await certificateInput(recorder, asked);
  const hash = contentHash(input);
  const now = Date.now();
  const before = await recorder.archive.call('issuedBefore', asked, hash);
  const issued =
    before ??
    (await recorder.archive.call('issueCertificate', asked, hash, utcOffsetMinutes(now), input.results));
  const signatures = await recorder.archive.call('signaturesOf', issued.number);
  const firstIssued = momentText(issued.issuedWallMs, issued.utcOffsetMinutes);
  const content = composeCertificate({
    ...input,
    signatures: signatures.map(signatureContent),
    number: issued.number,
    issued: before === null ? firstIssued : momentText(now, utcOffsetMinutes(now)),
    firstIssued,
  });
  return { number: issued.number, again: before !== null, content };
}

/** What is hashed names neither the certificate's number nor its signatures: these stand under it, not in it. */
const contentHash = (input: Composed): Uint8Array =>
  createHash('sha256')
    .update(JSON.stringify(unnumbered(input)))
    .digest();

/** The hash of what the certificate would say now. */
export async function contentSha256Now(recorder: Recorder, asked: Asked): Promise<Uint8Array> {
  return contentHash(await certificateInput(recorder, asked));
}

const signatureContent = ({
  printedName,
  meaning,
  byPin,
  wallMs,
  utcOffsetMinutes: offset,
  contentSha256,
}: Signature) => ({
  printedName,
  meaning,
  at: momentText(wallMs, offset),
  byPin,
  contentSha256,
});

/** The same without a number: looking at it issues nothing. */
export async function certificatePreview(recorder: Recorder, asked: Asked): Promise<CertificateContent> {
  const input = await certificateInput(recorder, asked);
  return composeCertificate({ ...input, number: NOT_YET, issued: NOT_YET });
}

/** Neither the moment nor the version of the program makes it another certificate; another figure in it does. */
const unnumbered = (input: Composed): CertificateContent =>
  composeCertificate({
    ...input,
    programVersion: NOT_YET,
    specimens: input.specimens.map(evaluatedByAnyVersion),
    number: NOT_YET,
    issued: NOT_YET,
  });

async function certificateInput(recorder: Recorder, { setId, setMemberId }: Asked): Promise<Composed> {
  const { kept, members, overview } = await judgedSet(recorder, setId);
  if (members.length === 0)
    throw new RequestRefused(
      'set-empty',
      `Set ${String(setId)} has no specimen yet, so there is nothing to certify; put its specimens into it first.`,
      'setId',
    );
  const chosen =
    setMemberId === undefined ? members : members.filter((one) => one.member.setMemberId === setMemberId);
  if (chosen.length === 0)
    throw new RequestRefused(
      'no-such-member',
      `Set ${String(setId)} has no member ${String(setMemberId)}; look at its members and name one of them.`,
      'setMemberId',
    );
  const house = await recorder.archive.call('laboratory');
  const specimens: CertifiedSpecimen[] = [];
  for (const one of chosen) specimens.push(await certified(recorder, { ...one, set: kept.set }));
  return {
    kind: setMemberId === undefined ? 'set' : 'specimen',
    laboratory: house ?? { name: 'No laboratory is named in this archive', lines: [] },
    programVersion: recorder.options.programVersion,
    set: kept.set,
    setVerdict: overview.verdict,
    specimens,
    deviations: chosen.flatMap((one) => voidRemarks(one.member)),
    signatures: [],
    results: chosen.flatMap(issuedResult),
  };
}

const evaluatedFacts = ({ keptWallMs, evaluationId, options, sources, by, reason }: KeptEvaluation) => ({
  evaluationId,
  options,
  sources,
  kept: new Date(keptWallMs).toISOString(),
  by,
  reason,
});

/** Those that stand; the newest certificate names no withdrawn one. */
async function photosShown(recorder: Recorder, pullId: number): Promise<PhotoContent[]> {
  const photos = await recorder.archive.call('photosOf', pullId);
  return photos
    .filter(({ withdrawn }) => withdrawn === null)
    .map(({ photoId, sha256, mediaType, caption, fileName }) => ({
      photoId,
      sha256,
      mediaType,
      caption: caption ?? fileName,
    }));
}

function issuedResult({ pull, standing, evaluation, member }: JudgedMember): IssuedResult[] {
  if (pull === null || evaluation === null) return [];
  return [
    {
      pullId: pull.pullId,
      specimenId: member.specimenId,
      options: standingOptions(pull, standing),
      values: evaluation.results.map(({ symbol, value, unit }) => ({ symbol, value, unit })),
      methodVersion: evaluation.methodVersion,
    },
  ];
}

function originFacts(source: PullSource): Pick<RecordFacts, 'origin' | 'originName'> {
  if (source.kind === 'simulated') return { origin: 'simulated', originName: source.scenario };
  return source.kind === 'replay' ? { origin: 'replay', originName: basename(source.file) } : {};
}

const evaluatedByAnyVersion = (one: CertifiedSpecimen): CertifiedSpecimen =>
  one.record === null ? one : { ...one, record: { ...one.record, evaluatedBy: NOT_YET } };

function fractureDetails(
  { atMark, discontinuities = [], baseMetal, place }: FractureNote,
  { form }: FrozenSet,
): NonNullable<CertifiedSpecimen['fractureDetails']> {
  const named =
    baseMetal === undefined || place !== 'base-metal' ? undefined : form.baseMetals[baseMetal - 1];
  return {
    ...(atMark === undefined ? {} : { mark: FRACTURE_MARK_WORDS[atMark] }),
    ...(discontinuities.length === 0
      ? {}
      : {
          discontinuities: discontinuities
            .map(({ kind, size }) => [DISCONTINUITY_WORDS[kind], size].filter(Boolean).join(' '))
            .join(', '),
        }),
    ...(named === undefined ? {} : { baseMetal: named.designation }),
  };
}

async function certified(
  recorder: Recorder,
  one: JudgedMember & { readonly set: FrozenSet },
): Promise<CertifiedSpecimen> {
  const { form, specimen, evaluation, curve, note, fracture, verdict, pull } = one;
  return {
    member: form,
    specimen,
    evaluation,
    ...(one.standing === null ? {} : { evaluated: evaluatedFacts(one.standing) }),
    fracture,
    ...(note === null ? {} : { fractureDetails: fractureDetails(note.note, one.set) }),
    ...(note?.note.remarks === undefined ? {} : { fractureRemarks: note.note.remarks }),
    ...(note === null || note.by === null ? {} : { fractureNotedBy: note.by }),
    photos: pull === null ? [] : await photosShown(recorder, pull.pullId),
    curve: curve === null ? null : curveContent(curve, evaluation, measuredInInches(specimen) ? 'us' : 'si'),
    equipment: pull === null ? {} : { forceSystem: pull.profile.name },
    record:
      pull === null
        ? null
        : {
            pullId: pull.pullId,
            started: momentText(pull.startedWallMs, pull.startedUtcOffsetMinutes),
            operator: pull.operator,
            readingCount: pull.readingCount,
            gapWords: gapWords(pull),
            rawSha256: await recorder.archive.call('rawSha256', pull.pullId),
            recordedBy: pull.programVersion,
            evaluatedBy: recorder.options.programVersion,
            typedIn: pull.typed !== null,
            ...originFacts(pull.source),
          },
    verdict,
  };
}
