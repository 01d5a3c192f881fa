/** One kept pull with its results, as `pull --json` and `archive show --json` print it, and as text. */
import type { ReplyOf } from '../../core/contract/index.ts';
import type { KeptEvaluation } from '../../core/contract/evaluation-requests.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import {
  type OutdatedCertificates,
  type OutdatedAboutPull,
  outdatedCertificatesOf,
  subjectOf,
} from '../../core/evaluation/outdated-certificate.ts';
import { momentText } from '../../core/exchange/export/moment-text.ts';
import type { DisplaySystem } from '../../core/quantity/display-unit.ts';
import { instrumentFacts } from '../../core/instruments/instrument-facts.ts';
import { skewSentence } from '../../core/pull/joined-channels.ts';
import { markWordsIn } from '../../core/pull/rule-words.ts';
import { pulledOnText } from '../../core/pull/stated-day.ts';
import { PULL_ACTS } from '../../core/pull/take-act.ts';
import { ORIGIN_NOTICES, originOfPull } from '../../core/pull/readings-origin.ts';
import { voidSentence } from '../../core/pull/void-sentence.ts';
import type { TypedValues } from '../../core/pull/typed-values.ts';
import { numberText } from '../../core/quantity/number-text.ts';
import { measuredInInches } from '../../core/results/specimen-findings.ts';
import { sizesOutsideRange } from '../../core/specimen/plausible-range.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import type { SpecimenFile } from '../../core/specimen/specimen-file.ts';
import { type EvaluationDocument, evaluationDocument } from './evaluation-json.ts';
import { evaluationText } from './evaluation-text.ts';
import type { GivenOptions } from './evaluation-options.ts';
import { judgedText } from './judged-by.ts';
import type { AskedEvaluation } from './kept-evaluation.ts';
import type { RecorderAccess } from './recorder-access.ts';
import { optionsDocument, statedText } from './stated-options-text.ts';

export interface KeptAndEvaluated {
  readonly pull: KeptPull;
  readonly evaluation: ReplyOf<'pull.evaluate'>;
  /** What a person kept; null where the pull stands as recorded. */
  readonly standing: KeptEvaluation | null;
  /** What the evaluation shown was made by. */
  readonly shown: GivenOptions;
  /** Where other rules than those of the set are asked for, or stand. */
  readonly judged: ReplyOf<'evaluation.judge'> | null;
  /** Certificates that were issued before that evaluation and don't say it. */
  readonly certificates: OutdatedCertificates;
}

/** By what stands; `ask` may ask for other options, which are shown and not kept. */
export async function keptAndEvaluated(
  access: RecorderAccess,
  pullId: number,
  ask: (standing: KeptEvaluation | null) => AskedEvaluation = (standing) => ({
    options: standing?.options ?? {},
    sources: standing?.sources ?? [],
    asked: false,
  }),
): Promise<KeptAndEvaluated> {
  const pull = await access.ask('pull.get', { pullId });
  const { evaluations } = await access.ask('evaluation.history', { pullId });
  const standing = evaluations.at(-1) ?? null;
  const { asked, ...shown } = ask(standing);
  const evaluation = await access.ask('pull.evaluate', {
    pullId,
    ...(asked ? { options: shown.options } : {}),
  });
  const isJudgedAnew = (shown.options.judgedBy ?? standing?.options.judgedBy) !== undefined;
  const judged = isJudgedAnew
    ? await access.ask('evaluation.judge', { pullId, ...(asked ? { options: shown.options } : {}) })
    : null;
  const certificates = await outdatedCertificatesOf(access.ask, pullId);
  return { pull, evaluation, standing, shown, judged, certificates };
}

/** `marks` are those of the record; the points that the evaluation found on the curve stand in `pointsOnCurve`. */
function pullDocument(
  archivePath: string,
  { pull, evaluation, standing, shown, judged, certificates }: KeptAndEvaluated,
): EvaluationDocument {
  const { specimen, marks, gaps, ...facts } = pull;
  return {
    ...evaluationDocument(evaluation, {
      archive: archivePath,
      pull: {
        ...facts,
        startedAt: new Date(pull.startedWallMs).toISOString(),
        startedLocally:
          pull.startedUtcOffsetMinutes === null
            ? null
            : momentText(pull.startedWallMs, pull.startedUtcOffsetMinutes),
      },
      specimen: specimen.specimen,
      ...specimenRemarks(specimen.specimen),
      ...optionsDocument(shown.options, shown.sources),
      standingEvaluation: standing,
      ...(certificates.outdated.length === 0 ? {} : { outdatedCertificates: certificates.outdated }),
      ...(certificates.beyond === 0 ? {} : { certificatesNotLookedAt: certificates.beyond }),
      ...(judged === null ? {} : { judged }),
    }),
    marks,
    gaps,
    pointsOnCurve: evaluation.marks,
  };
}

/** Sizes that no such specimen has: nobody could be asked when they came from a file. */
function specimenRemarks(file: SpecimenFile): { readonly specimenRemarks?: readonly string[] } {
  const read = readSpecimen(file);
  const remarks = read.ok ? sizesOutsideRange(read.specimen) : [];
  return remarks.length === 0 ? {} : { specimenRemarks: remarks };
}

/** A file is taken over in a moment; how long its pull lasted is not that. */
function recordText(pull: KeptPull): string {
  const readings = `${pull.readingCount} readings, ${pull.state}`;
  const pulledOn = pulledOnText(pull);
  if (pull.source.kind === 'imported')
    return `${pulledOn === null ? '' : `pulled on ${pulledOn}, `}taken over ${startedText(pull)} by the wall clock: ${readings}`;
  const length = `${numberText(pull.durationUs / 1e6, 4)} s`;
  return `begun ${startedText(pull)} by the wall clock: ${pull.typed === null ? `${length}, ${readings}` : 'typed'}`;
}

/** Local time with its offset, and UTC; only the latter for a pull whose offset was not kept. */
function startedText({ startedWallMs, startedUtcOffsetMinutes }: KeptPull): string {
  const utc = new Date(startedWallMs).toISOString();
  return startedUtcOffsetMinutes === null
    ? `${utc} (UTC; the local time was not kept)`
    : `${momentText(startedWallMs, startedUtcOffsetMinutes)} (${utc} in UTC)`;
}

/** What a person typed, exactly as it was typed. */
function typedText({ load, yieldLoad, elongation }: TypedValues): string {
  const values = [
    `peak load ${load}`,
    ...(yieldLoad === undefined ? [] : [`yield load ${yieldLoad}`]),
    ...(elongation === undefined ? [] : [`elongation after fracture ${elongation}`]),
  ];
  return `TYPED from the display of the frame: ${values.join(', ')}. No curve was recorded.`;
}

/** Lines that were no readings are counted by reason, never passed over in silence. */
function misfitText({ misfitCount }: KeptPull): string[] {
  const reasons = Object.entries(misfitCount).filter(([, count]) => count > 0);
  const total = reasons.reduce((sum, [, count]) => sum + count, 0);
  if (total === 0) return [];
  const named = reasons.map(([reason, count]) => `${reason.replaceAll('-', ' ')} ${String(count)}`);
  return [
    `  ${total === 1 ? '1 line gave no reading and is' : `${String(total)} lines gave no reading and are`} kept raw: ${named.join(', ')}.`,
  ];
}

/** Two instruments are named, and how far apart they stand. */
function secondText({ second, profile }: KeptPull): string[] {
  if (second === null) return [];
  return [
    `  Two instruments: load from "${profile.name}", beside it ${second.sourceWords} with "${second.profile.name}".`,
    ...(second.closed === null ? [] : [`  ${skewSentence(second.closed.skew, second.ageMaxMs)}`]),
  ];
}

/** Two clocks count the seconds of a pull. */
function timesText({ profile }: KeptPull): string {
  return profile.channels.some((channel) => channel.quantity === 'time')
    ? '  Seconds in the workings and remarks below are those of the readout’s own clock, where it stamps every line.'
    : '  Seconds in the workings and remarks below are those of the recorder’s clock too.';
}

/** The answer of every verb about one pull: its document, or its text. `notes` were said already; the document has them too, where there are any. */
export async function pullAnswer(
  access: RecorderAccess,
  kept: KeptAndEvaluated,
  {
    json,
    notes = [],
    ...how
  }: PullTextOptions & { readonly json: boolean; readonly notes?: readonly string[] },
): Promise<string> {
  if (!json) return pullText(kept, how);
  const { archivePath } = await access.ask('program.info', {});
  return JSON.stringify({ ...pullDocument(archivePath, kept), ...(notes.length === 0 ? {} : { notes }) });
}

export interface PullTextOptions {
  readonly working: boolean;
  /** Without it as the specimen was measured. */
  readonly units?: DisplaySystem | undefined;
}

function pullText(
  { pull, evaluation, standing, shown, judged, certificates }: KeptAndEvaluated,
  { working, units }: PullTextOptions,
): string {
  const read = readSpecimen(pull.specimen.specimen);
  const system = units ?? (read.ok && measuredInInches(read.specimen) ? 'us' : 'si');
  const origin = originOfPull(pull);
  const stated = statedText(shown.options, shown.sources);
  return [
    ...(origin === null ? [] : [ORIGIN_NOTICES[origin]]),
    ...(pull.typed === null ? [] : [typedText(pull.typed)]),
    ...(pull.voided === null ? [] : [`VOID: ${voidSentence(pull.pullId, pull.voided)}.`]),
    `Pull ${pull.pullId} of specimen ${pull.specimenName}, ${recordText(pull)}`,
    ...(pull.typed === null
      ? [
          '  Seconds since the record began, by the recorder’s own clock (it runs on when the wall clock is set):',
        ]
      : []),
    ...pull.marks.map(
      (m) => `  ${(m.elapsedUs / 1e6).toFixed(3).padStart(9)} s  ${m.kind}: ${markWordsIn(m, pull, system)}`,
    ),
    ...pull.gaps.map(
      (g) =>
        `  ${(g.fromElapsedUs / 1e6).toFixed(3).padStart(9)} s  gap to ${g.toElapsedUs === null ? 'the end' : `${(g.toElapsedUs / 1e6).toFixed(3)} s`}: ${g.words}`,
    ),
    ...notedText(pull),
    ...misfitText(pull),
    ...secondText(pull),
    ...(pull.typed === null ? [timesText(pull)] : []),
    ...instrumentFacts(pull.instruments).map(({ label, value }) => `  ${label}: ${value}`),
    '',
    evaluationText(evaluation, {
      working,
      units,
      specimen: read.ok ? read.specimen : null,
      rounding: shown.options.rounding,
    }),
    ...(stated === null ? [] : ['', stated]),
    ...(judged === null ? [] : judgedText(judged)),
    ...(standing === null ? [] : ['', standingText(standing, shown)]),
    ...certificates.outdated.map(outdatedText),
    ...(certificates.beyond === 0
      ? []
      : [`Not looked at whether they are out of date: certificates ${String(certificates.beyond)}.`]),
  ].join('\n');
}

/** What was noted while it was recorded: remarks of port and clock, ranges passed, what was known before the start. Steps of a person are marks already. */
function notedText({ acts }: KeptPull): string[] {
  const steps: ReadonlySet<string> = new Set(PULL_ACTS);
  return acts
    .filter(({ kind }) => !steps.has(kind))
    .map(
      ({ kind, elapsedUs, words, by }) =>
        `  ${(elapsedUs / 1e6).toFixed(3).padStart(9)} s  ${kind}: ${words}${by === null ? '' : ` (${by})`}`,
    );
}

function standingText(standing: KeptEvaluation, { options }: GivenOptions): string {
  const kept = `kept ${new Date(standing.keptWallMs).toISOString()} by ${standing.by ?? 'nobody named'}: ${standing.reason}`;
  return options === standing.options
    ? `Evaluation ${String(standing.evaluationId)} stands, ${kept}`
    : `Shown only, not kept. Evaluation ${String(standing.evaluationId)} stands, ${kept}`;
}

const SUBJECT_WORDS: Readonly<Record<ReturnType<typeof subjectOf>, string>> = {
  set: 'of the set',
  specimen: 'of its specimen, in the set',
  pull: 'of the pull',
};
const LANGUAGE_WORDS: Readonly<Record<OutdatedAboutPull['language'], string>> = {
  en: 'English',
  es: 'Spanish',
};

function outdatedText(one: OutdatedAboutPull): string {
  const of = [SUBJECT_WORDS[subjectOf(one)], ...(one.setName === null ? [] : [`"${one.setName}"`])].join(' ');
  const [issued, evaluated] = [one.issuedWallMs, one.evaluatedWallMs].map((at) => new Date(at).toISOString());
  return `Certificate ${one.number} (${of}, ${LANGUAGE_WORDS[one.language]}) was issued ${issued ?? ''}, before the evaluation of ${evaluated ?? ''}, and doesn’t say it; issue it again.`;
}
