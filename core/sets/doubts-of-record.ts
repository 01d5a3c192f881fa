/** What the record itself says against a pull: readings that were lost, a speed outside every window. */
import type { Doubt } from '../acceptance/doubts.ts';
import type { TestingSpeed } from '../results/testing-speed.ts';

export interface RecordedFacts {
  /** Words of each stretch without readings, between trigger and break. */
  readonly gaps: readonly string[];
  readonly speed: TestingSpeed | undefined;
}

export function doubtsOfRecord({ gaps, speed }: RecordedFacts): Doubt[] {
  const [first] = gaps;
  return [
    ...(first === undefined
      ? []
      : [
          {
            code: 'readings-lost',
            detail: gaps.length === 1 ? first : `${String(gaps.length)} gaps, the first: ${first}`,
          } as const,
        ]),
    ...speedDoubt(speed),
  ];
}

/** A pull meets a standard where no stage is outside it by that method; it is doubtful where it meets none. */
function speedDoubt(speed: TestingSpeed | undefined): Doubt[] {
  const checks = speed?.checks ?? [];
  const ways = [...new Set(checks.map((check) => `${check.standard} ${check.method}`))];
  if (ways.length === 0) return [];
  const outside = ways.map((way) =>
    checks.find((check) => `${check.standard} ${check.method}` === way && check.verdict === 'outside'),
  );
  const worst = outside[0];
  return outside.every((check) => check !== undefined) && worst !== undefined
    ? [{ code: 'speed-outside', detail: worst.sentence.replace(/\.$/, '') }]
    : [];
}
