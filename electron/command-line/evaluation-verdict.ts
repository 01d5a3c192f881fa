/** `evaluate … --rules ID --broke …`: the verdict on what was just evaluated. */
import { judgeEvaluation } from '../../core/acceptance/judge-evaluation.ts';
import type { Verdict } from '../../core/acceptance/verdict.ts';
import type { Evaluation } from '../../core/results/evaluation.ts';
import { measuredInInches } from '../../core/results/specimen-findings.ts';
import type { Specimen } from '../../core/specimen/specimen.ts';
import type { VerbArguments } from './arguments.ts';
import { JUDGING_OPTIONS, judgingRequest, packAsked, verdictOrFault } from './judging-options.ts';
import { packsAtHand } from './rule-pack-argument.ts';
import { InputError } from './verb.ts';

/** The verdict, or null where no rule pack is named. Throws an InputError, also for options that need --rules. */
export async function verdictOnEvaluation(
  given: VerbArguments,
  evaluation: Evaluation,
  specimen: Specimen | null,
): Promise<Verdict | null> {
  if (given.texts('rules').length === 0) {
    const lonely = Object.keys(JUDGING_OPTIONS).find((option) => given.texts(option).length > 0);
    if (lonely === undefined) return null;
    throw new InputError(
      'rules-missing',
      `--${lonely} belongs to a verdict; add --rules ("gaugemark rules list" shows the packs) or leave it out.`,
      'rules',
    );
  }
  const atHand = await packsAtHand(given.text('rules-folder'));
  return verdictOrFault(
    judgeEvaluation({
      pack: packAsked(given, atHand),
      request: judgingRequest(given),
      evaluation,
      measuredIn: specimen !== null && measuredInInches(specimen) ? 'US' : 'SI',
      packs: atHand.packs,
    }),
  );
}
