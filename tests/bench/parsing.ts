/**
 * What a line costs to parse: from the bytes of a chunk to a checked reading with exact decimals, against cutting the
 * same bytes into lines, splitting them at the delimiter and parseFloat on each field. Processor time of both.
 */
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';
import { createParser } from '../../drivers/create-parser.ts';
import { LINE_BYTES, PROFILE, linesBytes } from './support/pull-lines.ts';
import { alternate, processorMilliseconds } from './support/rounds.ts';
import { comparedRow, printTable } from './support/table.ts';

const LINES = 96_000;
const ROUNDS = 9;
const WARM_UP = 4;
const bytes = linesBytes(0, LINES);
let heard = 0;

/** In use each chunk comes in a turn of its own; what a chunk leaves for the end of its turn is done here and there. */
const CHUNKS_A_TURN = 50;
const turn = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

function chunksOf(linesPerChunk: number): Buffer[] {
  const length = linesPerChunk * LINE_BYTES;
  return Array.from({ length: LINES / linesPerChunk }, (_, i) =>
    bytes.subarray(i * length, (i + 1) * length),
  );
}

async function bare(chunks: readonly Buffer[]): Promise<number> {
  let total = 0;
  let held = '';
  for (const [seq, chunk] of chunks.entries()) {
    if (seq % CHUNKS_A_TURN === 0) await turn();
    const lines = (held + chunk.toString('latin1')).split('\r\n');
    held = lines.pop() ?? '';
    for (const line of lines) for (const field of line.split(',')) total += parseFloat(field);
  }
  return total;
}

async function parsed(profile: ReadoutProfile, chunks: readonly Buffer[]): Promise<number> {
  const parser = createParser(profile);
  let readings = 0;
  let atUs = 0;
  for (const [seq, chunk] of chunks.entries()) {
    if (seq % CHUNKS_A_TURN === 0) await turn();
    for (const { outcome } of parser.push(seq, chunk, (atUs += 1000)))
      if (outcome.kind === 'reading') readings++;
  }
  if (readings !== LINES) throw new Error(`${readings} readings of ${LINES} lines`);
  return readings;
}

async function row(what: string, linesPerChunk: number): Promise<ReturnType<typeof comparedRow>> {
  const chunks = chunksOf(linesPerChunk);
  const microsecondsALine = async (work: () => Promise<number>): Promise<number> =>
    ((await processorMilliseconds(async () => (heard += await work()))) / LINES) * 1000;
  const once = {
    floor: () => microsecondsALine(() => bare(chunks)),
    measured: () => microsecondsALine(() => parsed(PROFILE, chunks)),
  };
  await alternate(WARM_UP, once);
  const { floor, measured } = await alternate(ROUNDS, once);
  return comparedRow({ what, unit: 'µs', floor, measured, atMost: 3 });
}

printTable('Parsing a line of two fields, 24 bytes', [
  await row('16 lines a chunk (an adapter that hands over every 16 ms)', 16),
  await row('a line a chunk', 1),
  await row('4 KiB and more a chunk (a replayed file)', 200),
]);
if (heard === 0) throw new Error('nothing was parsed');
