/** Runs the self-check beside the recorder. */
import type { SelfCheckReport } from '../../core/self-check/self-check-case.ts';
import { EVALUATION_MS_MAX } from '../../core/limits.ts';
import { answerOfThread } from './answer-of-thread.ts';

export async function runSelfCheckAside(): Promise<SelfCheckReport> {
  // Both sides are this program's own files of one version.
  return (await answerOfThread({ name: 'self-check-thread', msMax: EVALUATION_MS_MAX })) as SelfCheckReport;
}
