/**
 * Worked examples from published pages, each with its source, expected value and tolerance as data in
 * core/self-check (the installed program runs the same ones). Examples 12 to 14 as verdicts:
 * acceptance-worked-examples.test.ts.
 */
import { describe, expect, it } from 'vitest';
import { workedExamples } from '../../core/self-check/all-cases.ts';
import { runSelfCheck } from '../../core/self-check/self-check-case.ts';

const groups = [...new Set(workedExamples.map((c) => c.group))];

describe.each(groups)('%s', (group) => {
  const cases = workedExamples.filter((c) => c.group === group);
  it.each(cases.map((c) => [c.what, c.source, c] as const))('%s (%s)', (_what, _source, one) => {
    const [line] = runSelfCheck([one]).lines;
    expect(line?.reason).toBeUndefined();
    if (typeof one.expected === 'string') expect(line?.got).toBe(one.expected);
    else {
      expect(Number.isFinite(line?.got)).toBe(true);
      expect(Math.abs(Number(line?.got) - one.expected)).toBeLessThanOrEqual(one.tolerance * (1 + 1e-9));
    }
    expect(line?.verdict).toBe('agrees');
  });
});

describe('the set of worked examples', () => {
  it('holds all that are computed here: 1 to 12 and 15 to 19', () => {
    const numbers = groups.map((group) => Number(group.replace('worked example ', ''))).sort((a, b) => a - b);
    expect(numbers).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 15, 16, 17, 18, 19]);
  });

  it('names a source for every value', () => {
    for (const { source } of workedExamples) expect(source.length).toBeGreaterThan(10);
  });
});
