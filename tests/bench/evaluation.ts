/**
 * One full evaluation of a curve of a million readings, as a ratio to one sum over one of its columns in the same
 * process: warm (once the engine compiles nothing any more), and the very first of a fresh process against the very
 * first sum there, neither compiled yet (the ratio to the warm sum is told beside it); and the memory that it takes
 * beside the curve's columns. Each evaluation is paired with the sum right before it: medians of the pairs' ratios, with
 * their spread.
 * `node tests/bench/evaluation.ts [readings]`
 */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import v8 from 'node:v8';
import vm from 'node:vm';
import type { Curve } from '../../core/curve/curve.ts';
import { evaluate } from '../../core/results/evaluate.ts';
import { readSpecimen } from '../../core/specimen/read-specimen.ts';
import { record, yieldPointLaw } from '../unit/results/synthetic-curve.ts';
import { median, ratioOf, ratios, shareOf, short, spreadText } from './support/statistics.ts';

export const TARGET_WARM = 8;
export const TARGET_FRESH = 30;
export const TARGET_MEMORY = 3;

/** By then the engine has compiled what it ever compiles: the times no longer fall. */
const WARM_UP = 120;
const COUNTED = 80;
const FRESH_RUNS = 11;

const READINGS = Number(process.argv.find((a) => /^\d+$/.test(a)) ?? 1_000_000);
const FRESH = process.argv.includes('--fresh');

function specimen() {
  const outcome = readSpecimen({
    id: 'bench',
    geometry: { kind: 'round', diameter: '10 mm' },
    gaugeLength: '50 mm',
    parallelLength: '60 mm',
  });
  if (!outcome.ok) throw new Error('specimen');
  return outcome.specimen;
}

function curve(readings: number): Curve {
  const made = record(yieldPointLaw(), { readings, stressNoiseMpa: 0.3, strainNoise: 2e-6 });
  const {
    stressMpa = new Float64Array(),
    strainRatio = new Float64Array(),
    timeS = new Float64Array(),
  } = made;
  return {
    length: made.length,
    timeS,
    forceN: stressMpa.map((s) => s * 25 * Math.PI),
    extensionMm: strainRatio.map((e) => e * 50),
  };
}

function sum(column: Float64Array): number {
  let total = 0;
  for (let i = 0; i < column.length; i++) total += column[i] as number;
  return total;
}

const milliseconds = (work: () => unknown): number => {
  const from = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - from) / 1e6;
};

v8.setFlagsFromString('--expose-gc');
const collect = vm.runInNewContext('gc') as () => void;

/** Bytes in use after the work that were not before; its garbage counts as long as nobody collected it. */
function grownBy(work: () => unknown): number {
  collect();
  const before = process.memoryUsage();
  work();
  const after = process.memoryUsage();
  return after.arrayBuffers + after.heapUsed - before.arrayBuffers - before.heapUsed;
}

const given = curve(READINGS);
const round = specimen();
const force = given.forceN ?? new Float64Array();

if (FRESH) {
  // The very first evaluation of this process, against the very first sum.
  const floor = milliseconds(() => sum(force));
  const once = milliseconds(() => evaluate(given, round));
  console.log(JSON.stringify({ floor, once }));
} else {
  let total = 0;
  const floors: number[] = [];
  const times: number[] = [];
  for (let k = 0; k < WARM_UP + COUNTED; k++) {
    floors.push(milliseconds(() => (total += sum(force))));
    times.push(milliseconds(() => evaluate(given, round)));
  }
  const [warmFloors, warmTimes] = [floors.slice(WARM_UP), times.slice(WARM_UP)];
  const fresh = Array.from(
    { length: FRESH_RUNS },
    () =>
      JSON.parse(
        execFileSync(process.execPath, [fileURLToPath(import.meta.url), '--fresh', String(READINGS)], {
          encoding: 'utf8',
        }),
      ) as { floor: number; once: number },
  );
  const [freshFloors, freshTimes] = [fresh.map(({ floor }) => floor), fresh.map(({ once }) => once)];
  const columnBytes = given.length * 8 * 3;
  const grown = Math.max(...Array.from({ length: 5 }, () => grownBy(() => evaluate(given, round))));
  const say = (what: string, ratio: number, target: number, detail: string): void =>
    console.log(
      `${what}: ${ratio.toFixed(2)} (at most ${String(target)}) ${ratio <= target ? 'reached' : 'NOT REACHED'}  ${detail}`,
    );
  console.log(`evaluation of ${String(given.length)} readings, checksum ${total.toPrecision(3)}`);
  const inPairs = (once: readonly number[], sums: readonly number[]): string =>
    `${short(median(once))} ms / ${short(median(sums))} ms; median of ${String(once.length)}, middle half ` +
    `${spreadText([0.25, 0.75].map((share) => shareOf(ratios(sums, once), share)))}, all ${spreadText(ratios(sums, once))}`;
  say('warm / one sum', ratioOf(warmFloors, warmTimes), TARGET_WARM, inPairs(warmTimes, warmFloors));
  say(
    'fresh process / one sum in it',
    ratioOf(freshFloors, freshTimes),
    TARGET_FRESH,
    `${inPairs(freshTimes, freshFloors)}; ${short(median(freshTimes) / median(warmFloors))} times the warm sum`,
  );
  say(
    'memory taken / the curve’s columns',
    grown / columnBytes,
    TARGET_MEMORY,
    `${(grown / 1e6).toFixed(1)} MB`,
  );
  const ordinary = curve(6_000);
  const small: number[] = [];
  for (let k = 0; k < 200; k++) small.push(milliseconds(() => evaluate(ordinary, round)));
  console.log(
    `evaluation of 6 000 readings: ${short(median(small))} ms, ${spreadText(small)} (one frame is 16.7 ms)`,
  );
}
