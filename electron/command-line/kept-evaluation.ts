/** Evaluations of an archived pull from the command line: by what stands, by other options, and kept with a reason. */
import { statedOptions } from '../../core/evaluation/stated-options.ts';
import type { KeptEvaluation } from '../../core/contract/evaluation-requests.ts';
import type { ImportPlan } from '../../core/exchange/import/import-plan.ts';
import { mergedOptions } from '../../core/evaluation/merged-options.ts';
import type { ChosenRules } from '../../core/acceptance/rule-pack.ts';
import type { EvaluationOptions } from '../../core/results/evaluation.ts';
import type { VerbArguments } from './arguments.ts';
import type { BlankRunOfPull } from './blank-run-asked.ts';
import { PLAN_FLAGS } from './plan-asked.ts';
import { type GivenOptions, asksForOptions, checkedOptions, optionsGiven } from './evaluation-options.ts';
import { InputError } from './verb.ts';

/** Flags of `archive` about evaluations that are kept. */
export const KEEPING_FLAGS = {
  ...PLAN_FLAGS,
  'judged-by': { type: 'string' },
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
 *
 * @param judgedBy what `--judged-by` named; undefined without it, null for the rules of the set.
 * @param importPlan what --columns, --first-row or --decimal-sign settled for an imported file.
 * @param blankRun what `--compliance` named, where it is a pull.
 */
export function askedEvaluation(
  given: VerbArguments,
  standing: KeptEvaluation | null,
  {
    judgedBy,
    blankRun = null,
    importPlan,
  }: {
    readonly judgedBy?: ChosenRules | null | undefined;
    readonly blankRun?: BlankRunOfPull | null;
    readonly importPlan?: ImportPlan | undefined;
  } = {},
): AskedEvaluation {
  const asRecorded = given.has('as-recorded');
  const stands: GivenOptions = asRecorded || standing === null ? { options: {}, sources: [] } : standing;
  if (!asRecorded && judgedBy === undefined && importPlan === undefined && !asksForOptions(given))
    return { ...stands, asked: false };
  const under = judgedBy === undefined ? stands : { ...stands, options: ruledBy(stands.options, judgedBy) };
  const over = optionsGiven(given, blankRun);
  return {
    options: checkedOptions(
      mergedOptions(under.options, { ...over.options, ...(importPlan === undefined ? {} : { importPlan }) }),
    ),
    sources: [
      ...under.sources.filter((one) => !over.sources.some((o) => o.what === one.what)),
      ...over.sources,
    ],
    asked: true,
  };
}

/** Null goes back to the rules of the set. */
function ruledBy(options: EvaluationOptions, judgedBy: ChosenRules | null): EvaluationOptions {
  const ruled: { -readonly [K in keyof EvaluationOptions]: EvaluationOptions[K] } = { ...options };
  if (judgedBy === null) delete ruled.judgedBy;
  else ruled.judgedBy = judgedBy;
  return ruled;
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
