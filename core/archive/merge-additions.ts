/**
 * What another archive says behind the last thing that this one says too. Statements are only ever added to: where both
 * went on by themselves after a common beginning, which history goes on is a person's decision, and nothing is taken.
 */
import { contentHash } from './row-hash.ts';
import type { Row } from './taken-rows.ts';

export interface Addition {
  /** "evaluations", "corrected dimensions" */
  readonly name: string;
  /** At least 1. */
  readonly count: number;
  /** Inside the transaction of the pull, in the order of the list. */
  readonly put: () => void;
}

export interface Additions {
  readonly take: readonly Addition[];
  /** Names of what both archives say differently. */
  readonly conflicts: readonly string[];
}

/** Rows of one history in their order, whichever numbers they have; null where it went on differently here. */
export function whatFollows(here: readonly Row[], there: readonly Row[]): readonly Row[] | null {
  const both = Math.min(here.length, there.length);
  for (let i = 0; i < both; i++) {
    const [one, other] = [here[i], there[i]];
    if (one === undefined || other === undefined || contentHash(one) !== contentHash(other)) return null;
  }
  return there.slice(both);
}

/** What follows of a history as an addition; `put` gets its rows. */
export function historyAddition(
  name: string,
  here: readonly Row[],
  there: readonly Row[],
  put: (rows: readonly Row[]) => void,
): Additions {
  const rows = whatFollows(here, there);
  if (rows === null) return { take: [], conflicts: [name] };
  return rows.length === 0
    ? NOTHING
    : { take: [{ name, count: rows.length, put: () => put(rows) }], conflicts: [] };
}

export const NOTHING: Additions = { take: [], conflicts: [] };

/** One after the other; what stands more than once under a name is counted together. */
export function allOf(parts: readonly Additions[]): Additions {
  return {
    take: parts.flatMap(({ take }) => take),
    conflicts: [...new Set(parts.flatMap(({ conflicts }) => conflicts))],
  };
}

/** "evaluations 2, voidings 1" */
export function countsText(take: readonly Addition[]): string {
  const counts = new Map<string, number>();
  for (const { name, count } of take) counts.set(name, (counts.get(name) ?? 0) + count);
  return [...counts].map(([name, count]) => `${name} ${String(count)}`).join(', ');
}
