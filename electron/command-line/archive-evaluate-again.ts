/** `gaugemark archive evaluate-again WORD…`: a whole search evaluated once more by this program, what changed listed, kept only when asked. */
import type { Outcome } from '../../core/acceptance/verdict.ts';
import type { KeptValue } from '../../core/contract/evaluation-requests.ts';
import {
  AGAIN_PULLS_MAX,
  type EvaluatedAgain,
  type SetAgain,
  type StatedBefore,
  evaluateAgain,
  flips,
  keepAgain,
  setsAgain,
} from '../../core/evaluation/evaluate-again.ts';
import { type DisplaySystem, UNIT_SYSTEMS, inDisplayUnit } from '../../core/quantity/display-unit.ts';
import { numberText } from '../../core/quantity/number-text.ts';
import { METHOD_VERSION } from '../../core/results/evaluation.ts';
import { type VerbArguments, oneOf } from './arguments.ts';
import { type BlankRunOfPull, blankRunAsked, namesBlankPull } from './blank-run-asked.ts';
import { EVALUATION_FLAGS } from './evaluation-flags.ts';
import { type GivenOptions, asksForOptions, checkedOptions, optionsGiven } from './evaluation-options.ts';
import { foundPulls } from './found-pulls.ts';
import { existingArchive, recorderAccess } from './recorder-access.ts';
import { saidBy } from './said.ts';
import { SEARCH_FLAGS, asksForVerdicts } from './search-flags.ts';
import { searchedFor } from './searched-for.ts';
import { EXIT_DONE, type ExitCode, InputError, type VerbIo } from './verb.ts';

export const ARCHIVE_AGAIN_USAGE =
  'gaugemark archive evaluate-again [WORD… | --search TEXT] --archive FILE [filters] [options] [--keep --reason TEXT [--operator NAME]] [--units si|us] [--json]';

export const ARCHIVE_AGAIN_HELP = `  evaluate-again
           every pull that a search finds (words and filters as for search), evaluated by this program and compared with
           what was stated last: the evaluation that was kept, or the newer certificate; without either, what it was first
           worked out as in this archive, by the sizes of today. With options, these are laid over what stands. Lists what
           changed, and which pulls had nothing stated before that could be compared; then the sets of what changed, each
           with its verdict by what was stated and now. Changes nothing. --keep keeps an evaluation of each pull that
           changed, with the reason; it names the one that it supersedes. Ctrl+C ends it between two pulls; what was kept by
           then stays, and is listed`;

const OPTIONS = {
  ...SEARCH_FLAGS,
  ...EVALUATION_FLAGS,
  archive: { type: 'string' },
  keep: { type: 'boolean' },
  reason: { type: 'string' },
  operator: { type: 'string' },
  units: { type: 'string' },
  json: { type: 'boolean' },
} as const;

/** A word about how far it is after so many pulls. */
const TOLD_EVERY = 25;

export async function archiveEvaluateAgain(args: readonly string[], io: VerbIo): Promise<ExitCode> {
  const { given, query } = searchedFor(args, OPTIONS);
  const units = oneOf('units', given.text('units'), UNIT_SYSTEMS);
  const reason = given.text('reason')?.trim() ?? '';
  const keeps = given.has('keep');
  if (keeps && reason === '')
    throw new InputError(
      'reason-missing',
      '--reason TEXT is missing: why these evaluations take the place of the ones before.',
      'reason',
    );
  if (!keeps && (reason !== '' || given.text('operator') !== undefined))
    throw new InputError(
      'options-exclude',
      'A reason and a name belong to what is kept; add --keep, or leave them out.',
      'reason',
    );
  const blank = given.text('compliance');
  // What is wrong with the options is told before the archive is opened, but for a pull that is in it.
  const isBlankPull = blank !== undefined && namesBlankPull(blank);
  const before = isBlankPull ? null : optionsOver(given, null);
  const access = await recorderAccess({
    archive: existingArchive(given.text('archive')),
    toRecord: keeps || asksForVerdicts(query),
    note: io.err,
  });
  const ending = new AbortController();
  const stop = (): void => {
    ending.abort();
  };
  process.on('SIGINT', stop);
  try {
    const over = isBlankPull ? optionsOver(given, await blankRunAsked(given, access)) : before;
    const pullIds = await foundPulls(access, query, { most: AGAIN_PULLS_MAX, are: 'evaluated in one run' });
    const lines: (EvaluatedAgain & { readonly kept: number | null })[] = [];
    let seen = 0;
    const without: { readonly pullId: number; readonly specimen: string }[] = [];
    for await (const line of evaluateAgain({
      ask: access.ask,
      pullIds,
      over,
      isStopped: () => ending.signal.aborted,
    })) {
      seen++;
      if (line.against === null) without.push({ pullId: line.pullId, specimen: line.name });
      const kept =
        keeps && line.changes.length > 0
          ? await keepAgain(access.ask, line, { reason, ...saidBy(given) })
          : null;
      if (line.changes.length > 0) {
        lines.push({ ...line, kept });
        if (!given.has('json')) io.out(changedText(line, kept, units));
      }
      if (seen % TOLD_EVERY === 0) io.err(`${String(seen)} of ${String(pullIds.length)} pulls evaluated`);
    }
    const sets: SetAgain[] = [];
    for await (const set of setsAgain(access.ask, lines, () => ending.signal.aborted)) {
      sets.push(set);
      if (!given.has('json')) io.out(setText(set));
    }
    if (given.has('json'))
      io.out(
        JSON.stringify({
          method: METHOD_VERSION,
          found: pullIds.length,
          evaluated: seen,
          stopped: ending.signal.aborted,
          nothingStatedBefore: without,
          changed: lines.map(({ pullId, name, against, changes, kept }) => ({
            pullId,
            specimen: name,
            against,
            changes,
            kept,
          })),
          sets: sets.map((set) => ({ ...set, flips: flips(set) })),
        }),
      );
    else {
      if (without.length > 0)
        io.out(
          `nothing stated before: ${without.map(({ pullId, specimen }) => `pull ${String(pullId)} ${specimen}`).join(', ')}`,
        );
      io.out(
        `${String(seen)} of ${String(pullIds.length)} pulls evaluated by method ${METHOD_VERSION}${ending.signal.aborted ? ', then stopped' : ''}; ${String(lines.length)} changed${keeps ? ' and kept' : ', nothing kept'}; ${String(without.length)} had nothing stated before; ${String(sets.filter(flips).length)} of ${String(sets.length)} sets touched are judged otherwise.`,
      );
    }
    return EXIT_DONE;
  } finally {
    process.off('SIGINT', stop);
    await access.end();
  }
}

function statedText(against: StatedBefore): string {
  switch (against.from) {
    case 'evaluation':
    case 'certificate':
      return `against ${against.from} ${against.number}`;
    case 'as-it-stands':
      return 'against as it stands';
    case 'first-stated':
      return `as first worked out on ${new Date(against.statedWallMs).toISOString()} by Gaugemark ${against.programVersion}`;
  }
}

/** A line of the pull, and one of each value. */
function changedText(
  { pullId, name, against, changes }: EvaluatedAgain,
  kept: number | null,
  units: DisplaySystem | undefined,
): string {
  const before = against === null ? '' : ` ${statedText(against)}, method ${against.methodVersion}`;
  return [
    `pull ${String(pullId)} ${name}${before}${kept === null ? '' : `; evaluation ${String(kept)} kept`}`,
    ...changes.map(
      (change) =>
        `  ${change.symbol}: ${valueText(change.before, units)} → ${valueText(change.after, units)}`,
    ),
  ].join('\n');
}

const OUTCOME: Readonly<Record<Outcome, string>> = {
  accept: 'accepted',
  reject: 'rejected',
  undecided: 'undecided',
};
const outcomeText = (outcome: Outcome | null): string => (outcome === null ? 'no verdict' : OUTCOME[outcome]);

/** A line of the set, and one of each specimen whose verdict is another now. */
function setText({ setId, setName, before, after, members }: SetAgain): string {
  const was = outcomeText(before.outcome);
  return [
    `set ${String(setId)} ${setName}: ${before.outcome === after.outcome ? `${was} as before` : `${was} → ${outcomeText(after.outcome)}`}`,
    ...members
      .filter((member) => member.before !== member.after)
      .map(
        (member) => `  ${member.specimenName}: ${outcomeText(member.before)} → ${outcomeText(member.after)}`,
      ),
  ].join('\n');
}

const DIGITS = 6;

function valueText(value: KeptValue | null, units: DisplaySystem | undefined): string {
  if (value === null) return 'not given';
  const shown = units === undefined ? value : inDisplayUnit(value.value, value.unit, units);
  return `${numberText(shown.value, DIGITS)} ${shown.unit}`;
}

/** Null where no option is named. Throws an InputError. */
function optionsOver(given: VerbArguments, blankRun: BlankRunOfPull | null): GivenOptions | null {
  if (!asksForOptions(given)) return null;
  const asked = optionsGiven(given, blankRun);
  if (asked.options.judgedBy !== undefined)
    throw new InputError(
      'rules-for-many',
      'Other rules are chosen for one pull, with archive evaluate ID --judged-by; leave "judgedBy" out of the options of a whole search.',
      'options',
    );
  return { ...asked, options: checkedOptions(asked.options) };
}
