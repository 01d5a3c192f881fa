/**
 * What an evaluation hands out: values with their working, and what was withheld with the reason.
 * It is data, so that page, certificate and `--json` show the same.
 */
import type { UnitSymbol } from '../quantity/units.ts';

/** One input of a formula: symbol, value, unit, and where it came from. */
export interface WorkingInput {
  readonly symbol: string;
  readonly name: string;
  readonly value: number;
  readonly unit: UnitSymbol;
  /** "measured width, mean of 2", "largest reading, no. 1 834", … */
  readonly from: string;
}

export interface Working {
  /** The formula in symbols, "Rm = Fm / S0". */
  readonly formula: string;
  readonly inputs: readonly WorkingInput[];
  /** The formula with the numbers put in, "63 351 / …", as it would be written on squared paper. */
  readonly substituted: string;
  /** Clause, handbook or "common practice, no source"; says "from memory" where it is. */
  readonly source: string;
  /** Further lines, each a step of its own, in order. */
  readonly steps?: readonly string[];
}

export interface Rounded {
  readonly value: number;
  /** The rounded value written with the digits that the rule leaves. */
  readonly text: string;
  readonly unit: UnitSymbol;
  /** Step that was rounded to, in `unit`. */
  readonly step: number;
  /** Named rule, for example "ISO 6892-1: strength to 1 MPa". */
  readonly rule: string;
}

export interface ResultUncertainty {
  /** Standard uncertainty in the result's unit. */
  readonly standard: number;
  readonly expanded: number;
  readonly coverageFactor: number;
  /** Effective degrees of freedom; absent where effectively infinite. */
  readonly degreesOfFreedom?: number;
  readonly budget: readonly UncertaintyLine[];
}

export interface UncertaintyLine {
  readonly source: string;
  readonly standard: number;
  readonly unit: UnitSymbol;
  readonly sensitivity: number;
  readonly contribution: number;
  readonly distribution: 'normal' | 'rectangular' | 'triangular';
  /** Of this line; absent where it is taken as known well (a limit, a certificate). */
  readonly degreesOfFreedom?: number;
}

export interface Result {
  /** The standards' symbol: Fm, Rm, S0, A, Rp0.2, … */
  readonly symbol: string;
  /** The trade's words: "tensile strength (ultimate tensile strength)". */
  readonly name: string;
  /** Unrounded, in `unit`. Always finite. */
  readonly value: number;
  readonly unit: UnitSymbol;
  readonly rounded: readonly Rounded[];
  /** How it was found, in one line: window, detector, method. */
  readonly method: string;
  readonly working: Working;
  /** Index of the reading that the value rests on, for marking it on the plot. */
  readonly atIndex?: number;
  readonly uncertainty?: ResultUncertainty;
  /** Doubts that don't withhold the value but must be seen beside it. */
  readonly remarks?: readonly string[];
}

export interface Withheld {
  readonly symbol: string;
  readonly name: string;
  /** One sentence: why, and what would make it available. */
  readonly reason: string;
  readonly code: string;
}
