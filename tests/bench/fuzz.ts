/**
 * Hostile input by the million: `npm run bench -- fuzz [--cases=N] [--target=PART] [--seed=N]`. Each target gets its
 * seeds from the fixtures, changed at random, in a process for each core, each with a seed of its own; what fails is shrunk
 * and printed with that seed.
 */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { type FuzzTarget, casesOf } from './fuzz/fuzz-target.ts';
import { FUZZ_TARGETS } from './fuzz/targets.ts';

/** Between the seeds of two processes. */
const SEED_STEP = 104_729;

const optionOf = (name: string): string | undefined =>
  process.argv.find((argument) => argument.startsWith(`--${name}=`))?.slice(name.length + 3);

/** Given to a process that makes its share of one target's cases, by the target's number. */
const share = optionOf('share');
const seed = Number(optionOf('seed') ?? Date.now() % 2_147_483_647);
const asked = optionOf('cases');

if (share !== undefined) process.exit(made(FUZZ_TARGETS[Number(share)], Number(asked)) ? 0 : 1);

let failed = 0;
for (const [number, target] of FUZZ_TARGETS.entries()) {
  if (!target.name.includes(optionOf('target') ?? '')) continue;
  const cases = Number(asked ?? target.longRun);
  const from = performance.now();
  const processes = Math.min(availableParallelism(), cases);
  const codes = await Promise.all(
    Array.from({ length: processes }, (_, i) =>
      codeOfShare(number, Math.ceil(cases / processes), seed + i * SEED_STEP),
    ),
  );
  const seconds = ((performance.now() - from) / 1000).toFixed(1);
  if (codes.every((code) => code === 0))
    console.log(
      `${target.name}: ${String(Math.ceil(cases / processes) * processes)} cases in ${seconds} s, none failed (seed ${String(seed)})`,
    );
  else failed++;
}
process.exit(failed === 0 ? 0 : 1);

async function codeOfShare(number: number, cases: number, its: number): Promise<number> {
  const options = [`--share=${String(number)}`, `--cases=${String(cases)}`, `--seed=${String(its)}`];
  const child = spawn(process.execPath, [...process.execArgv, import.meta.filename, ...options], {
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  const [code] = (await once(child, 'close')) as [number | null];
  return code ?? 1;
}

/** Whether none of so many cases failed; what failed is told. */
function made(target: FuzzTarget | undefined, cases: number): boolean {
  if (target === undefined) throw new Error('there is no such target');
  const outcome = fc.check(fc.property(casesOf(target), target.run), { numRuns: cases, seed });
  if (!outcome.failed) return true;
  const [bytes = Buffer.alloc(0)] = outcome.counterexample ?? [];
  // Kept as a file: an archive can't be read off a terminal, and what was found becomes a seed.
  const kept = join(tmpdir(), `gaugemark-fuzz-found-${String(seed)}-${String(share)}`);
  writeFileSync(kept, bytes);
  console.log(
    `${target.name}: FAILED at case ${String(outcome.numRuns)} (seed ${String(seed)}), kept in ${kept}\n${JSON.stringify(bytes.toString('latin1').slice(0, 200))}\n` +
      String(outcome.errorInstance instanceof Error ? outcome.errorInstance.stack : outcome.errorInstance),
  );
  return false;
}
