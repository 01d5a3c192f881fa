/** A kept pull as a blank run: a stiff bar was pulled, and the travel is what frame and grips gave. */
import type { ReplyOf } from '../../core/contract/index.ts';
import { compliancePoints } from '../../core/evaluation/blank-run.ts';
import { NAME_LENGTH_MAX } from '../../core/limits.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';

/** Rejects with a refusal where the pull has no travel, or none that grows with the force. */
export async function blankRunOfPull(
  recorder: Recorder,
  pullId: number,
): Promise<ReplyOf<'evaluation.blank-run'>> {
  const { curve, pull } = await recorder.archive.call('curve', pullId);
  const outcome = compliancePoints(curve);
  if (!outcome.ok)
    throw new RequestRefused('blank-run-wrong', `Pull ${String(pullId)}: ${outcome.sentence}`, 'pullId');
  const sha256 = await recorder.archive.call('rawSha256', pullId);
  if (sha256 === null)
    throw new RequestRefused(
      'pull-open',
      `Pull ${String(pullId)} is still being recorded; close its record first.`,
      'pullId',
    );
  return {
    points: outcome.points.map((point) => ({ ...point })),
    name: `pull ${String(pullId)}, ${pull.specimenName}`.slice(0, NAME_LENGTH_MAX),
    sha256,
  };
}
