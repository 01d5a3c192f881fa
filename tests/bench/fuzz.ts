/**
 * Hostile input by the million: `npm run bench -- fuzz [--cases=N] [--target=PART] [--seed=N]`. Each target gets its
 * seeds from the fixtures, changed at random; what fails is shrunk and printed with its seed.
 */
import fc from 'fast-check';
import { changedSeed } from './fuzz/mutations.ts';
import { FUZZ_TARGETS } from './fuzz/targets.ts';

const optionOf = (name: string): string | undefined =>
  process.argv.find((argument) => argument.startsWith(`--${name}=`))?.slice(name.length + 3);

const seed = Number(optionOf('seed') ?? Date.now() % 2_147_483_647);
let failed = 0;
for (const { name, seeds, run, longRun } of FUZZ_TARGETS) {
  if (!name.includes(optionOf('target') ?? '')) continue;
  const cases = Number(optionOf('cases') ?? longRun);
  const from = performance.now();
  const outcome = fc.check(fc.property(changedSeed(seeds), run), { numRuns: cases, seed });
  const seconds = ((performance.now() - from) / 1000).toFixed(1);
  if (!outcome.failed) {
    console.log(`${name}: ${outcome.numRuns} cases in ${seconds} s, none failed (seed ${seed})`);
    continue;
  }
  failed++;
  const [bytes] = outcome.counterexample ?? [];
  console.log(
    `${name}: FAILED at case ${outcome.numRuns} (seed ${seed})\n${JSON.stringify(bytes?.toString('latin1').slice(0, 2_000))}\n` +
      String(outcome.errorInstance instanceof Error ? outcome.errorInstance.stack : outcome.errorInstance),
  );
}
process.exit(failed === 0 ? 0 : 1);
