/**
 * How long a commit takes while 1 000 lines a second are recorded, against overwriting 8 KiB in a file of the same
 * disk and syncing it, at the same pace. First as the recorder waits for it (with the way to the archive's thread and
 * back), then the transaction alone.
 */
import { closeSync, fdatasyncSync, fsyncSync, openSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { Archive } from '../../core/archive/archive.ts';
import type { Batch } from '../../core/archive/batch.ts';
import { COMMIT_INTERVAL_MS } from '../../core/limits.ts';
import { createParser } from '../../drivers/create-parser.ts';
import { ArchiveKeeper } from '../../electron/recorder/archive-keeper.ts';
import { Recorder } from '../../electron/recorder/recorder.ts';
import { answerRequest } from '../../electron/recorder/requests.ts';
import { openPortPair } from '../app/support/port-pair.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { prepareLines } from './support/line-sender.ts';
import { BY_HAND, PROFILE, SPECIMEN, linesBytes } from './support/pull-lines.ts';
import { alternate, milliseconds, wait } from './support/rounds.ts';
import { ratios, shareOf, short, spreadText } from './support/statistics.ts';
import { type Row, goalText, printTable } from './support/table.ts';

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

/** The recorder itself, in this process so that its calls can be timed, on a real pty. */
async function whileRecording(): Promise<Row[]> {
  const commits: number[] = [];
  const call = Object.getOwnPropertyDescriptor(ArchiveKeeper.prototype, 'call')?.value as (
    this: ArchiveKeeper,
    ...args: unknown[]
  ) => Promise<unknown>;
  Object.defineProperty(ArchiveKeeper.prototype, 'call', {
    value: async function (this: ArchiveKeeper, ...args: unknown[]): Promise<unknown> {
      const from = performance.now();
      const answer = await call.apply(this, args);
      if (args[0] === 'appendPacked') commits.push(performance.now() - from);
      return answer;
    },
  });
  const recorder = new Recorder({
    archivePath: join(folder, 'recorded.gaugemark'),
    programVersion: 'bench',
    makeFolder: false,
    resume: true,
    log: (line) => console.error(line),
  });
  await recorder.begin();
  const ask = async <T>(
    answer: Promise<{ ok: true; value: T } | { ok: false; fault: { sentence: string } }>,
  ) => {
    const told = await answer;
    if (!told.ok) throw new Error(told.fault.sentence);
    return told.value;
  };
  const pair = await openPortPair(folder);
  const { specimenId } = await ask(answerRequest(recorder, 'specimen.save', { specimen: SPECIMEN }));
  await ask(
    answerRequest(recorder, 'readout.open', {
      source: { kind: 'serial', path: pair.port },
      profile: PROFILE,
    }),
  );
  await ask(answerRequest(recorder, 'pull.ready', { specimenId, ...BY_HAND }));
  let from = 0;
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
    commits.length = 0;
    sender.begin();
    await sender.done;
    return [...commits];
  };
  await recorded();
  const { floor, measured } = await alternate(ROUNDS, { floor: overwritten, measured: recorded });
  await ask(answerRequest(recorder, 'pull.close', {}));
  await ask(answerRequest(recorder, 'readout.close', {}));
  await recorder.end();
  await pair.end();
  return rowsOf('commit while recording, as the recorder waits for it', floor, measured);
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
  const nextBatch = (): Batch => {
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
    return {
      pullId,
      chunks,
      firstSeq,
      readings,
      marks: [],
      gaps: [],
      gapEndedUs: null,
      acts: [],
      zeros: [],
    };
  };
  let batch = nextBatch();
  const committed = async (): Promise<number[]> => {
    const times: number[] = [];
    for (let n = 0; n < ROUND_MS / COMMIT_INTERVAL_MS; n++) {
      await wait(COMMIT_INTERVAL_MS);
      times.push(milliseconds(() => archive.appendBatch(batch)));
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
