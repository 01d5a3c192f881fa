/**
 * Many pulls evaluated once more, by this program and by other options if wanted, against what was stated of them last:
 * the evaluation that was kept, or the certificate; without either, what they were first worked out as. Nothing is kept
 * here but what is asked for afterwards.
 */
import type {
  CertifiedValues,
  FirstStated,
  KeptEvaluation,
  KeptValue,
  OptionSource,
} from '../contract/evaluation-requests.ts';
import type { Ask, ReplyOf } from '../contract/index.ts';
import type { FoundPull } from '../contract/search-requests.ts';
import { UNITS, convert } from '../quantity/units.ts';
import type { Evaluation, EvaluationOptions } from '../results/evaluation.ts';
import { SET_MEMBERS_MAX } from '../sets/set-form.ts';
import { mergedOptions } from './merged-options.ts';

/** Pulls of one run; each takes from a hundredth of a second to seconds. */
export const AGAIN_PULLS_MAX = 20_000;
/** Lines asked for at a time. */
const LINES_AT_A_TIME = 50;
/** The same method on the same record gives the same number; the last bits may differ from machine to machine. */
export const RELATIVE_DIFFERENCE_MAX = 1e-9;

export interface ValueChange {
  readonly symbol: string;
  /** Null where it was not given. */
  readonly before: KeptValue | null;
  /** Null where it is not given any more. */
  readonly after: KeptValue | null;
}

/** Values that differ by more than rounding, and those that only one of them has. In the order of `before`. */
export function changedValues(before: readonly KeptValue[], after: readonly KeptValue[]): ValueChange[] {
  const symbols = [...new Set([...before, ...after].map(({ symbol }) => symbol))];
  return symbols.flatMap((symbol) => {
    const one = before.find((value) => value.symbol === symbol) ?? null;
    const other = after.find((value) => value.symbol === symbol) ?? null;
    return one !== null && other !== null && same(one, other) ? [] : [{ symbol, before: one, after: other }];
  });
}

function same(one: KeptValue, other: KeptValue): boolean {
  if (UNITS[one.unit].dimension !== UNITS[other.unit].dimension) return false;
  const now = convert(other.value, other.unit, one.unit);
  return Math.abs(now - one.value) <= RELATIVE_DIFFERENCE_MAX * Math.max(Math.abs(now), Math.abs(one.value));
}

/** What was stated of a pull before. `as-it-stands`: by this program, without the options that are asked for now. */
export type StatedBefore =
  | {
      readonly from: 'evaluation' | 'certificate' | 'as-it-stands';
      /** Number of the evaluation or of the certificate. */
      readonly number: string;
      readonly methodVersion: string;
    }
  | {
      /** Nobody kept anything: what a program gave when it first worked the pull out, by the sizes of today. */
      readonly from: 'first-stated';
      readonly statedWallMs: number;
      readonly programVersion: string;
      readonly methodVersion: string;
    };

export interface EvaluatedAgain {
  readonly pullId: number;
  readonly name: string;
  /** Null where nothing was stated that could have changed. */
  readonly against: StatedBefore | null;
  readonly changes: readonly ValueChange[];
  /** All that was stated; empty where nothing was. */
  readonly stated: readonly KeptValue[];
  /** What an evaluation would be kept by. */
  readonly options: EvaluationOptions;
  readonly sources: readonly OptionSource[];
  /** The evaluation that stands, which a kept one supersedes. */
  readonly standing: number | null;
}

export interface AgainRun {
  readonly ask: Ask;
  readonly pullIds: readonly number[];
  /** Laid over the options that stand; none asks what this program gives by the same. */
  readonly over: { readonly options: EvaluationOptions; readonly sources: readonly OptionSource[] } | null;
  /** Asked before each pull. */
  readonly isStopped: () => boolean;
}

/** One after the other; void pulls and those without a finished record are left out. */
export async function* evaluateAgain({
  ask,
  pullIds,
  over,
  isStopped,
}: AgainRun): AsyncGenerator<EvaluatedAgain> {
  for (let at = 0; at < pullIds.length && !isStopped(); at += LINES_AT_A_TIME) {
    const { items } = await ask('archive.lines', { pullIds: pullIds.slice(at, at + LINES_AT_A_TIME) });
    for (const line of items) {
      if (isStopped()) return;
      if (line.ended && line.voidReason === null) yield await again(ask, line, over);
    }
  }
}

async function again(
  ask: Ask,
  { pullId, specimenName: name }: FoundPull,
  over: AgainRun['over'],
): Promise<EvaluatedAgain> {
  const { standing, certified, first } = await ask('evaluation.stated', { pullId });
  const options =
    over === null ? (standing?.options ?? {}) : mergedOptions(standing?.options ?? {}, over.options);
  const now = keptValuesOf(await ask('pull.evaluate', { pullId, options }));
  const line = {
    pullId,
    name,
    options,
    sources: [
      ...(standing?.sources ?? []).filter((one) => !over?.sources.some(({ what }) => what === one.what)),
      ...(over?.sources ?? []),
    ],
    standing: standing?.evaluationId ?? null,
  };
  // With other options the question is what these change, and the same program says it of both.
  const stated = statedLast(standing, certified) ?? (over === null ? statedFirst(first) : null);
  if (stated !== null)
    return {
      ...line,
      against: stated.against,
      changes: changedValues(stated.values, now),
      stated: stated.values,
    };
  if (over === null) return { ...line, against: null, changes: [], stated: [] };
  const before = await ask('pull.evaluate', { pullId });
  return {
    ...line,
    against: { from: 'as-it-stands', number: '', methodVersion: before.methodVersion },
    changes: changedValues(keptValuesOf(before), now),
    stated: keptValuesOf(before),
  };
}

export const keptValuesOf = ({ results }: Evaluation): KeptValue[] =>
  results.map(({ symbol, value, unit }) => ({ symbol, value, unit }));

interface Stated {
  readonly against: StatedBefore;
  readonly values: readonly KeptValue[];
}

/** Only where a person kept nothing: to look at a pull takes nothing away from what was kept. */
function statedFirst(first: FirstStated | null): Stated | null {
  if (first === null) return null;
  const { values, ...said } = first;
  return { against: { from: 'first-stated', ...said }, values };
}

/** The newer of both. */
function statedLast(standing: KeptEvaluation | null, certified: CertifiedValues | null): Stated | null {
  if (certified !== null && certified.issuedWallMs > (standing?.keptWallMs ?? 0))
    return {
      against: {
        from: 'certificate',
        number: certified.number,
        methodVersion: certified.methodVersion,
      },
      values: certified.values,
    };
  return standing === null
    ? null
    : {
        against: {
          from: 'evaluation',
          number: String(standing.evaluationId),
          methodVersion: standing.methodVersion,
        },
        values: standing.values,
      };
}

/** What its rules say of a set by what was stated of its pulls, and by what this program gives. */
export interface SetAgain extends ReplyOf<'evaluation.judge-set'> {
  readonly setId: number;
}

/** Whether the set, or one of its specimens, is judged otherwise now. */
export const flips = ({ before, after, members }: SetAgain): boolean =>
  before.outcome !== after.outcome || members.some((member) => member.before !== member.after);

/**
 * The sets that changed pulls are in, one after the other; a pull may be in several. `isStopped` is asked before each.
 */
export async function* setsAgain(
  ask: Ask,
  changed: readonly EvaluatedAgain[],
  isStopped: () => boolean,
): AsyncGenerator<SetAgain> {
  const touched = new Map<number, EvaluatedAgain[]>();
  for (const line of changed) {
    if (isStopped()) return;
    const { places } = await ask('set.of-specimen', { pullId: line.pullId });
    for (const setId of new Set(places.map((place) => place.setId)))
      touched.set(setId, [...(touched.get(setId) ?? []), line]);
  }
  for (const [setId, lines] of touched) {
    if (isStopped()) return;
    const pulls = lines.slice(0, SET_MEMBERS_MAX).map(({ pullId, stated, options }) => ({
      pullId,
      stated: [...stated],
      options,
    }));
    yield { setId, ...(await ask('evaluation.judge-set', { setId, pulls })) };
  }
}

/** Keeps what was found as what stands from now on; it names what it supersedes. Its number. */
export async function keepAgain(
  ask: Ask,
  { pullId, options, sources, standing }: EvaluatedAgain,
  said: { readonly reason: string; readonly by?: string },
): Promise<number> {
  const { evaluationId } = await ask('evaluation.keep', {
    pullId,
    options,
    sources: [...sources],
    supersedes: standing,
    ...said,
  });
  return evaluationId;
}
