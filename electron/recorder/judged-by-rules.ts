/** What the rules of a set say of an evaluated pull: its fracture, and every doubt of note, specimen, record and instruments. */
import { doubtsOfNote } from '../../core/acceptance/fracture-of-note.ts';
import type { JudgeOutcome } from '../../core/acceptance/judge-request.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import type { Evaluation } from '../../core/results/evaluation.ts';
import { measuredInInches } from '../../core/results/specimen-findings.ts';
import { doubtsOfInstruments } from '../../core/sets/doubts-of-instruments.ts';
import { doubtsOfProportions } from '../../core/sets/doubts-of-proportions.ts';
import { doubtsOfRecord } from '../../core/sets/doubts-of-record.ts';
import { judgeMember } from '../../core/sets/judge-member.ts';
import { otherPacksOfSet } from '../../core/sets/set-faults.ts';
import type { FrozenSet } from '../../core/sets/set-form.ts';
import type { Specimen } from '../../core/specimen/specimen.ts';
import { type EvaluatedPull, gapWords } from './evaluated-pull.ts';

type ToJudge = Pick<EvaluatedPull, 'note' | 'fracture'> & {
  readonly pull: KeptPull;
  readonly evaluation: Evaluation;
};

/** A person's override comes afterwards. */
export function judgedByRules(
  set: FrozenSet,
  { pull, evaluation, note, fracture }: ToJudge,
  specimen: Specimen,
): JudgeOutcome {
  return judgeMember({
    set,
    facts: {
      fracture,
      doubts: [
        ...(note === null ? [] : doubtsOfNote(note.note)),
        ...doubtsOfProportions(set, specimen),
        ...doubtsOfRecord({ gaps: gapWords(pull), speed: evaluation.speed }),
        ...doubtsOfInstruments({
          instruments: pull.instruments,
          maximumForce: evaluation.results.find((one) => one.symbol === 'Fm')?.value ?? null,
          calibrationAskedFor: set.pack.asksForCalibration === true,
        }),
      ],
    },
    evaluation,
    measuredIn: measuredInInches(specimen) ? 'US' : 'SI',
    packs: otherPacksOfSet(set),
  });
}
