/** Results of many pulls as they are looked at together: one quantity over the date, the heat, the filler lot or the welder. */
import type { QuantityName } from '../acceptance/material.ts';
import type { KeptValue } from '../contract/evaluation-requests.ts';
import type { Ask, ReplyOf } from '../contract/index.ts';
import type { FoundPull } from '../contract/search-requests.ts';
import { READINGS_ORIGINS, type ReadingsOrigin } from '../pull/readings-origin.ts';
import { clockMsOf } from '../pull/stated-day.ts';
import { UNITS, convert } from '../quantity/units.ts';

/**
 * Pulls of one trend. What this program has worked out before is read, hundreds at a time; any other is evaluated, which
 * takes from a hundredth of a second to seconds.
 */
export const TREND_PULLS_MAX = 20_000;
/** Lines asked for at a time, and with them what is known of their values. */
const LINES_AT_A_TIME = 200;

/**
 * By the symbols of ISO 6892-1: strength, yield (by offset, upper, lower, at a total extension), elongation after fracture.
 * These are offered always, and beside them every other proof strength that one of the evaluations gives.
 */
export const TREND_QUANTITIES = ['Rm', 'Rp0.2', 'ReH', 'ReL', 'Rt0.5', 'A'] as const;
/** One of those, or the symbol of a proof strength at any offset (Rp1) or total extension (Rt0.7). */
export type TrendQuantity = string;

/** Rm, ReH, ReL, A, Rp and Rt with their percentage. */
export const isTrendQuantity = (symbol: string): boolean =>
  /^(Rm|Re[HL]|A|R[pt]\d{1,3}(\.\d{1,4})?)$/.test(symbol);

/** Those that are offered for these pulls: the usual ones, then what else they give, in the order of the symbols. */
export const offeredQuantities = (pulls: readonly TrendPull[]): TrendQuantity[] => {
  const usual: readonly string[] = TREND_QUANTITIES;
  const others = new Set(
    pulls.flatMap(({ values }) => Object.keys(values)).filter((one) => !usual.includes(one)),
  );
  const percent = (symbol: string): number => Number(symbol.slice(2));
  return [
    ...usual,
    ...[...others].sort((a, b) => a.slice(0, 2).localeCompare(b.slice(0, 2)) || percent(a) - percent(b)),
  ];
};

/** In MPa, or in %. */
export const trendUnit = (quantity: TrendQuantity): 'MPa' | '%' => (quantity === 'A' ? '%' : 'MPa');

export const TREND_GROUPINGS = ['date', 'heat', 'lot', 'welder'] as const;
export type TrendGrouping = (typeof TREND_GROUPINGS)[number];

/** The quantity of the rules that a result is compared as. */
export const ruleQuantity = (quantity: TrendQuantity): QuantityName =>
  quantity === 'Rm' ? 'tensile-strength' : quantity === 'A' ? 'elongation' : 'yield-strength';

export interface TrendPull {
  readonly pullId: number;
  readonly name: string;
  readonly startedWallMs: number;
  /** The day that was stated of an imported pull; null where nobody did. */
  readonly pulledOn: string | null;
  /** Its date by the clock of the place, as stated or of the start, as if that clock were UTC: milliseconds. */
  readonly clockMs: number;
  readonly setId: number | null;
  /** Where no frame gave its readings; else null. */
  readonly readings: ReadingsOrigin | null;
  /** Base-metal heats, filler lots, welder of the set; empty where nothing is written. */
  readonly heat: string;
  readonly lot: string;
  readonly welder: string;
  /** MPa, and % for A; what the pull does not give is absent. */
  readonly values: Readonly<Record<TrendQuantity, number>>;
}

/** Least value that a rule asks for, with the words that say where it comes from. */
export interface TrendMinimum {
  /** MPa or %. */
  readonly value: number;
  readonly from: string;
  /** Sets whose rules ask for it. */
  readonly setIds: readonly number[];
}

export interface TrendGathering {
  readonly ask: Ask;
  readonly pullIds: readonly number[];
  /** Asked before each pull. */
  readonly isStopped: () => boolean;
}

/** One after the other, in the order asked; void pulls and those without a finished record are left out. */
export async function* trendPulls({ ask, pullIds, isStopped }: TrendGathering): AsyncGenerator<TrendPull> {
  const sets = new Map<number, Pick<TrendPull, 'heat' | 'lot' | 'welder'>>();
  for (let at = 0; at < pullIds.length && !isStopped(); at += LINES_AT_A_TIME) {
    const { items } = await ask('archive.lines', { pullIds: pullIds.slice(at, at + LINES_AT_A_TIME) });
    const lines = items.filter(({ ended, voidReason }) => ended && voidReason === null);
    const known = new Map<number, readonly KeptValue[]>();
    if (lines.length > 0 && !isStopped())
      for (const one of (await ask('evaluation.known', { pullIds: lines.map(({ pullId }) => pullId) })).items)
        known.set(one.pullId, one.values);
    for (const line of lines) {
      if (isStopped()) return;
      yield await trendPull(ask, line, { sets, known: known.get(line.pullId) });
    }
  }
}

async function trendPull(
  ask: Ask,
  { pullId, specimenName: name, startedWallMs, started, pulledOn, setId, origin }: FoundPull,
  {
    sets,
    known,
  }: {
    readonly sets: Map<number, Pick<TrendPull, 'heat' | 'lot' | 'welder'>>;
    readonly known: readonly KeptValue[] | undefined;
  },
): Promise<TrendPull> {
  let facts = setId === null ? { heat: '', lot: '', welder: '' } : sets.get(setId);
  if (facts === undefined) {
    const { form } = (await ask('set.get', { setId: setId ?? 0 })).set;
    facts = {
      heat: form.baseMetals.flatMap(({ heat }) => heat ?? []).join(', '),
      lot: form.filler?.lot ?? '',
      welder: form.welder ?? '',
    };
    sets.set(setId ?? 0, facts);
  }
  const results: readonly KeptValue[] = known ?? (await ask('pull.evaluate', { pullId })).results;
  const values: Record<TrendQuantity, number> = {};
  for (const { symbol, value, unit } of results)
    if (isTrendQuantity(symbol) && values[symbol] === undefined)
      values[symbol] = convert(value, unit, UNITS[unit].dimension === 'stress' ? 'MPa' : '%');
  const clockMs = pulledOn === null ? Date.parse(`${started.slice(0, 23)}Z`) : clockMsOf(pulledOn);
  const readings = READINGS_ORIGINS.find((one) => one === origin) ?? null;
  return { pullId, name, startedWallMs, pulledOn, clockMs, setId, readings, ...facts, values };
}

type SetVerdicts = ReplyOf<'set.judge'>['members'];
type Check = NonNullable<SetVerdicts[number]['verdict']>['checks'][number];

/** What the rules of a set said of its members; a pull that counts for none of them is not among these. */
export interface JudgedSet {
  readonly setId: number;
  readonly members: readonly JudgedMember[];
}

export interface JudgedMember {
  readonly pullId: number | null;
  /** Null where no verdict could be worked out. */
  readonly checks: readonly Check[] | null;
}

/** The sets of these pulls, each once. */
export const setsOf = (pulls: readonly TrendPull[]): ReadonlySet<number> =>
  new Set(pulls.flatMap(({ setId }) => setId ?? []));

/** One after the other. */
export async function* judgedSets(ask: Ask, setIds: Iterable<number>): AsyncGenerator<JudgedSet> {
  for (const setId of setIds) yield await judgedSet(ask, setId);
}

export async function judgedSet(ask: Ask, setId: number): Promise<JudgedSet> {
  const { members: kept } = await ask('set.get', { setId });
  const { members } = await ask('set.judge', { setId });
  return {
    setId,
    members: members.map(({ setMemberId, verdict }) => ({
      pullId: kept.find((member) => member.setMemberId === setMemberId)?.pullId ?? null,
      checks: verdict?.checks ?? null,
    })),
  };
}

/**
 * Why a value was held against no minimum: its pull is in no set · its set was not judged, or not yet · it counts for no
 * member · its verdict could not be worked out · its rules ask for no least value of the result · they compared another
 * value · they could not decide.
 */
export const NOT_JUDGED = [
  'no-set',
  'set-waits',
  'not-counted',
  'no-verdict',
  'nothing-asked',
  'other-value',
  'undecided',
] as const;
export type NotJudged = (typeof NOT_JUDGED)[number];

export interface TrendRules {
  /** What the rules ask for at least, each figure once, the least first. */
  readonly minima: readonly TrendMinimum[];
  /** Whether its own verdict found the value of a pull short; what was not compared is absent. */
  readonly isShort: ReadonlyMap<TrendPull, boolean>;
  /** Why not, of every pull that gives the result and is absent there. */
  readonly whyNot: ReadonlyMap<TrendPull, NotJudged>;
}

/**
 * The figures from all these sets; whether a pull falls short only from the comparison of its own verdict, which is made
 * of the value as the rules round it, in their unit, exactly.
 */
export function trendRules(
  sets: readonly JudgedSet[],
  pulls: readonly TrendPull[],
  quantity: TrendQuantity,
): TrendRules {
  const unit = trendUnit(quantity);
  const minima = new Map<number, TrendMinimum>();
  const isShort = new Map<TrendPull, boolean>();
  const whyNot = new Map<TrendPull, NotJudged>();
  const byId = new Map(pulls.map((pull) => [pull.pullId, pull]));
  const judged = new Set(sets.map(({ setId }) => setId));
  for (const pull of pulls)
    if (pull.values[quantity] !== undefined)
      whyNot.set(pull, pull.setId === null ? 'no-set' : judged.has(pull.setId) ? 'not-counted' : 'set-waits');
  for (const { setId, members } of sets)
    for (const { pullId, checks } of members) {
      const asked = (checks ?? []).filter(
        (check) =>
          check.quantity === ruleQuantity(quantity) &&
          check.limit !== null &&
          (check.comparison === 'at-least' || check.comparison === 'more-than'),
      );
      for (const { limit, limitFrom } of asked) {
        if (limit === null) continue;
        const value = convert(limit.value, limit.unit, unit);
        const before = minima.get(value);
        minima.set(value, {
          value,
          from: before?.from ?? limitFrom ?? limit.text,
          setIds: [...new Set([...(before?.setIds ?? []), setId])],
        });
      }
      const pull = pullId === null ? undefined : byId.get(pullId);
      const value = pull?.setId === setId ? pull.values[quantity] : undefined;
      if (pull === undefined || value === undefined) continue;
      if (checks === null) whyNot.set(pull, 'no-verdict');
      else if (asked.length === 0) whyNot.set(pull, 'nothing-asked');
      else if (!asked.every(decides)) whyNot.set(pull, 'undecided');
      else if (!asked.every((check) => isOf(check, value, unit))) whyNot.set(pull, 'other-value');
      else {
        whyNot.delete(pull);
        isShort.set(
          pull,
          asked.some(({ state }) => state === 'not-met'),
        );
      }
    }
  return { minima: [...minima.values()].sort((a, b) => a.value - b.value), isShort, whyNot };
}

/** The rules of pulls from several archives, each gathered by itself: the numbers of sets and pulls mean something there only. */
export function rulesOfAll(parts: readonly TrendRules[]): TrendRules {
  const minima = new Map<number, TrendMinimum>();
  for (const one of parts.flatMap((part) => part.minima))
    if (!minima.has(one.value)) minima.set(one.value, one);
  return {
    minima: [...minima.values()].sort((a, b) => a.value - b.value),
    isShort: new Map(parts.flatMap(({ isShort }) => [...isShort])),
    whyNot: new Map(parts.flatMap(({ whyNot }) => [...whyNot])),
  };
}

const decides = ({ state }: Check): boolean => state === 'met' || state === 'not-met';

/** A judgement keeps twelve figures of a measured value. */
const SAME_VALUE = 1e-11;

/** Whether this value was compared: rules have one yield strength, and a pull may give several. */
function isOf({ measured }: Check, value: number, unit: 'MPa' | '%'): boolean {
  if (measured === null) return false;
  return Math.abs(convert(measured.value, measured.unit, unit) - value) <= SAME_VALUE * Math.abs(value);
}
