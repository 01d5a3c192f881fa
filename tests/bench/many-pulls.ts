/**
 * Pulls in a row without a restart (60; `--pulls=N`, or a thousand with `--long`): what the recorder holds after a
 * collection of garbage and its handles stay where they are, and the archive grows by the same for every pull. The
 * recorder runs in this process, so that garbage can be collected before its heap is looked at: what a process takes of
 * the machine's memory says more of when that was done last.
 */
import { closeSync, openSync, readdirSync, statSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { Recorder } from '../../electron/recorder/recorder.ts';
import { answerRequest } from '../../electron/recorder/requests.ts';
import { until } from '../app/support/until.ts';
import { openPortPair } from '../app/support/port-pair.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { BY_HAND, LINE_BYTES, PROFILE, SPECIMEN, linesBytes } from './support/pull-lines.ts';
import { isLong } from './support/rounds.ts';
import { median, short } from './support/statistics.ts';
import { goalText, printTable } from './support/table.ts';

const asked = process.argv.find((argument) => argument.startsWith('--pulls='));
const PULLS = asked === undefined ? (isLong ? 1_000 : 60) : Number(asked.slice('--pulls='.length));
/** No more than a pty holds at once. */
const LINES = 500;
const HEAP_GROWTH_BYTES_MAX = 2 ** 20;
/** Pages of the database are taken as a whole, and its tables split them now and then. */
const GROWTH_RATIO_MAX = 1.15;

setFlagsFromString('--expose_gc');
const collectGarbage = runInNewContext('gc') as () => void;

interface Sample {
  readonly heap: number;
  readonly outside: number;
  readonly resident: number;
  readonly handles: number;
  readonly archive: number;
}

const folder = benchFolder();
const archivePath = join(folder, 'many.gaugemark');
const pair = await openPortPair(folder);
const recorder = new Recorder({
  archivePath,
  programVersion: 'bench',
  makeFolder: false,
  resume: true,
  log: (line) => console.error(line),
});
await recorder.begin();
const told = async <T>(
  answer: Promise<{ ok: true; value: T } | { ok: false; fault: { sentence: string } }>,
): Promise<T> => {
  const outcome = await answer;
  if (!outcome.ok) throw new Error(outcome.fault.sentence);
  return outcome.value;
};
const readingsNow = async (): Promise<number> =>
  (await told(answerRequest(recorder, 'session.get', {}))).pull?.readingCount ?? 0;
const source = { kind: 'serial', path: pair.port } as const;
const readout = openSync(pair.readoutSide, 'r+');
const bytes = linesBytes(0, LINES);
const samples: Sample[] = [];
for (let n = 0; n < PULLS; n++) {
  const { specimenId } = await told(answerRequest(recorder, 'specimen.save', { specimen: SPECIMEN }));
  await told(answerRequest(recorder, 'readout.open', { source, profile: PROFILE }));
  await told(answerRequest(recorder, 'pull.ready', { specimenId, ...BY_HAND }));
  writeSync(readout, bytes);
  // The first line after an opening may be taken for the rest of one.
  await until(async () => (await readingsNow()) >= LINES - 1, 'the lines are readings');
  await told(answerRequest(recorder, 'pull.close', {}));
  await told(answerRequest(recorder, 'readout.close', {}));
  collectGarbage();
  const { heapUsed, external, rss } = process.memoryUsage();
  samples.push({
    heap: heapUsed,
    outside: external,
    resident: rss,
    handles: readdirSync('/proc/self/fd').length,
    archive: statSync(archivePath).size,
  });
}
await recorder.end();
closeSync(readout);
await pair.end();

// The first third is warming up: compiled code, prepared statements, caches of the database.
const third = Math.max(2, Math.floor(PULLS / 3));
const early = samples.slice(third, 2 * third);
const late = samples.slice(-third);
const of = (part: readonly Sample[], what: keyof Sample): number => median(part.map((one) => one[what]));
const grown = (part: readonly Sample[]): number =>
  ((part.at(-1)?.archive ?? 0) - (part[0]?.archive ?? 0)) / Math.max(1, part.length - 1);
const mebi = (count: number): string => `${short(count / 2 ** 20)} MiB`;
const heapGrowth = of(late, 'heap') + of(late, 'outside') - of(early, 'heap') - of(early, 'outside');

printTable(`${PULLS} pulls of ${LINES} lines in a row: second third, last third`, [
  {
    what: 'heap and what it holds outside, after a collection',
    floor: `${mebi(of(early, 'heap'))} + ${mebi(of(early, 'outside'))}`,
    measured: `${mebi(of(late, 'heap'))} + ${mebi(of(late, 'outside'))}`,
    ratio: '',
    goal: goalText('flat', heapGrowth <= HEAP_GROWTH_BYTES_MAX),
    spread: `memory of the process ${mebi(of(early, 'resident'))}, ${mebi(of(late, 'resident'))}`,
  },
  {
    what: 'open handles',
    floor: short(of(early, 'handles')),
    measured: short(of(late, 'handles')),
    ratio: '',
    goal: goalText('the same', of(late, 'handles') === of(early, 'handles')),
    spread: `at most ${Math.max(...samples.map(({ handles }) => handles))}`,
  },
  {
    what: 'the archive grows by, a pull',
    floor: `${short(grown(early) / 1024)} KiB`,
    measured: `${short(grown(late) / 1024)} KiB`,
    ratio: `${short(grown(late) / grown(early))} ×`,
    goal: goalText(`≤ ${GROWTH_RATIO_MAX} ×`, grown(late) <= GROWTH_RATIO_MAX * grown(early)),
    spread: `${short((LINES * LINE_BYTES) / 1024)} KiB of raw text a pull`,
  },
]);
process.exit(0);
