/** Rules chosen for one pull: whether they can be judged by, and the set that says metals and minima. */
import { readRulePack } from '../../core/acceptance/read-rule-pack.ts';
import type { EvaluationOptions } from '../../core/results/evaluation.ts';
import type { FrozenSet } from '../../core/sets/set-form.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';

/** Throws a RequestRefused where rules are chosen that can't be judged by. */
export async function checkJudgedBy(
  recorder: Recorder,
  pullId: number,
  { judgedBy }: EvaluationOptions,
): Promise<void> {
  if (judgedBy === undefined) return;
  const pack = readRulePack(judgedBy.pack);
  if (!pack.ok)
    throw new RequestRefused(
      'rule-pack-wrong',
      `The rules "${judgedBy.pack.name}" can't be judged by: ${pack.faults[0]?.sentence ?? ''}`,
      'options.judgedBy',
    );
  if ((await newestSetOf(recorder, pullId)) === null)
    throw new RequestRefused(
      'rules-without-set',
      `Pull ${String(pullId)} is in no set, and metals and minima are said of a set; put its specimen into one, then choose other rules.`,
      'options.judgedBy',
    );
}

/** Null where the pull is in none. */
export async function newestSetOf(recorder: Recorder, pullId: number): Promise<FrozenSet | null> {
  const [place] = await recorder.archive.call('membershipsOf', { pullId });
  return place === undefined ? null : (await recorder.archive.call('getSet', place.setId)).kept.set;
}
