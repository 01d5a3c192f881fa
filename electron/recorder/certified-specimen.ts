/** One specimen as a certificate states it: its record, results, fracture, photos and curve from the archive. */
import { basename } from 'node:path';
import { FRACTURE_MARK_WORDS } from '../../core/acceptance/fracture-details.ts';
import type { IssuedResult } from '../../core/archive/certificate-store.ts';
import type { PhotoContent } from '../../core/certificate/certificate-content.ts';
import type {
  CertificateInput,
  CertifiedSpecimen,
  RecordFacts,
} from '../../core/certificate/certificate-input.ts';
import { curveContent } from '../../core/certificate/curve-content.ts';
import type { KeptEvaluation } from '../../core/contract/evaluation-requests.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { FractureNote } from '../../core/contract/record.ts';
import { standingOptions } from '../../core/evaluation/standing-options.ts';
import { momentText } from '../../core/exchange/export/moment-text.ts';
import { pulledOnText } from '../../core/pull/stated-day.ts';
import { originOfPull, readingsOrigin } from '../../core/pull/readings-origin.ts';
import { measuredInInches } from '../../core/results/specimen-findings.ts';
import type { FrozenSet } from '../../core/sets/set-form.ts';
import type { PaperWords } from '../../core/words/paper-words.ts';
import { type EvaluatedPull, gapWords } from './evaluated-pull.ts';
import type { Recorder } from './recorder.ts';

/** What stays the same whenever a certificate is made; number and moment are put in last. */
export type Composed = Omit<CertificateInput, 'number' | 'issued'> & {
  readonly results: readonly IssuedResult[];
};

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

/** What a certificate rests on, so that it can be worked out again. */
export function issuedResult(
  { pull, standing, evaluation }: EvaluatedPull,
  specimenId: number,
): IssuedResult[] {
  if (pull === null || evaluation === null) return [];
  return [
    {
      pullId: pull.pullId,
      specimenId,
      options: standingOptions(pull, standing),
      values: evaluation.results.map(({ symbol, value, unit }) => ({ symbol, value, unit })),
      methodVersion: evaluation.methodVersion,
    },
  ];
}

function originFacts(pull: KeptPull): Pick<RecordFacts, 'origin' | 'originName'> {
  const origin = originOfPull(pull);
  if (origin === null) return {};
  // The name is that of the instrument that makes the mark.
  const { source } = readingsOrigin(pull.source) === origin ? pull : (pull.second ?? pull);
  if (source.kind === 'simulated') return { origin, originName: source.scenario };
  return { origin, ...('file' in source ? { originName: basename(source.file) } : {}) };
}

function pulledOnFact(pull: KeptPull): Pick<RecordFacts, 'pulledOn'> {
  const pulledOn = pulledOnText(pull);
  return pulledOn === null ? {} : { pulledOn };
}

function fractureDetails(
  { atMark, discontinuities = [], baseMetal, place }: FractureNote,
  set: FrozenSet | null,
): NonNullable<CertifiedSpecimen['fractureDetails']> {
  const named =
    baseMetal === undefined || place !== 'base-metal' ? undefined : set?.form.baseMetals[baseMetal - 1];
  return {
    ...(atMark === undefined ? {} : { mark: FRACTURE_MARK_WORDS[atMark] }),
    ...(discontinuities.length === 0 ? {} : { discontinuities }),
    ...(named === undefined ? {} : { baseMetal: named.designation }),
  };
}

/** A specimen with all that its certificate says of it, and the set that judges it, where there is one. */
export async function certifiedSpecimen(
  recorder: Recorder,
  one: EvaluatedPull &
    Pick<CertifiedSpecimen, 'specimen' | 'verdict'> & {
      readonly form: CertifiedSpecimen['member'];
      readonly set: FrozenSet | null;
    },
  words: PaperWords,
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
    curve:
      curve === null
        ? null
        : curveContent(curve, evaluation, measuredInInches(specimen) ? 'us' : 'si', words),
    equipment: pull === null ? null : { forceSystem: pull.profile.name, instruments: pull.instruments },
    record:
      pull === null
        ? null
        : {
            pullId: pull.pullId,
            started: momentText(pull.startedWallMs, pull.startedUtcOffsetMinutes),
            ...pulledOnFact(pull),
            operator: pull.operator,
            readingCount: pull.readingCount,
            gapWords: gapWords(pull),
            rawSha256: await recorder.archive.call('rawSha256', pull.pullId),
            recordedBy: pull.programVersion,
            evaluatedBy: recorder.options.programVersion,
            typedIn: pull.typed !== null,
            ...originFacts(pull),
          },
    verdict,
  };
}
