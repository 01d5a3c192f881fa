/** Short forms for writing cases down as tables. */
import type { SelfCheckCase } from './self-check-case.ts';

export interface ExampleFacts {
  readonly group: string;
  readonly source: string;
  readonly status: SelfCheckCase['status'];
}

/** A case of an example; the tolerance is half of the last digit given unless another is stated with its reason. */
export function exampleCase(
  facts: ExampleFacts,
  value: Pick<SelfCheckCase, 'what' | 'unit' | 'expected' | 'run'> &
    Partial<Pick<SelfCheckCase, 'status' | 'tolerance' | 'toleranceReason'>>,
): SelfCheckCase {
  const { expected } = value;
  const tolerance = value.tolerance ?? (typeof expected === 'string' ? 0 : halfLastDigit(expected));
  return {
    ...facts,
    toleranceReason: typeof expected === 'string' ? 'the very digits' : 'half of the last digit given',
    ...value,
    tolerance,
  };
}

/** 0.20030 loses its zero as a number, so the tolerance of such a figure must be stated by hand. */
export function halfLastDigit(value: number): number {
  const decimals = String(value).split('.')[1]?.length ?? 0;
  return 0.5 * 10 ** -decimals;
}
