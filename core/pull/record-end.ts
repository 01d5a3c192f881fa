/** When an open record ends by itself: after its tail, or after the time for which it is held open. */
import type { PullState } from './pull-state.ts';

type Ends = Pick<PullState, 'tailEndsAtUs' | 'closesAtUs'>;

/** While a pull is running no end is planned. */
export const NO_END: Ends = { tailEndsAtUs: null, closesAtUs: null };

const after = (us: number, seconds: number | null): number | null =>
  seconds === null ? null : us + Math.round(seconds * 1e6);

/** Tail and end of a record whose specimen broke at `us`, or whose load went again then after it had come back. */
export function endsAfterBreak({ rules }: Pick<PullState, 'rules'>, us: number): Ends {
  return { tailEndsAtUs: after(us, rules.tailS), closesAtUs: after(us, rules.heldOpenS ?? rules.tailS) };
}

/** … while there is load behind the break: a tail waits for its end, and only holding open has a bound. */
export function endsUnderLoad({ rules }: Pick<PullState, 'rules'>, us: number): Ends {
  return { tailEndsAtUs: null, closesAtUs: after(us, rules.heldOpenS) };
}

/** … of a record stopped by hand at `us`: where it is not held open, only a person ends it. */
export function endsAfterStop({ rules }: Pick<PullState, 'rules'>, us: number): Ends {
  return { tailEndsAtUs: after(us, rules.tailS), closesAtUs: after(us, rules.heldOpenS) };
}

/** The load stands above the break's limit again for as many readings as the rule asks for. */
export function loadIsBack({ state, rules, returnRun }: PullState): boolean {
  const { breakRule } = rules;
  return state === 'broken' && breakRule.kind === 'force-drop' && returnRun.count >= breakRule.readings;
}

/** Nothing more is expected of it, but it is held open: it may be put away without asking. */
export function waitsToBePutAway({ state, rules }: PullState): boolean {
  return rules.heldOpenS !== null && (state === 'broken' || state === 'stopped');
}

/** "closed by itself 3 s after the break": why a record ended without a person. */
export function endWords({ state, rules, break: at, closesAtUs }: PullState): string {
  const seconds = String((state === 'stopped' ? rules.heldOpenS : (rules.heldOpenS ?? rules.tailS)) ?? 0);
  if (state === 'stopped') return `closed by itself ${seconds} s after the stop`;
  const countedFromBreak = at !== null && endsAfterBreak({ rules }, at.elapsedUs).closesAtUs === closesAtUs;
  return countedFromBreak
    ? `closed by itself ${seconds} s after the break`
    : `closed by itself ${seconds} s after the last load behind the break`;
}
