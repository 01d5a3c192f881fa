/** Some thousands of hostile inputs; `npm run bench -- fuzz` makes a million a target. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { casesOf } from '../../bench/fuzz/fuzz-target.ts';
import { FUZZ_TARGETS } from '../../bench/fuzz/targets.ts';

const CASES = 2_000;

describe('hostile input is answered, never obeyed', () => {
  it.each(FUZZ_TARGETS.map((target) => [target.name, target] as const))('%s', (_name, target) => {
    for (const seed of target.seeds) expect(() => target.run(seed)).not.toThrow();
    const numRuns = target.shortRun ?? CASES;
    fc.assert(fc.property(casesOf(target), target.run), { numRuns });
  });
});
