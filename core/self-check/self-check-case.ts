/**
 * A check of the program against the outside: what somebody else published, and how the program gets to it. The
 * installed program runs these cases itself, so that a laboratory can file them as its software validation.
 */
import type { UnitSymbol } from '../quantity/units.ts';

export interface SelfCheckCase {
  /** Which example or curve, "worked example 6" or "42CrMoS4 46NT71". */
  readonly group: string;
  /** Where the figure comes from, so that anybody can look it up. */
  readonly source: string;
  /** "printed": the figure stands in the source; "derived": it follows from the source's inputs by arithmetic. */
  readonly status: 'printed' | 'derived';
  readonly what: string;
  readonly unit: UnitSymbol | 'text';
  readonly expected: number | string;
  /** Largest difference that agrees, in the unit; 0 for text. */
  readonly tolerance: number;
  /** Why the tolerance is that wide. */
  readonly toleranceReason: string;
  /** Runs the program's own arithmetic. Throws where the program gives no such value. */
  readonly run: () => number | string;
}

export interface SelfCheckLine {
  readonly group: string;
  readonly source: string;
  readonly status: SelfCheckCase['status'];
  readonly what: string;
  readonly unit: SelfCheckCase['unit'];
  readonly expected: number | string;
  /** Null where the program gave no value; `reason` says why. */
  readonly got: number | string | null;
  /** Got less expected; null for text and where nothing was got. */
  readonly difference: number | null;
  readonly tolerance: number;
  readonly toleranceReason: string;
  readonly verdict: 'agrees' | 'differs' | 'no-value';
  readonly reason?: string;
}

export interface SelfCheckReport {
  readonly lines: readonly SelfCheckLine[];
  readonly agreeing: number;
  readonly failing: number;
}

/** Runs every case; a case that throws becomes a line with its reason, never an end of the run. */
export function runSelfCheck(cases: readonly SelfCheckCase[]): SelfCheckReport {
  const lines = cases.map(runCase);
  const agreeing = lines.filter((line) => line.verdict === 'agrees').length;
  return { lines, agreeing, failing: lines.length - agreeing };
}

function runCase({ run, ...facts }: SelfCheckCase): SelfCheckLine {
  let got: number | string;
  try {
    got = run();
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return { ...facts, got: null, difference: null, verdict: 'no-value', reason };
  }
  if (typeof got === 'string' || typeof facts.expected === 'string')
    return { ...facts, got, difference: null, verdict: got === facts.expected ? 'agrees' : 'differs' };
  const difference = got - facts.expected;
  // A limit of "half the last printed digit" is met by a value that lies on it, whatever the last bits say.
  const agrees = Number.isFinite(difference) && Math.abs(difference) <= facts.tolerance * (1 + 1e-9);
  return { ...facts, got, difference, verdict: agrees ? 'agrees' : 'differs' };
}
