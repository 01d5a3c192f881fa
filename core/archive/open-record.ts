/** What is needed to go on with a record that was open when its recorder ended. */
import { z } from 'zod';
import type { ReadoutChannel } from '../contract/readout-profile.ts';
import type { KeptPull } from '../contract/pull-requests.ts';
import { ChannelConverter, zeroText } from '../pull/channel-value.ts';
import { loadChannel } from '../pull/peak-only.ts';
import type { PullRules, PullState } from '../pull/pull-state.ts';
import { recoverState } from '../pull/recover-state.ts';
import type { SeenReading } from '../pull/detectors.ts';
import type { Exact } from '../quantity/exact.ts';
import { unpack } from './codec/packing.ts';
import { type RawChunk, decodeChunkTable } from './codec/raw-block.ts';
import { shownValue } from './codec/reading-block.ts';
import { type ZeroStep, getPull, pullRowOf, zeroStepsOf, zerosOf } from './pull-reader.ts';
import { openPullId } from './pull-store.ts';
import { columnBlocks, rawBlocks } from './read-blocks.ts';
import { type Connection, allRows, oneRow, sqlBlob, sqlInteger } from './sql.ts';

export interface OpenRecord {
  readonly pull: KeptPull;
  /** Tells one run of the computer from the next. */
  readonly boot: string;
  readonly rules: PullRules;
  readonly state: PullState;
  /** Exact zeros as text, by channel key. */
  readonly zeros: ReadonlyMap<string, string>;
  readonly gapIsOpen: boolean;
  readonly plannedForceN: number | null;
  readonly plannedExtensionMm: number | null;
  /** How many openings each instrument has had. */
  readonly openingCounts: readonly number[];
  readonly lastChunkElapsedUs: number;
  /** The newest chunks of the last opening of each instrument, for bringing a parser to where it was. */
  readonly tail: readonly RawChunk[];
  /** Whether the tail begins with the opening itself. */
  readonly tailIsWhole: boolean;
}

/** The open record, or null where there is none. `replayBytes` bounds the tail. */
export function readOpenRecord(connection: Connection, replayBytes: number): OpenRecord | null {
  const pullId = openPullId(connection);
  if (pullId === null) return null;
  const row = pullRowOf(connection, pullId);
  const pull = getPull(connection, pullId);
  const zeros = zerosOf(connection, pullId);
  const chunks = tailOf(connection, pullId, { chunkCount: pull.chunkCount, replayBytes });
  const last = chunks.at(-1);
  const instruments = pull.second === null ? 1 : 2;
  const newest = new Map(chunks.map(({ opening }) => [opening % instruments, opening]));
  const tail = chunks.filter(({ opening }) => newest.get(opening % instruments) === opening);
  return {
    pull,
    boot: row.boot,
    rules: row.rules_json,
    state: stateOf(connection, row.rules_json, pull),
    zeros: new Map([...zeros].map(([key, zero]) => [key, zeroText(zero)])),
    gapIsOpen: pull.gaps.some((gap) => gap.toElapsedUs === null && gap.instrument === undefined),
    plannedForceN: row.planned_force_n,
    plannedExtensionMm: row.planned_extension_mm,
    openingCounts: openingCounts(connection, pullId, instruments),
    lastChunkElapsedUs: last?.elapsedUs ?? 0,
    tail,
    tailIsWhole: tail.length < chunks.length || tail.length === pull.chunkCount,
  };
}

function stateOf(connection: Connection, rules: PullRules, pull: KeptPull): PullState {
  const index = loadChannel(pull.profile.channels);
  const channel = pull.profile.channels[index];
  const zeros = channel === undefined ? [] : zeroStepsOf(connection, pull.pullId, channel.field);
  const readings = seenReadings(connection, pull.pullId, { index, channel, zeros });
  return recoverState(
    rules,
    pull.marks,
    readings,
    zeros.map(({ seq }) => seq),
  );
}

/** The channel of the load, if there is one, with its zeros in the order in which they were taken. */
interface LoadSeen {
  readonly index: number;
  readonly channel: ReadoutChannel | undefined;
  readonly zeros: readonly ZeroStep[];
}

/** The force of each kept reading, as the detectors saw it: by the zero that was known then. */
function* seenReadings(
  connection: Connection,
  pullId: number,
  { index, channel, zeros }: LoadSeen,
): Generator<SeenReading> {
  const converterOf = (zero?: Exact): ChannelConverter | null =>
    channel === undefined ? null : new ChannelConverter(channel, zero);
  let converter = converterOf();
  let next = 0;
  for (const { firstSeq, columns, elapsedUs } of columnBlocks(connection, pullId)) {
    const shown = columns.channels[index];
    for (let i = 0; i < columns.count; i++) {
      for (let step = zeros[next]; step !== undefined && step.seq <= firstSeq + i; step = zeros[++next])
        converter = converterOf(step.zero);
      const forceN =
        converter === null || shown === undefined ? Number.NaN : converter.value(shownValue(shown, i));
      yield { seq: firstSeq + i, elapsedUs: elapsedUs[i] ?? 0, forceN };
    }
  }
}

/** Openings are numbered round by round: of two instruments those of the second are odd. */
function openingCounts(connection: Connection, pullId: number, instruments: 1 | 2): number[] {
  const counts = Array.from({ length: instruments }, () => 0);
  for (const { chunk_table, table_packing } of allRows(
    connection,
    z.object({ chunk_table: sqlBlob, table_packing: sqlInteger }),
    'SELECT chunk_table, table_packing FROM raw_block WHERE pull_id = ?',
    pullId,
  ))
    for (const { opening } of decodeChunkTable(unpack(chunk_table, table_packing))) {
      const its = opening % instruments;
      counts[its] = Math.max(counts[its] ?? 0, Math.floor(opening / instruments) + 1);
    }
  return counts;
}

const blockStart = z.object({ first_chunk: sqlInteger, byte_count: sqlInteger });

/** Whole blocks from the end until `replayBytes` are there or the record begins. */
function tailOf(
  connection: Connection,
  pullId: number,
  { chunkCount, replayBytes }: { chunkCount: number; replayBytes: number },
): RawChunk[] {
  let from = chunkCount;
  let bytes = 0;
  while (from > 0 && bytes < replayBytes) {
    const block = oneRow(
      connection,
      blockStart,
      'SELECT first_chunk, byte_count FROM raw_block WHERE pull_id = ? AND first_chunk < ? ORDER BY first_chunk DESC LIMIT 1',
      pullId,
      from,
    );
    if (block === null) break;
    from = block.first_chunk;
    bytes += block.byte_count;
  }
  return [...rawBlocks(connection, pullId, { from, to: chunkCount })].flatMap((block) => [...block.chunks]);
}
