/**
 * The curve of a kept pull from its raw bytes, read otherwise than at the time: its lines by another readout profile, the
 * rows of an imported file by another plan. A wrong unit, scale, column or decimal sign found out later. Nothing recorded
 * changes; runs in the archive's own thread.
 */
import type { Archive } from '../../core/archive/archive.ts';
import { ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import { channelsOf, pullRowOf, zerosOf } from '../../core/archive/pull-reader.ts';
import type { CurveTime } from '../../core/archive/pull-columns.ts';
import { rawBlocks } from '../../core/archive/read-blocks.ts';
import type { RawChunk } from '../../core/archive/codec/raw-block.ts';
import type { Reading, ReadingColumns } from '../../core/contract/reading.ts';
import type { ReadoutChannel, ReadoutProfile } from '../../core/contract/readout-profile.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import { CURVE_COLUMN, type Curve, type CurveGap } from '../../core/curve/curve.ts';
import { firstPlaceFrom } from '../../core/curve/first-place-from.ts';
import { type ImportPlan, importPlanText } from '../../core/exchange/import/import-plan.ts';
import { importReadings, profileOfImport } from '../../core/exchange/import/import-readings.ts';
import { CURVE_READINGS_MAX } from '../../core/limits.ts';
import { joinedChannels } from '../../core/pull/joined-channels.ts';
import { loadChannel, showsPeakOnly } from '../../core/pull/peak-only.ts';
import { columnsOf, convertersOf } from '../../core/pull/reading-columns.ts';
import { isClock } from '../../core/pull/readout-clock.ts';
import type { EvaluationOptions } from '../../core/results/evaluation.ts';
import { PullLines } from './pull-lines.ts';

export interface ReadAnew {
  /** Name of the profile, or what is said of the plan. */
  readonly by: string;
  readonly isFile: boolean;
  readonly curve: Curve;
  readonly timeFrom: CurveTime;
  /** First reading after the break as it was marked, found by its time; null where none was marked. */
  readonly breakSeq: number | null;
  /** What came of it, in English sentences. */
  readonly remark: string;
}

type Converters = ReturnType<typeof convertersOf>;

/** Readings turned into columns at a time. */
const STRETCH = 20_000;

/** Readings as they come, as columns. */
class Stretches {
  readonly all: ReadingColumns[] = [];
  readonly #converters: Converters;
  #waiting: { seq: number; elapsedUs: number; reading: Reading }[] = [];
  #length = 0;

  constructor(converters: Converters) {
    this.#converters = converters;
  }

  get length(): number {
    return this.#length;
  }

  add(reading: Reading, elapsedUs: number): void {
    this.#waiting.push({ seq: this.#length++, elapsedUs, reading });
    if (this.#waiting.length >= STRETCH) this.end();
  }

  /** How many there are. */
  end(): number {
    const firstSeq = this.#length - this.#waiting.length;
    if (this.#waiting.length > 0)
      this.all.push(columnsOf(this.#waiting, this.#converters, { firstSeq, shown: false }));
    this.#waiting = [];
    return this.#length;
  }
}

/** Null where nothing is to be read otherwise. Throws an ArchiveRefusal where it can't be. */
export function readAnew(
  archive: Archive,
  pullId: number,
  { lineFormat, importPlan }: Pick<EvaluationOptions, 'lineFormat' | 'importPlan'>,
): ReadAnew | null {
  if (lineFormat !== undefined) return linesAnew(archive, pullId, lineFormat);
  return importPlan === undefined ? null : fileAnew(archive, pullId, importPlan);
}

/** Throws an ArchiveRefusal where the pull was not imported, or no row of its file fits. */
function fileAnew(archive: Archive, pullId: number, plan: ImportPlan): ReadAnew {
  const pull = archive.getPull(pullId);
  if (pull.source.kind !== 'imported')
    throw new ArchiveRefusal(
      'import-plan-without-effect',
      `Pull ${String(pullId)} was not imported from a file, so no plan for a file can read it; choose another readout profile for its lines.`,
      'options.importPlan',
    );
  const bytes = Buffer.concat([...chunksOf(archive, pullId)].map((chunk) => chunk.bytes));
  const read = importReadings(bytes, plan);
  if (!read.ok)
    throw new ArchiveRefusal(
      read.fault.code,
      `${pull.source.file}: ${read.fault.sentence}`,
      'options.importPlan',
    );
  const { channels } = profileOfImport(plan);
  const stretches = new Stretches(convertersOf(channels, new Map()));
  for (const reading of read.readings()) stretches.add(reading, 0);
  const length = stretches.end();
  const { columns, stamps } = namedColumns(channels, stretches.all);
  const first = stamps?.[0] ?? Number.NaN;
  const { count } = read.report.misfits;
  return {
    by: importPlanText(plan),
    isFile: true,
    // Rows of a file did not arrive one after the other: their time is what the file says, or none.
    curve: {
      length,
      ...(stamps === null ? {} : { timeS: Number.isNaN(first) ? stamps : stamps.map((s) => s - first) }),
      ...columns,
      gaps: [],
    },
    timeFrom: stamps === null ? 'arrival' : 'readout',
    breakSeq: null,
    remark: `The imported file is read again by another plan: ${String(length)} readings (${String(pull.readingCount)} as imported), ${String(count)} rows that did not fit.`,
  };
}

/** Throws an ArchiveRefusal where the pull has no lines, or no line of it fits. */
function linesAnew(archive: Archive, pullId: number, lineFormat: ReadoutProfile): ReadAnew {
  const pull = archive.getPull(pullId);
  refuseWithoutLines(pull);
  const { channels: channelsBefore, zeros } = archive.sets((connection) => ({
    channels: channelsOf(connection, pullRowOf(connection, pullId)),
    zeros: zerosOf(connection, pullId),
  }));
  const channels = joinedChannels(lineFormat, pull.second?.profile ?? null);
  // A zero was taken in the unit and scale of its time; for another channel of that name it would be a wrong one.
  const standing = new Map([...zeros].filter(([field]) => isSame(field, channels, channelsBefore)));
  const left = [...zeros.keys()].filter((field) => !standing.has(field));
  const stretches = new Stretches(convertersOf(channels, standing));
  let misfits = 0;
  const lines = new PullLines({ profile: lineFormat, second: pull.second });
  const times = new Map<number, number>();
  for (const chunk of chunksOf(archive, pullId)) {
    times.set(chunk.chunkSeq, chunk.elapsedUs);
    for (const { line, reading } of lines.push(chunk)) {
      if (line.outcome.kind === 'misfit') misfits++;
      if (reading === null) continue;
      if (stretches.length >= CURVE_READINGS_MAX)
        throw new ArchiveRefusal(
          'line-format-wrong',
          `By the readout profile "${lineFormat.name}" pull ${String(pullId)} would have more than ${String(CURVE_READINGS_MAX)} readings; choose another profile.`,
          'options.lineFormat',
        );
      stretches.add(reading, times.get(reading.chunkSeq) ?? chunk.elapsedUs);
    }
  }
  const length = stretches.end();
  if (length === 0)
    throw new ArchiveRefusal(
      'line-format-wrong',
      `No line of pull ${String(pullId)} fits the readout profile "${lineFormat.name}" (${String(misfits)} do not); choose the profile of the readout that sent them.`,
      'options.lineFormat',
    );
  const elapsedUs = joined(stretches.all.map((one) => one.elapsedUs));
  const { columns, stamps } = namedColumns(channels, stretches.all);
  const clock = stamps !== null && isClock(stamps) ? stamps.map((s) => s - (stamps[0] ?? 0)) : null;
  return {
    by: lineFormat.name,
    isFile: false,
    curve: {
      length,
      timeS: clock ?? elapsedUs.map((us) => us / 1e6),
      ...columns,
      gaps: gapsAt(pull, elapsedUs),
    },
    timeFrom: clock === null ? 'arrival' : 'readout',
    breakSeq: breakAt(pull, elapsedUs),
    remark: [
      `The lines are read again by the readout profile “${lineFormat.name}”: ${String(length)} readings (${String(pull.readingCount)} as recorded), ${String(misfits)} lines that give none.`,
      ...(left.length === 0
        ? []
        : [
            `The zero of ${left.join(', ')} was taken by another profile and is left out; state it as a correction where it counts.`,
          ]),
    ].join(' '),
  };
}

function refuseWithoutLines({ pullId, typed, source }: KeptPull): void {
  if (typed === null && source.kind !== 'imported') return;
  throw new ArchiveRefusal(
    'line-format-without-effect',
    typed === null
      ? `Pull ${String(pullId)} was read from a file and not from lines of a readout; read its rows by another plan instead, in the window or with --columns.`
      : `Pull ${String(pullId)} was typed from the frame’s display and has no lines, so another readout profile would change nothing.`,
    'options.lineFormat',
  );
}

function isSame(field: string, now: readonly ReadoutChannel[], before: readonly ReadoutChannel[]): boolean {
  const text = (channels: readonly ReadoutChannel[]): string =>
    JSON.stringify(channels.find((channel) => channel.field === field) ?? null);
  return text(now) === text(before) && text(now) !== 'null';
}

function* chunksOf(archive: Archive, pullId: number): Generator<RawChunk> {
  const blocks = archive.sets((connection) => rawBlocks(connection, pullId));
  for (const { chunks } of blocks) yield* chunks;
}

function joined(parts: readonly Float64Array[]): Float64Array {
  const whole = new Float64Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** The first channel of each quantity; a readout's own peak memory is no curve. */
function namedColumns(channels: readonly ReadoutChannel[], stretches: readonly ReadingColumns[]) {
  const columns: Partial<
    Record<(typeof CURVE_COLUMN)[keyof typeof CURVE_COLUMN] | 'peakForceN', Float64Array>
  > = {};
  let stamps: Float64Array | null = null;
  for (const [index, { quantity, peak }] of channels.entries()) {
    if (peak || quantity === 'other') continue;
    const column = (): Float64Array =>
      joined(stretches.map((one) => one.channels[index]?.value ?? new Float64Array(one.count)));
    if (quantity === 'time') stamps ??= column();
    else columns[CURVE_COLUMN[quantity]] ??= column();
  }
  if (showsPeakOnly(channels)) {
    const index = loadChannel(channels);
    columns.peakForceN = joined(
      stretches.map((one) => one.channels[index]?.value ?? new Float64Array(one.count)),
    );
  }
  return { columns, stamps };
}

/** Gaps are stretches of time, whatever the lines between them say. */
function gapsAt({ gaps }: KeptPull, elapsedUs: Float64Array): CurveGap[] {
  return gaps.flatMap((gap) => {
    const toUs = gap.toElapsedUs ?? gap.fromElapsedUs;
    const beforeIndex = firstPlaceFrom(elapsedUs, toUs);
    return beforeIndex === 0 || beforeIndex >= elapsedUs.length
      ? []
      : [{ beforeIndex, durationS: (toUs - gap.fromElapsedUs) / 1e6, cause: gap.words }];
  });
}

/** The mark stands at the time of its reading. */
function breakAt({ breakSeq, marks }: KeptPull, elapsedUs: Float64Array): number | null {
  if (breakSeq === null) return null;
  const mark = marks.findLast(({ kind, seq }) => kind === 'break' && seq === breakSeq);
  return mark === undefined ? null : firstPlaceFrom(elapsedUs, mark.elapsedUs);
}
