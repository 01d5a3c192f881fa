/** Some thousands of hostile inputs; `npm run bench -- fuzz` makes a million a target. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changedSeed } from '../../bench/fuzz/mutations.ts';
import { FUZZ_TARGETS } from '../../bench/fuzz/targets.ts';

const CASES = 2_000;
/** Each opens a file. */
const CASES_OF_ARCHIVES = 20;

describe('hostile input is answered, never obeyed', () => {
  it.each(FUZZ_TARGETS.map((target) => [target.name, target] as const))('%s', (_name, target) => {
    for (const seed of target.seeds) expect(() => target.run(seed)).not.toThrow();
    const numRuns = target.longRun < CASES * 10 ? CASES_OF_ARCHIVES : CASES;
    fc.assert(fc.property(changedSeed(target.seeds), target.run), { numRuns });
  });
});
