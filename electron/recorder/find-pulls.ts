/** Requests that find pulls again, and verdicts that are kept with what is found. */
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import { type JudgedSet, judgedSet } from './judged-set.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';

/** Judges a set and keeps its verdicts for the search, unless something was said meanwhile. */
export async function judgedAndFound(recorder: Recorder, setId: number): Promise<JudgedSet> {
  const judgedAtAudit = await recorder.archive.call('auditHead');
  const judged = await judgedSet(recorder, setId);
  const pulls = judged.members.flatMap(({ member, verdict }) =>
    member.pullId === null || member.voided !== null
      ? []
      : [
          {
            pullId: member.pullId,
            outcome: verdict?.outcome ?? null,
            questionable: verdict?.verdict.validity.state === 'questionable',
          },
        ],
  );
  await recorder.archive.call('keepVerdicts', setId, pulls, judgedAtAudit);
  return judged;
}

/** Judging takes the processor, which belongs to a record while there is one. */
export async function judgeSets(
  recorder: Recorder,
  { limit }: RequestOf<'archive.judge-sets'>,
): Promise<ReplyOf<'archive.judge-sets'>> {
  if (recorder.isRecording)
    throw new RequestRefused(
      'pull-open',
      'While a pull is being recorded no sets are judged; close the record first.',
    );
  const waiting = await recorder.archive.call('setsToJudge');
  const now = waiting.slice(0, limit);
  for (const setId of now) await judgedAndFound(recorder, setId);
  return { judged: now.length, left: waiting.length - now.length };
}
