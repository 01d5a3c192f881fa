/** Keeps a specimen; a correction with the evaluations that take the place of those that rest on the earlier sizes. */
import type { EvaluationOfCorrected } from '../../core/archive/correct-specimen.ts';
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import { keptValuesOf } from '../../core/evaluation/evaluate-again.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import { evaluatePull } from './kept-evaluations.ts';
import type { Recorder } from './recorder.ts';

export async function saveSpecimen(
  recorder: Recorder,
  save: RequestOf<'specimen.save'>,
): Promise<ReplyOf<'specimen.save'>> {
  const { supersedes } = save;
  // What can't be read is refused by the archive, which says where.
  if (supersedes === undefined || !readSpecimen(save.specimen).ok)
    return { specimenId: await recorder.archive.call('saveSpecimen', save), evaluations: [] };
  const evaluations: EvaluationOfCorrected[] = [];
  for (const { pullId, standing } of await recorder.archive.call('pullsOfSpecimen', supersedes))
    if (standing !== null) evaluations.push(await evaluatedAnew(recorder, pullId, save.specimen));
  return recorder.archive.call('correctSpecimen', { save: { ...save, supersedes }, evaluations });
}

async function evaluatedAnew(
  recorder: Recorder,
  pullId: number,
  specimen: RequestOf<'specimen.save'>['specimen'],
): Promise<EvaluationOfCorrected> {
  const standing = (await recorder.archive.call('evaluationHistory', pullId)).at(-1);
  if (standing === undefined) throw new Error(`the evaluation of pull ${String(pullId)} is gone`);
  const { options, sources, evaluationId } = standing;
  const evaluation = await evaluatePull(recorder, { pullId, options, specimen });
  return {
    pullId,
    options,
    sources,
    values: keptValuesOf(evaluation),
    methodVersion: evaluation.methodVersion,
    supersedes: evaluationId,
  };
}
