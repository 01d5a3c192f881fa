/** A pull of the archive evaluated as it stands, with the fracture that stands. */
import type { FractureNote } from '../../core/acceptance/fracture.ts';
import { fractureOfNote } from '../../core/acceptance/fracture-of-note.ts';
import type { KeptEvaluation } from '../../core/contract/evaluation-requests.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { KeptFractureNote } from '../../core/contract/record.ts';
import type { Curve } from '../../core/curve/curve.ts';
import type { KeptSpecimen } from '../../core/contract/specimen-requests.ts';
import { standingOptions } from '../../core/evaluation/standing-options.ts';
import { standingNote } from '../../core/pull/standing-note.ts';
import type { Evaluation } from '../../core/results/evaluation.ts';
import { keepFirstStated } from './keep-first-stated.ts';
import { saidReadAnew } from './kept-evaluations.ts';
import type { Recorder } from './recorder.ts';
import { runEvaluation } from './run-evaluation.ts';

export interface EvaluatedPull {
  readonly pull: KeptPull | null;
  readonly curve: Curve | null;
  /** Null while the pull is being recorded. */
  readonly evaluation: Evaluation | null;
  /** What a person kept of it; null where the pull stands as recorded. */
  readonly standing: KeptEvaluation | null;
  readonly note: KeptFractureNote | null;
  readonly fracture: FractureNote;
}

export const NOT_PULLED = {
  pull: null,
  curve: null,
  evaluation: null,
  standing: null,
  note: null,
  fracture: {},
} as const satisfies EvaluatedPull;

/** By the specimen's newest correction. Not evaluated while it is being recorded. */
export async function evaluatedPull(
  recorder: Recorder,
  pullId: number,
  { specimenId, specimen }: Pick<KeptSpecimen, 'specimenId' | 'specimen'>,
): Promise<EvaluatedPull & { readonly pull: KeptPull }> {
  const { curve, pull, standing, breakSeq, readAnew } = await recorder.archive.call('curve', pullId);
  if (pull.state !== 'ended') return { ...NOT_PULLED, pull };
  const evaluation = saidReadAnew(
    await runEvaluation(
      {
        curve,
        specimen,
        typed: pull.typed,
        options: standingOptions({ breakSeq }, standing),
      },
      recorder.options.evaluationHeapMib?.(),
    ),
    readAnew,
  );
  if (standing === null) keepFirstStated(recorder, { pullId, specimenId, evaluation });
  const note = standingNote(pull.fractureNotes);
  return {
    pull,
    curve,
    evaluation,
    standing,
    note,
    fracture: note === null ? {} : fractureOfNote(note.note),
  };
}

/** Gaps between trigger and break; what was not received before or after them takes nothing from the maximum. */
export function gapWords({ gaps, triggerSeq, breakSeq }: KeptPull): string[] {
  return gaps
    .filter(
      (gap) => gap.beforeSeq >= (triggerSeq ?? 0) && gap.beforeSeq <= (breakSeq ?? Number.MAX_SAFE_INTEGER),
    )
    .map((gap) => gap.words);
}
