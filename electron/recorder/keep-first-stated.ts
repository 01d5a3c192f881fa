/** What a pull that stands as recorded gives is noted when it is first worked out, behind the answer. */
import type { Evaluation } from '../../core/results/evaluation.ts';
import type { Recorder } from './recorder.ts';
import { faultOf } from './request-refused.ts';

export interface WorkedOut {
  readonly pullId: number;
  /** The correction of the specimen that it was worked out by. */
  readonly specimenId: number;
  readonly evaluation: Evaluation;
}

/**
 * Of an ended pull, by no options of a person. Nobody waits for it: what can't be kept now is kept at the next time. Never
 * throws.
 */
export function keepFirstStated(recorder: Recorder, worked: WorkedOut): void {
  void kept(recorder, worked).catch((error: unknown) => {
    // A disk that refuses is told by what was asked for.
    if (faultOf(error) === null) recorder.bug(error);
  });
}

async function kept(recorder: Recorder, { pullId, specimenId, evaluation }: WorkedOut): Promise<void> {
  if (recorder.isRecording || recorder.archive.isAtLongWork) return;
  await recorder.archive.call('keepFirstStated', {
    pullId,
    specimenId,
    values: evaluation.results.map(({ symbol, value, unit }) => ({ symbol, value, unit })),
    methodVersion: evaluation.methodVersion,
  });
}
