/** Everything a judgement rests on, read and checked before. */
import type { DecisionRule } from './decision-rule.ts';
import type { Doubt } from './doubts.ts';
import type { FractureNote } from './fracture.ts';
import type { MaterialFile, QuantityName } from './material.ts';
import type { PrintedValue, UnitSystem } from './printed-value.ts';
import type { RulePack } from './read-rule-pack.ts';

/** A base metal or filler of the case: from a table, or with minima that somebody stated, or both. */
export interface CaseMaterial {
  /** As it was asked for, for sentences. */
  readonly called: string;
  readonly entry: MaterialFile | null;
  readonly stated: Readonly<Partial<Record<QuantityName, PrintedValue>>>;
}

export interface JudgeCase {
  readonly pack: RulePack;
  /** Measured values as typed or as evaluated, unrounded. */
  readonly measured: Readonly<Partial<Record<QuantityName, PrintedValue>>>;
  readonly fracture: FractureNote;
  readonly baseMetals: readonly CaseMaterial[];
  readonly filler: CaseMaterial | null;
  /** Minimum of a weld metal that is weaker on purpose, where the construction code provides for it. */
  readonly weldMetalMinimum: PrintedValue | null;
  /** Whose figures are compared; without it those of the unit the value was measured in. */
  readonly system: UnitSystem | null;
  readonly doubts: readonly Doubt[];
  readonly decision: DecisionRule | null;
}
