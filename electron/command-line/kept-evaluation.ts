/** Evaluations of an archived pull from the command line: by what stands, by other options, and kept with a reason. */
import { statedOptions } from '../../core/evaluation/stated-options.ts';
import type { KeptEvaluation } from '../../core/contract/evaluation-requests.ts';
import { mergedOptions } from '../../core/evaluation/merged-options.ts';
import type { EvaluationOptions } from '../../core/results/evaluation.ts';
import type { VerbArguments } from './arguments.ts';
import { type GivenOptions, asksForOptions, checkedOptions, optionsGiven } from './evaluation-options.ts';
import { InputError } from './verb.ts';

/** Flags of `archive` about evaluations that are kept. */
export const KEEPING_FLAGS = {
  'as-recorded': { type: 'boolean' },
  reason: { type: 'string' },
  operator: { type: 'string' },
} as const;

export interface AskedEvaluation extends GivenOptions {
  /** False where what stands is shown as it is. */
  readonly asked: boolean;
}

/**
 * The flags laid over the options of the evaluation that stands; `--as-recorded` leaves those out. Throws an
 * InputError.
 */
export function askedEvaluation(given: VerbArguments, standing: KeptEvaluation | null): AskedEvaluation {
  const asRecorded = given.has('as-recorded');
  const under: GivenOptions = asRecorded || standing === null ? { options: {}, sources: [] } : standing;
  if (!asRecorded && !asksForOptions(given)) return { ...under, asked: false };
  const over = optionsGiven(given);
  return {
    options: checkedOptions(mergedOptions(under.options, over.options)),
    sources: [
      ...under.sources.filter((one) => !over.sources.some((o) => o.what === one.what)),
      ...over.sources,
    ],
    asked: true,
  };
}

/** Throws an InputError where neither options nor the way back are asked for, or the reason is missing. */
export function checkKeeping(given: VerbArguments, { asked }: AskedEvaluation, pullId: number): string {
  if (!asked)
    throw new InputError(
      'options-missing',
      `Nothing is asked for that differs; give options, or --as-recorded to go back to pull ${String(pullId)} as recorded.`,
      'options',
    );
  const reason = given.text('reason')?.trim() ?? '';
  if (reason === '')
    throw new InputError(
      'reason-missing',
      '--reason TEXT is missing: why this evaluation takes the place of the one before.',
      'reason',
    );
  return reason;
}

/** One line for each evaluation kept, what it departs in below it. */
export function historyText(evaluations: readonly KeptEvaluation[]): string {
  if (evaluations.length === 0) return 'The pull stands as recorded; no evaluation of it was kept.';
  return evaluations
    .flatMap((one, place) => [
      `${String(one.evaluationId).padStart(5)}  ${new Date(one.keptWallMs).toISOString()}  ${one.by ?? 'no name given'}: ${one.reason}${place === evaluations.length - 1 ? '  (stands)' : ''}`,
      `         supersedes ${one.supersedes === null ? 'the pull as recorded' : `evaluation ${String(one.supersedes)}`}; Gaugemark ${one.programVersion}, method ${one.methodVersion}`,
      ...optionLines(one.options),
    ])
    .join('\n');
}

function optionLines(options: EvaluationOptions): string[] {
  const stated = statedOptions(options);
  return stated.length === 0
    ? ['         as recorded, nothing corrected']
    : stated.map(({ sentence }) => `         ${sentence}`);
}
