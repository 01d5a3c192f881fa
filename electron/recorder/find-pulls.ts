/** Requests that find pulls again, and verdicts that are kept with what is found. */
import type { ReplyOf, RequestOf } from '../../core/contract/index.ts';
import type { JudgedPull } from '../../core/archive/search/keep-entries.ts';
import type { FoundPull } from '../../core/contract/search-requests.ts';
import { type JudgedSet, judgedSet } from './judged-set.ts';
import type { Recorder } from './recorder.ts';
import { RequestRefused } from './request-refused.ts';

/** Judges a set and keeps its verdicts for the search, unless something was said meanwhile. */
export async function judgedAndFound(recorder: Recorder, setId: number): Promise<JudgedSet> {
  const judgedAtAudit = await recorder.archive.call('auditHead');
  const judged = await judgedSet(recorder, setId);
  await recorder.archive.call('keepVerdicts', setId, verdictsOf(judged), judgedAtAudit);
  return judged;
}

const verdictsOf = ({ members }: JudgedSet): JudgedPull[] =>
  members.flatMap(({ member, verdict }) =>
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

/**
 * Lines of these pulls; of at most `judge` of their sets that were not judged since something changed, verdicts are
 * judged first. An archive that is only read keeps none, and its lines have them all the same. `isEnough` is asked
 * between two sets; what is not judged says so.
 */
export async function judgedLines(
  recorder: Recorder,
  { pullIds, judge }: RequestOf<'archive.lines'>,
  isEnough: () => boolean = () => false,
): Promise<FoundPull[]> {
  const lines = await recorder.archive.call('linesOf', pullIds);
  const waiting = new Set(
    lines.flatMap(({ setId, verdictKnown }) => (verdictKnown || setId === null ? [] : [setId])),
  );
  const judgedAtAudit = await recorder.archive.call('auditHead');
  const verdicts = new Map<number, JudgedPull>();
  const judged = new Set<number | null>();
  for (const setId of [...waiting].slice(0, judge)) {
    // Judging takes the processor, which belongs to a record while there is one.
    if (recorder.isRecording || isEnough()) break;
    for (const one of verdictsOf(await judgedAndFound(recorder, setId))) verdicts.set(one.pullId, one);
    judged.add(setId);
  }
  if (judged.size === 0) return lines;
  const kept = await recorder.archive.call('linesOf', pullIds);
  // What was said meanwhile may have changed any of them.
  if ((await recorder.archive.call('auditHead')) !== judgedAtAudit) return kept;
  return kept.map((line) => {
    if (line.verdictKnown || !judged.has(line.setId)) return line;
    const { outcome = null, questionable = false } = verdicts.get(line.pullId) ?? {};
    return { ...line, verdict: outcome, questionable: outcome !== null && questionable, verdictKnown: true };
  });
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
  const failed = failedOf(recorder);
  const atAudit = await recorder.archive.call('auditHead');
  // What was said since may have mended it.
  const isUnjudged = (setId: number): boolean => failed.get(setId) === atAudit;
  const toJudge = await recorder.archive.call('setsToJudge');
  const waiting = toJudge.filter((setId) => !isUnjudged(setId));
  const now = waiting.slice(0, limit);
  for (const setId of now)
    try {
      await judgedAndFound(recorder, setId);
    } catch (error) {
      // One that is damaged keeps nobody from the others.
      failed.set(setId, atAudit);
      const why = error instanceof Error ? error.message : String(error);
      recorder.options.log(`set ${String(setId)} could not be judged: ${why}`);
    }
  return {
    judged: now.length,
    left: waiting.length - now.length,
    unjudged: toJudge.filter(isUnjudged).length,
  };
}

/** Sets that could not be judged, and where the audit chain ended then. */
const failedBy = new WeakMap<Recorder, Map<number, number>>();

function failedOf(recorder: Recorder): Map<number, number> {
  const failed = failedBy.get(recorder) ?? new Map<number, number>();
  failedBy.set(recorder, failed);
  return failed;
}
