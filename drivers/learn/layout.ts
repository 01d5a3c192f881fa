/** A guess of where the fields of lines are, not yet what they mean. */
import type { LineFormat } from '../../core/contract/readout-profile.ts';
import type { NumberStyle } from '../lines/number-grammar.ts';

export interface Layout {
  readonly format: Exclude<LineFormat, { kind: 'registers' }>;
  readonly style: NumberStyle;
  /** What the line itself says about a field: the label before it. */
  readonly labels: ReadonlyMap<string, string>;
  /** Among layouts that explain as much, the one with the larger preference is taken. */
  readonly preference: number;
}
