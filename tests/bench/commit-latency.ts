/**
 * How long a commit takes while 1 000 lines a second are recorded, against overwriting 8 KiB in a file of the same
 * disk and syncing it, at the same pace. First the commit itself in the archive's thread of a recorder that records, with
 * its sync; then as that recorder waits for it, with the way to the thread and back; then without a recorder around it.
 */
import { closeSync, fdatasyncSync, fsyncSync, openSync, readFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { Archive } from '../../core/archive/archive.ts';
import { type PackedBatch, packBatch } from '../../core/archive/pack-batch.ts';
import { COMMIT_INTERVAL_MS } from '../../core/limits.ts';
import { createParser } from '../../drivers/create-parser.ts';
import { openPortPair } from '../app/support/port-pair.ts';
import { BenchRecorder, benchFolder } from './support/bench-recorder.ts';
import { prepareLines } from './support/line-sender.ts';
import { BY_HAND, PROFILE, SPECIMEN, linesBytes } from './support/pull-lines.ts';
import { alternate, milliseconds, wait } from './support/rounds.ts';
import { ratios, shareOf, short, spreadText } from './support/statistics.ts';
import { type Row, goalText, printTable } from './support/table.ts';
import { type CommitTimes, commitTimes } from './support/timed-commits.ts';

const ROUNDS = 5;
const ROUND_MS = 3_000;
const LINES_PER_S = 1_000;
const FLOOR_BYTES = 8_192;

const folder = benchFolder();
const floorFile = openSync(join(folder, 'floor'), 'w+');
const page = Buffer.alloc(FLOOR_BYTES, 0x5a);
writeSync(floorFile, page, 0, page.length, 0);
fsyncSync(floorFile);

/** Does the work at the pace of the commits; its times. */
async function paced(work: (round: number) => void): Promise<number[]> {
  const times: number[] = [];
  for (let n = 0; n < ROUND_MS / COMMIT_INTERVAL_MS; n++) {
    await wait(COMMIT_INTERVAL_MS);
    times.push(milliseconds(() => work(n)));
  }
  return times;
}

const overwritten = (): Promise<number[]> =>
  paced((n) => {
    page[0] = n;
    writeSync(floorFile, page, 0, page.length, 0);
    fdatasyncSync(floorFile);
  });

function rowsOf(what: string, floor: readonly number[][], measured: readonly number[][]): Row[] {
  return (
    [
      [0.5, 1.5],
      [0.99, 2],
    ] as const
  ).map(([share, atMost]) => {
    const of = (rounds: readonly number[][]): number => shareOf(rounds.flat(), share);
    const ratio = of(measured) / of(floor);
    return {
      what: `${what}, p${share * 100}`,
      floor: `${short(of(floor))} ms`,
      measured: `${short(of(measured))} ms`,
      ratio: `${short(ratio)} ×`,
      goal: goalText(`≤ ${atMost} ×`, ratio <= atMost),
      spread: spreadText(
        ratios(
          floor.map((times) => shareOf(times, share)),
          measured.map((times) => shareOf(times, share)),
        ),
      ),
    };
  });
}

const timedCommits = new URL('./support/timed-commits.ts', import.meta.url);

/** The recorder as it runs, a process of its own, on a real pty. */
async function whileRecording(): Promise<Row[]> {
  const file = join(folder, 'commit-times.json');
  process.env['GAUGEMARK_COMMIT_TIMES'] = file;
  const recorder = await BenchRecorder.start(folder, [], timedCommits);
  const pair = await openPortPair(folder);
  await recorder.beginPull(pair.port);
  recorder.letGo();
  let from = 0;
  /** Begin and end of the recording, on the wall clock. */
  const recorded = async (): Promise<number[]> => {
    const count = (LINES_PER_S * ROUND_MS) / 1000;
    const sender = await prepareLines({
      path: pair.readoutSide,
      linesPerS: LINES_PER_S,
      batchMs: 1,
      count,
      from,
    });
    from += count;
    const beginMs = Date.now();
    sender.begin();
    await sender.done;
    return [beginMs, Date.now()];
  };
  await recorded();
  const { floor, measured } = await alternate(ROUNDS, { floor: overwritten, measured: recorded });
  await recorder.watchAgain();
  await recorder.endPull();
  await recorder.end();
  await pair.end();
  const times = commitTimes.parse(JSON.parse(readFileSync(file, 'utf8')));
  const of = (which: keyof CommitTimes): number[][] =>
    measured.map(([beginMs = 0, endMs = 0]) =>
      times[which]
        .filter(({ endedMs }) => endedMs >= beginMs && endedMs <= endMs)
        .map(({ tookMs }) => tookMs),
    );
  return [
    ...rowsOf('commit while recording', floor, of('inThread')),
    ...rowsOf('the same with the way to its thread and back', floor, of('waitedFor')),
  ];
}

/** Only the transaction, with the batches that a recording at this pace makes. */
async function alone(): Promise<Row[]> {
  const archive = new Archive(join(folder, 'alone.gaugemark'), {
    programVersion: 'bench',
    wallMs: Date.now,
  });
  const pullId = archive.beginPull({
    specimenId: archive.saveSpecimen({ specimen: SPECIMEN }),
    profile: PROFILE,
    source: { kind: 'serial', path: 'none' },
    sourceWords: 'none',
    rules: BY_HAND,
    operator: null,
    startedWallMs: Date.now(),
    startedUtcOffsetMinutes: 0,
    startedMonotonicUs: 0,
    boot: 'bench',
    plannedForceN: null,
    plannedExtensionMm: null,
    instruments: null,
  });
  const parser = createParser(PROFILE);
  const linesPerBatch = (LINES_PER_S * COMMIT_INTERVAL_MS) / 1000;
  let line = 0;
  const nextBatch = (): PackedBatch => {
    const firstSeq = line;
    const chunks = Array.from({ length: linesPerBatch }, (_, i) => ({
      chunkSeq: firstSeq + i,
      opening: 0,
      elapsedUs: (firstSeq + i) * 1000 + ((firstSeq + i) % 37),
      bytes: new Uint8Array(linesBytes(firstSeq + i, 1)),
    }));
    line += linesPerBatch;
    const readings = chunks.flatMap((chunk) =>
      parser
        .push(chunk.chunkSeq, chunk.bytes, chunk.elapsedUs)
        .flatMap(({ outcome }) => (outcome.kind === 'reading' ? [outcome.reading] : [])),
    );
    return packBatch({
      pullId,
      chunks,
      firstSeq,
      readings,
      marks: [],
      gaps: [],
      gapEndedUs: null,
      acts: [],
      zeros: [],
    });
  };
  let batch = nextBatch();
  const committed = async (): Promise<number[]> => {
    const times: number[] = [];
    for (let n = 0; n < ROUND_MS / COMMIT_INTERVAL_MS; n++) {
      await wait(COMMIT_INTERVAL_MS);
      times.push(milliseconds(() => archive.appendPacked(batch)));
      archive.tendLog();
      batch = nextBatch();
    }
    return times;
  };
  await committed();
  const { floor, measured } = await alternate(ROUNDS, { floor: overwritten, measured: committed });
  archive.close();
  return rowsOf('the transaction alone', floor, measured);
}

const rows = [...(await whileRecording()), ...(await alone())];
printTable('Commits', rows);
closeSync(floorFile);
process.exit(0);
