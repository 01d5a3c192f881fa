import { describe, expect, it } from 'vitest';
import { type SelfCheckCase, runSelfCheck } from '../../../core/self-check/self-check-case.ts';

const one = (run: SelfCheckCase['run'], expected: number | string = 10): SelfCheckCase => ({
  group: 'g',
  source: 's',
  status: 'derived',
  what: 'w',
  unit: 'MPa',
  expected,
  tolerance: 0.5,
  toleranceReason: 'r',
  run,
});
const verdict = (c: SelfCheckCase) => runSelfCheck([c]).lines[0];

describe('a self-check', () => {
  it('agrees up to the tolerance and no further', () => {
    expect(verdict(one(() => 10.5))?.verdict).toBe('agrees');
    expect(verdict(one(() => 10.51))).toMatchObject({ verdict: 'differs', expected: 10, got: 10.51 });
    expect(verdict(one(() => 9.49))?.verdict).toBe('differs');
    expect(verdict(one(() => Number.NaN))?.verdict).toBe('differs');
    expect(verdict(one(() => Infinity))?.verdict).toBe('differs');
  });

  it('compares text to the letter: 28.0 is not 28', () => {
    expect(verdict(one(() => '28.0', '28.0'))?.verdict).toBe('agrees');
    expect(verdict(one(() => '28', '28.0'))?.verdict).toBe('differs');
  });

  it('goes on after a case that gives nothing, and says why', () => {
    const report = runSelfCheck([
      one(() => {
        throw new Error('withheld because');
      }),
      one(() => 10),
    ]);
    expect(report.lines[0]).toMatchObject({ verdict: 'no-value', got: null, reason: 'withheld because' });
    expect(report).toMatchObject({ agreeing: 1, failing: 1 });
  });
});
