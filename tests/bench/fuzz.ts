/**
 * Hostile input by the million: `npm run bench -- fuzz [--cases=N] [--target=PART] [--seed=N]`. Each target gets its
 * seeds from the fixtures, changed at random; what fails is shrunk and printed with its seed.
 */
import { writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { casesOf } from './fuzz/fuzz-target.ts';
import { FUZZ_TARGETS } from './fuzz/targets.ts';

const optionOf = (name: string): string | undefined =>
  process.argv.find((argument) => argument.startsWith(`--${name}=`))?.slice(name.length + 3);

const seed = Number(optionOf('seed') ?? Date.now() % 2_147_483_647);
let failed = 0;
for (const target of FUZZ_TARGETS) {
  const { name, run, longRun } = target;
  if (!name.includes(optionOf('target') ?? '')) continue;
  const cases = Number(optionOf('cases') ?? longRun);
  const from = performance.now();
  const outcome = fc.check(fc.property(casesOf(target), run), { numRuns: cases, seed });
  const seconds = ((performance.now() - from) / 1000).toFixed(1);
  if (!outcome.failed) {
    console.log(`${name}: ${outcome.numRuns} cases in ${seconds} s, none failed (seed ${seed})`);
    continue;
  }
  failed++;
  const [bytes = Buffer.alloc(0)] = outcome.counterexample ?? [];
  // Kept as a file: an archive can't be read off a terminal, and what was found becomes a seed.
  const kept = join(tmpdir(), `gaugemark-fuzz-found-${seed}-${failed}`);
  writeFileSync(kept, bytes);
  console.log(
    `${name}: FAILED at case ${outcome.numRuns} (seed ${seed}), kept in ${kept}\n${JSON.stringify(bytes.toString('latin1').slice(0, 200))}\n` +
      String(outcome.errorInstance instanceof Error ? outcome.errorInstance.stack : outcome.errorInstance),
  );
}
process.exit(failed === 0 ? 0 : 1);
