/** Evaluations of kept pulls: by the options that stand or by others, and keeping others as what stands from then on. */
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import { idleCorrection } from '../../core/evaluation/idle-corrections.ts';
import { standingOptions } from '../../core/evaluation/standing-options.ts';
import type { Evaluation } from '../../core/results/evaluation.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import type { SpecimenFile } from '../../core/specimen/specimen-file.ts';
import { checkJudgedBy } from './chosen-rules.ts';
import { keepFirstStated } from './keep-first-stated.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';
import { runEvaluation } from './run-evaluation.ts';

/**
 * By exactly these options; without any, by those that stand. With the specimen as it is kept, or as it is to be
 * corrected; one that can't be read is refused.
 */
export async function evaluatePull(
  recorder: Recorder,
  { pullId, options, specimen: corrected }: RequestOf<'pull.evaluate'>,
): Promise<Evaluation> {
  const { curve, pull, standing, breakSeq, readAnew } = await recorder.archive.call('curve', pullId, options);
  if (corrected !== undefined) refuseUnreadable(corrected);
  const kept = await recorder.archive.call('specimenOfPull', pullId);
  const evaluation = await runEvaluation(
    {
      curve,
      specimen: corrected ?? kept.specimen,
      typed: pull.typed,
      options: standingOptions({ breakSeq }, options === undefined ? standing : { options }),
    },
    recorder.options.evaluationHeapMib?.(),
  );
  const isAsRecorded = standing === null && Object.keys(options ?? {}).length === 0;
  if (isAsRecorded && corrected === undefined && pull.state === 'ended')
    keepFirstStated(recorder, { pullId, specimenId: kept.specimenId, evaluation });
  return saidReadAnew(evaluation, readAnew);
}

function refuseUnreadable(specimen: SpecimenFile): void {
  const read = readSpecimen(specimen);
  if (read.ok) return;
  const [first] = read.faults;
  throw new RequestRefused(
    'specimen-wrong',
    read.faults.map(({ sentence }) => sentence).join(' '),
    first === undefined ? 'specimen' : `specimen.${first.field}`,
  );
}

/** An evaluation of lines or rows that were read again says so, and by what. */
export function saidReadAnew(
  evaluation: Evaluation,
  readAnew: { readonly by: string; readonly isFile: boolean; readonly remark: string } | null,
): Evaluation {
  return readAnew === null
    ? evaluation
    : {
        ...evaluation,
        readBy: readAnew.by,
        ...(readAnew.isFile ? { readFromFile: true } : {}),
        remarks: [readAnew.remark, ...evaluation.remarks],
      };
}

/** What is kept with it are the values of this very program, so that a later one can be compared. */
export async function keepEvaluation(
  recorder: Recorder,
  { pullId, options, sources, ...said }: RequestOf<'evaluation.keep'>,
): Promise<ReplyOf<'evaluation.keep'>> {
  const idle = idleCorrection(options);
  if (idle !== null) throw new RequestRefused('correction-without-effect', idle, 'options.corrections');
  const { typed } = await recorder.archive.call('getPull', pullId);
  if (typed !== null && options.corrections !== undefined)
    throw new RequestRefused(
      'correction-without-effect',
      `Pull ${String(pullId)} was typed from the frame’s display and has no readings, so corrections would change nothing; make it void and type it anew, or leave the corrections out.`,
      'options.corrections',
    );
  await checkJudgedBy(recorder, pullId, options);
  const { specimenId } = await recorder.archive.call('specimenOfPull', pullId);
  const evaluation = await evaluatePull(recorder, { pullId, options });
  const evaluationId = await recorder.archive.call('keepEvaluation', {
    ...said,
    pullId,
    specimenId,
    options,
    sources: sources ?? [],
    values: evaluation.results.map(({ symbol, value, unit }) => ({ symbol, value, unit })),
    methodVersion: evaluation.methodVersion,
  });
  return { evaluationId };
}
