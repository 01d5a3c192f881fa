/** What a judgement hands out: data, so that window, certificate and `--json` say the same. */
import type { UnitSymbol } from '../quantity/units.ts';
import type { DecisionFacts } from './decision-rule.ts';
import type { DoubtCode } from './doubts.ts';
import type { FractureLocation, Soundness } from './fracture.ts';
import type { QuantityName } from './material.ts';
import type { Comparison } from './rule-pack.ts';
import type { SourceStatus } from './source-status.ts';

export const OUTCOMES = ['accept', 'reject', 'undecided'] as const;
export type Outcome = (typeof OUTCOMES)[number];

export interface Amount {
  /** The double nearest to the exact value that was compared. */
  readonly value: number;
  readonly unit: UnitSymbol;
  /** As sentences write it, "66 500 psi". */
  readonly text: string;
}

/** One comparison of the rule that decided. */
export interface Check {
  readonly quantity: QuantityName;
  readonly comparison: Comparison;
  readonly state: 'met' | 'not-met' | 'unknown' | 'nothing-specified';
  /** As it was measured or typed. */
  readonly measured: Amount | null;
  /** In the unit of the limit, unrounded. */
  readonly unrounded: Amount | null;
  /** What was compared: rounded where the pack rounds before judging, else the unrounded value. */
  readonly compared: Amount | null;
  readonly rounding: {
    readonly step: Amount;
    readonly tie: 'half-even' | 'half-up' | 'down';
    readonly clause: string;
  } | null;
  readonly limit: Amount | null;
  /** Where the limit comes from: "0.95 × 70 000 psi, the minimum of A516-70". */
  readonly limitFrom: string | null;
  readonly limitStatus: SourceStatus | null;
  readonly limitSource: string | null;
  /** Compared value minus limit, in the limit's unit; negative where a minimum is not reached. */
  readonly margin: (Amount & { readonly ratio: number }) | null;
}

export interface MissingFact {
  readonly code:
    | 'where-it-broke'
    | 'soundness'
    | 'appearance'
    | 'measured'
    | 'base-metal'
    | 'minimum'
    | 'filler'
    | 'contradiction'
    | 'outside-guard-band'
    | 'replacement'
    | 'valid-test';
  /** What is missing and what to do, without a full stop. */
  readonly sentence: string;
}

export interface OtherAnswer {
  readonly pack: PackName;
  readonly outcome: Outcome;
  readonly sentence: string;
}

export interface OtherReading {
  /** Which text is unclear and how it is read here. */
  readonly says: string;
  readonly outcome: Outcome;
  readonly limit: Amount;
  readonly limitFrom: string;
}

export interface PackName {
  readonly id: string;
  readonly name: string;
  readonly edition: string;
  readonly kind: 'code' | 'practice';
}

export interface Verdict {
  readonly outcome: Outcome;
  /** The whole reason with numbers and clause, one or two sentences. */
  readonly sentence: string;
  readonly clause: string | null;
  /** What that clause says, as the pack has it. */
  readonly clauseSays: string | null;
  /** Of the deciding check; null where the rule sets no number or the number is not known. */
  readonly limit: Amount | null;
  readonly margin: (Amount & { readonly ratio: number }) | null;
  readonly pack: PackName;
  readonly ruleId: string | null;
  readonly ruleSays: string | null;
  readonly clauseStatus: SourceStatus | null;
  readonly clauseSource: string | null;
  readonly broke: FractureLocation | null;
  readonly soundness: Soundness | null;
  readonly checks: readonly Check[];
  readonly missing: readonly MissingFact[];
  readonly validity: {
    readonly state: 'sound' | 'questionable';
    readonly reasons: readonly { readonly code: DoubtCode; readonly sentence: string }[];
    /** What the verdict would be were the doubts cleared; null where there are none. */
    readonly outcomeIfCleared: Outcome | null;
  };
  readonly otherReadings: readonly OtherReading[];
  readonly otherPacks: readonly OtherAnswer[];
  readonly decision: DecisionFacts | null;
  readonly remarks: readonly string[];
  readonly caution: string;
}
