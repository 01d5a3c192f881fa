/** One kept pull with its results, as `pull --json` and `archive show --json` print it, and as text. */
import type { ReplyOf } from '../../core/contract/index.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import { momentText } from '../../core/exchange/export/moment-text.ts';
import type { DisplaySystem } from '../../core/quantity/display-unit.ts';
import { numberText } from '../../core/quantity/number-text.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import { type EvaluationDocument, evaluationDocument } from './evaluation-json.ts';
import { evaluationText } from './evaluation-text.ts';
import type { RecorderAccess } from './recorder-access.ts';

export interface KeptAndEvaluated {
  readonly pull: KeptPull;
  readonly evaluation: ReplyOf<'pull.evaluate'>;
}

export async function keptAndEvaluated(access: RecorderAccess, pullId: number): Promise<KeptAndEvaluated> {
  return {
    pull: await access.ask('pull.get', { pullId }),
    evaluation: await access.ask('pull.evaluate', { pullId }),
  };
}

/** `marks` are those of the record; the points that the evaluation found on the curve stand in `pointsOnCurve`. */
export function pullDocument(
  archivePath: string,
  { pull, evaluation }: KeptAndEvaluated,
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
    }),
    marks,
    gaps,
    pointsOnCurve: evaluation.marks,
  };
}

/** Local time with its offset, and UTC; only the latter for a pull whose offset was not kept. */
function startedText({ startedWallMs, startedUtcOffsetMinutes }: KeptPull): string {
  const utc = new Date(startedWallMs).toISOString();
  return startedUtcOffsetMinutes === null
    ? `${utc} (UTC; the local time was not kept)`
    : `${momentText(startedWallMs, startedUtcOffsetMinutes)} (${utc} in UTC)`;
}

export interface PullTextOptions {
  readonly working: boolean;
  /** Without it as the specimen was measured. */
  readonly units?: DisplaySystem | undefined;
}

export function pullText(
  { pull, evaluation }: KeptAndEvaluated,
  { working, units }: PullTextOptions,
): string {
  const read = readSpecimen(pull.specimen.specimen);
  return [
    `Pull ${pull.pullId} of specimen ${pull.specimenName}, begun ${startedText(pull)} by the wall clock: ${numberText(pull.durationUs / 1e6, 4)} s, ${pull.readingCount} readings, ${pull.state}`,
    '  Seconds since the record began, by the recorder’s own clock (it runs on when the wall clock is set):',
    ...pull.marks.map((m) => `  ${(m.elapsedUs / 1e6).toFixed(3).padStart(9)} s  ${m.kind}: ${m.words}`),
    ...pull.gaps.map(
      (g) =>
        `  ${(g.fromElapsedUs / 1e6).toFixed(3).padStart(9)} s  gap to ${g.toElapsedUs === null ? 'the end' : `${(g.toElapsedUs / 1e6).toFixed(3)} s`}: ${g.words}`,
    ),
    '',
    evaluationText(evaluation, { working, units, specimen: read.ok ? read.specimen : null }),
  ].join('\n');
}
