/** Two evaluations of the same pull beside each other: every symbol that either of them gives, in order. */
import type { Evaluation } from '../results/evaluation.ts';
import type { Result } from '../results/result.ts';

export interface BesideEachOther {
  readonly symbol: string;
  readonly name: string;
  /** Null where that evaluation doesn't give it. */
  readonly before: Result | null;
  readonly after: Result | null;
  /** Why it is not given, where only one of them gives it. */
  readonly reason: string | null;
  readonly changed: boolean;
}

/** Those of `before` in its order, then what only `after` gives. */
export function besideEachOther(before: Evaluation, after: Evaluation): BesideEachOther[] {
  const find = ({ results }: Evaluation, symbol: string): Result | null =>
    results.find((r) => r.symbol === symbol) ?? null;
  const symbols = [...new Set([...before.results, ...after.results].map((r) => r.symbol))];
  return symbols.map((symbol) => {
    const one = find(before, symbol);
    const other = find(after, symbol);
    const lacking = one === null ? before : other === null ? after : null;
    return {
      symbol,
      name: (other ?? one)?.name ?? symbol,
      before: one,
      after: other,
      reason: lacking?.withheld.find((w) => w.symbol === symbol)?.reason ?? null,
      changed: one?.value !== other?.value || reportedOf(one) !== reportedOf(other),
    };
  });
}

/** Another rule of rounding changes what is reported while the value stays. */
const reportedOf = (result: Result | null): string =>
  result?.rounded.map((r) => `${r.text} ${r.unit}`).join('; ') ?? '';
