/** The verdict on a set: enough specimens, each accepted, or every failed one replaced as the pack allows. */
import { convertExact } from '../quantity/units.ts';
import { parseQuantity } from '../quantity/parse-quantity.ts';
import { packListing } from './packs.ts';
import type { RulePack } from './read-rule-pack.ts';
import type { RequiredCount } from './rule-pack.ts';
import type { Outcome, PackName } from './verdict.ts';

export interface SetMember {
  readonly specimenId: string;
  /** Null while the specimen is not judged. */
  readonly outcome: Outcome | null;
  /** Specimen that this one is a retest of. */
  readonly retestOf?: string;
  /** Void specimens stay in the record and don't count. */
  readonly isVoid?: boolean;
  /** Pack that judged the specimen; a set doesn't mix packs. */
  readonly packId?: string;
}

export interface SetCase {
  readonly pack: RulePack;
  readonly members: readonly SetMember[];
  /**
   * Number that the set itself asks for. Counts where the pack gives none or a lower one; a lower one than the pack's
   * counts only as a deviation, with `fewerReason`.
   */
  readonly requiredCount?: number;
  /** Why the set asks for fewer specimens than its rules. */
  readonly fewerReason?: string;
  /** Pipe sizes as typed, where the pack's number depends on them. */
  readonly outsideDiameter?: string;
  readonly wall?: string;
}

export interface SetVerdict {
  readonly outcome: Outcome;
  readonly sentence: string;
  readonly pack: PackName;
  readonly required: { readonly count: number; readonly clause: string | null; readonly says: string } | null;
  readonly accepted: readonly string[];
  readonly rejected: readonly string[];
  readonly undecided: readonly string[];
  /** Failed specimens that their retests have replaced. */
  readonly replaced: readonly string[];
  readonly missing: readonly string[];
  readonly remarks: readonly string[];
  /** Where the set departs from its rules, with the reason that was given. */
  readonly deviations: readonly string[];
}

export function judgeSet(set: SetCase): SetVerdict {
  const counted = set.members.filter((member) => member.isVoid !== true);
  const first = counted.filter((member) => member.retestOf === undefined);
  const { required, deviation, unstated } = countOf(set);
  const missing: string[] = mixedPacks(set, counted);
  const judgedFirst = first.map((member) => ({ member, state: stateOf(member, counted, set, missing) }));
  const idsIn = (state: MemberState): string[] =>
    judgedFirst.filter((entry) => entry.state === state).map((entry) => entry.member.specimenId);
  const [accepted, rejected, undecided, replaced] = [
    idsIn('accepted'),
    idsIn('rejected'),
    idsIn('undecided'),
    idsIn('replaced'),
  ];
  const waitedFor = counted.filter(
    (member) =>
      outcomeWithRetests(member, counted) === 'undecided' &&
      (undecided.includes(member.specimenId) || undecided.includes(member.retestOf ?? '')),
  );
  for (const { specimenId } of waitedFor)
    missing.push(`${specimenId} has no accepted or rejected verdict yet`);
  const passed = accepted.length + replaced.length;
  const count = required?.count;
  const clause = required?.clause ?? null;
  if (count === undefined)
    missing.push('the number of specimens is not known; enter it from your copy of the code');
  else if (first.length < count) {
    missing.push(
      `${numbered(count, 'specimen is', 'specimens are')} asked for${clause === null ? '' : ` (${clause})`} and ${numbered(first.length, 'is', 'are')} there${unstated === null ? '' : `; ${unstated}`}`,
    );
  }
  if (first.length === 0) missing.push('no specimen is there');
  const outcome: Outcome = rejected.length > 0 ? 'reject' : missing.length > 0 ? 'undecided' : 'accept';
  const pack = packListing(set.pack);
  const called = set.pack.file.shortName ?? pack.name;
  return {
    outcome,
    sentence: setSentence(outcome, called, { rejected, replaced, missing, passed, deviation }),
    pack,
    required,
    accepted,
    rejected,
    undecided,
    replaced,
    missing: [...new Set(missing)],
    deviations: deviation === null ? [] : [deviation],
    remarks:
      replaced.length > 0 && set.pack.file.specimens.retest !== undefined
        ? [`Retest rule: ${set.pack.file.specimens.retest.says}`]
        : [],
  };
}

type MemberState = 'accepted' | 'rejected' | 'undecided' | 'replaced';

function stateOf(
  member: SetMember,
  counted: readonly SetMember[],
  set: SetCase,
  missing: string[],
): MemberState {
  if (member.outcome === 'accept') return 'accepted';
  if (member.outcome !== 'reject')
    return outcomeWithRetests(member, counted) === 'accept' ? 'replaced' : 'undecided';
  const retests = retestsOf(member, counted).map((retest) => outcomeWithRetests(retest, counted));
  const rule = set.pack.file.specimens.retest;
  if (rule === undefined || retests.length === 0) return 'rejected';
  if (retests.includes('reject')) return 'rejected';
  const passed = retests.filter((outcome) => outcome === 'accept').length;
  if (passed >= rule.perFailed && passed === retests.length) return 'replaced';
  missing.push(
    `${member.specimenId} failed and needs ${String(rule.perFailed)} accepted further ${rule.perFailed === 1 ? 'specimen' : 'specimens'} (${rule.clause}), ${String(passed)} so far`,
  );
  return 'undecided';
}

const retestsOf = ({ specimenId }: SetMember, counted: readonly SetMember[]): SetMember[] =>
  counted.filter((other) => other.retestOf === specimenId);

/**
 * A questionable specimen that was simply done again counts by those that replaced it; one that failed has failed.
 * A retest is always put in after what it replaces, so this ends; `deep` is for data that says otherwise.
 */
function outcomeWithRetests(
  member: SetMember,
  counted: readonly SetMember[],
  deep = counted.length,
): Outcome {
  if (member.outcome === 'accept' || member.outcome === 'reject') return member.outcome;
  const retests = retestsOf(member, counted);
  return deep > 0 &&
    retests.length > 0 &&
    retests.every((retest) => outcomeWithRetests(retest, counted, deep - 1) === 'accept')
    ? 'accept'
    : 'undecided';
}

function mixedPacks(set: SetCase, counted: readonly SetMember[]): string[] {
  const others = counted.filter(
    (member) => member.packId !== undefined && member.packId !== set.pack.file.id,
  );
  return others.map(
    (member) =>
      `${member.specimenId} was judged by ${member.packId ?? ''}, the set by ${set.pack.file.id}; a set is judged by one pack, so judge it again by that`,
  );
}

interface Count {
  readonly required: SetVerdict['required'];
  /** In a sentence, where the set asks for fewer than its rules and says why. */
  readonly deviation: string | null;
  /** The same where it doesn't say why: then the rules' number stands. */
  readonly unstated: string | null;
}

/** The number that is asked for: the pack's, or the set's where it asks for more or states that it asks for fewer. */
function countOf(set: SetCase): Count {
  const own = set.requiredCount;
  const fitting = set.pack.file.specimens.required.find((candidate) => fits(candidate, set));
  const ofPack =
    fitting === undefined ? null : { count: fitting.count, clause: fitting.clause, says: fitting.says };
  const asEntered = (count: number, says: string): Count['required'] => ({ count, clause: null, says });
  const plain = { deviation: null, unstated: null };
  if (own === undefined) return { required: ofPack, ...plain };
  if (ofPack === null || own >= ofPack.count)
    return { required: asEntered(own, 'The number that was entered for the set.'), ...plain };
  const reason = set.fewerReason?.trim() ?? '';
  const rules = set.pack.file.shortName ?? set.pack.file.name;
  if (reason === '')
    return {
      required: ofPack,
      deviation: null,
      unstated: `the set itself asks for ${String(own)} and doesn't say why fewer than ${rules} asks for are enough`,
    };
  const instead = `${numbered(own, 'specimen', 'specimens')} instead of the ${String(ofPack.count)} that ${rules} asks for (${ofPack.clause})`;
  return {
    required: asEntered(own, `${instead}: ${reason}`),
    deviation: `${instead}: ${reason}`,
    unstated: null,
  };
}

const numbered = (count: number, one: string, several: string): string =>
  `${String(count)} ${count === 1 ? one : several}`;

function fits(candidate: RequiredCount, set: SetCase): boolean {
  const { outsideDiameterOver, outsideDiameterUpTo, wallOver, wallUpTo } = candidate.when;
  return (
    isOver(set.outsideDiameter, outsideDiameterOver) &&
    isUpTo(set.outsideDiameter, outsideDiameterUpTo) &&
    isOver(set.wall, wallOver) &&
    isUpTo(set.wall, wallUpTo)
  );
}

function isOver(size: string | undefined, bound: string | undefined): boolean {
  if (bound === undefined) return true;
  const order = compareLengths(size, bound);
  return order !== null && order > 0;
}

function isUpTo(size: string | undefined, bound: string | undefined): boolean {
  if (bound === undefined) return true;
  const order = compareLengths(size, bound);
  return order !== null && order <= 0;
}

function compareLengths(size: string | undefined, bound: string): number | null {
  if (size === undefined) return null;
  const [a, b] = [
    parseQuantity(size, { dimension: 'length' }),
    parseQuantity(bound, { dimension: 'length' }),
  ];
  if (!a.ok || !b.ok) return null;
  return convertExact(a.quantity.exact, a.quantity.unit, b.quantity.unit).compare(b.quantity.exact);
}

const TESTS_PASSED: Readonly<Record<number, string>> = {
  0: 'no test is asked for, none',
  1: 'its one test',
  2: 'both tests',
};

function setSentence(
  outcome: Outcome,
  packCalled: string,
  facts: {
    readonly rejected: readonly string[];
    readonly replaced: readonly string[];
    readonly missing: readonly string[];
    readonly passed: number;
    readonly deviation: string | null;
  },
): string {
  switch (outcome) {
    case 'accept': {
      const retested = facts.replaced.length === 0 ? '' : `, ${facts.replaced.join(', ')} by way of retests`;
      const tests = TESTS_PASSED[facts.passed] ?? `all ${String(facts.passed)} tests`;
      const deviating = facts.deviation === null ? '' : ` with a deviation (${facts.deviation})`;
      return `The set is accepted by ${packCalled}${deviating}: ${tests} passed${retested}.`;
    }
    case 'reject':
      return `The set is rejected by ${packCalled}: ${facts.rejected.join(', ')} failed.`;
    case 'undecided':
      return `The set is undecided by ${packCalled}: ${[...new Set(facts.missing)].join('; ')}.`;
  }
}
