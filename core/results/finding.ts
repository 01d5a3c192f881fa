/** A finding is a result or the reason why there is none; both are data, neither is an error. */
import type { Result, Withheld } from './result.ts';

export type Finding =
  | { readonly given: true; readonly result: Result }
  | { readonly given: false; readonly withheld: Withheld };

export const given = (result: Result): Finding => ({ given: true, result });

export const withhold = (symbol: string, name: string, code: string, reason: string): Finding => ({
  given: false,
  withheld: { symbol, name, code, reason },
});

/** Why something isn't there, before it is known which symbols that touches. */
export interface Reason {
  readonly code: string;
  readonly reason: string;
}

/** "no. 1 835": people count readings from one. */
export const readingNumber = (index: number): string => `no. ${String(index + 1)}`;

/**
 * The last line of defence: arithmetic on a record that nobody foresaw may end in a number that is none. It is then
 * withheld like anything else that the data can't support, and never handed out.
 */
export function finiteOrWithheld(finding: Finding): Finding {
  if (!finding.given) return finding;
  const { symbol, name, value, working } = finding.result;
  return Number.isFinite(value) && working.inputs.every((input) => Number.isFinite(input.value))
    ? finding
    : withhold(
        symbol,
        name,
        'not-a-number',
        'The readings lead to no finite value; look at the record for impossible readings.',
      );
}
