/**
 * One pull as CSV: a header that names quantity and unit, converted columns first, then what the readout showed,
 * then the status; facts of the record in # lines. To a temporary name, counted, synced, renamed.
 */
import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { Archive } from '../../core/archive/archive.ts';
import { ArchiveFault, ArchiveRefusal, archiveFaultOf } from '../../core/archive/archive-fault.ts';
import { syncFolder } from '../../core/archive/backup.ts';
import type { CurveTime } from '../../core/archive/pull-columns.ts';
import type { KeptPull } from '../../core/contract/pull-requests.ts';
import {
  CHANNEL_STATUSES,
  READING_STATUSES,
  type ChannelColumns,
  type ReadingColumns,
} from '../../core/contract/reading.ts';
import { decimalText } from '../../core/pull/decimal-text.ts';

const READINGS_AT_ONCE = 50_000;
const PIECE_BYTES = 1_048_576;

export interface WrittenExport {
  readonly path: string;
  readonly readingCount: number;
  readonly bytes: number;
}

/** Throws an ArchiveRefusal where the file exists, an ArchiveFault where it can't be written. */
export function exportCsv(archive: Archive, pullId: number, to: string): WrittenExport {
  const path = resolve(to);
  const pull = archive.getPull(pullId);
  if (existsSync(path))
    throw new ArchiveRefusal(
      'file-exists',
      `The file ${path} exists already and is not written over; choose another name.`,
      'to',
    );
  const temporary = `${path}.part-${process.pid}`;
  try {
    const lineCount = writeLines(archive, pull, temporary);
    const bytes = statSync(temporary).size;
    if (linesIn(temporary) !== lineCount)
      throw new ArchiveFault(
        'archive-unreadable',
        `The export to ${path} did not arrive whole on its disk, so it was not kept; try another disk.`,
      );
    renameSync(temporary, path);
    syncFolder(dirname(path));
    return { path, readingCount: pull.readingCount, bytes };
  } catch (error) {
    rmSync(temporary, { force: true });
    throw exportFaultOf(error, path);
  }
}

function writeLines(archive: Archive, pull: KeptPull, temporary: string): number {
  const file = openSync(temporary, 'wx');
  try {
    let lineCount = 0;
    const write = (lines: readonly string[]): void => {
      const bytes = Buffer.from(lines.map((line) => `${line}\r\n`).join(''), 'utf8');
      let written = 0;
      while (written < bytes.length) written += writeSync(file, bytes, written);
      lineCount += lines.length;
    };
    const { curve, timeFrom } = archive.curve(pull.pullId);
    const timeS = curve.timeS ?? new Float64Array(0);
    write([...factLines(pull, timeFrom), headerLine(pull)]);
    for (let fromSeq = 0; fromSeq < pull.readingCount; fromSeq += READINGS_AT_ONCE) {
      const { columns } = archive.readColumns({
        pullId: pull.pullId,
        fromSeq,
        count: READINGS_AT_ONCE,
        shown: true,
      });
      write(readingLines(columns, timeS));
    }
    fsyncSync(file);
    return lineCount;
  } finally {
    closeSync(file);
  }
}

/** Remarks about the record; line breaks in typed texts would end the remark, so they become blanks. */
function factLines(pull: KeptPull, timeFrom: CurveTime): string[] {
  const facts = [
    `specimen: ${pull.specimenName}`,
    `pull: ${pull.pullId}, begun ${new Date(pull.startedWallMs).toISOString()}, program version ${pull.programVersion}`,
    `readout: ${pull.profile.name}`,
    timeFrom === 'readout'
      ? "time_s: the readout's own clock, from its first reading; arrival_s: when the line arrived, since the record began"
      : 'time_s and arrival_s: when the line arrived, since the record began',
    ...(pull.operator === null ? [] : [`operator: ${pull.operator}`]),
    ...Object.entries(pull.zeros).map(([key, zero]) => `zero taken off ${key}: ${zero}`),
    ...pull.marks.map((m) => `mark: ${m.kind} at reading ${m.seq}, ${seconds(m.elapsedUs)} s, ${m.words}`),
    ...pull.gaps.map(
      (g) =>
        `gap: before reading ${g.beforeSeq}, from ${seconds(g.fromElapsedUs)} s to ${g.toElapsedUs === null ? 'the end' : `${seconds(g.toElapsedUs)} s`}, ${g.words}`,
    ),
  ];
  return facts.map((fact) => `# ${fact.replace(/[\r\n]+/g, ' ')}`);
}

const NAME_OF_QUANTITY = {
  time: 'readout_time',
  force: 'force',
  extension: 'extension',
  travel: 'travel',
  stress: 'stress',
  strain: 'strain',
  other: 'other',
} as const;

function headerLine(pull: KeptPull): string {
  const taken = new Set<string>(['time_s']);
  const unique = (name: string): string => {
    let free = name;
    for (let n = 2; taken.has(free); n++) free = `${name}_${n}`;
    taken.add(free);
    return free;
  };
  const converted = pull.channels.map((c) => unique(`${NAME_OF_QUANTITY[c.quantity]}_${c.coreUnit}`));
  const shown = pull.channels.flatMap((c) => [
    unique(`shown ${c.key}`),
    unique(`shown unit ${c.key}`),
    unique(`status ${c.key}`),
  ]);
  return ['time_s', ...converted, ...shown, 'line status', 'arrival_s'].map(quoted).join(',');
}

const quoted = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replace(/"/g, '""')}"` : text);

function readingLines(columns: ReadingColumns, timeS: Float64Array): string[] {
  return Array.from({ length: columns.count }, (_, i) =>
    [
      numberText(timeS[columns.firstSeq + i] ?? Number.NaN),
      ...columns.channels.map((channel) => numberText(channel.value[i] ?? Number.NaN)),
      ...columns.channels.flatMap((channel) => [
        shownText(channel, i),
        channel.shown?.units[channel.shown.unit[i] ?? 0] ?? '',
        CHANNEL_STATUSES[channel.status[i] ?? 0] ?? '',
      ]),
      READING_STATUSES[columns.status[i] ?? 0] ?? '',
      seconds(columns.elapsedUs[i] ?? 0),
    ].join(','),
  );
}

/** A missing value is an empty field, never 0. */
const numberText = (value: number): string => (Number.isNaN(value) ? '' : String(value));

const seconds = (us: number): string => (us / 1e6).toFixed(6);

function shownText(channel: ChannelColumns, i: number): string {
  const mantissa = channel.shown?.mantissa[i] ?? Number.NaN;
  return Number.isNaN(mantissa) ? '' : decimalText(mantissa, channel.shown?.exponent[i] ?? 0);
}

/** Counted piece by piece: an export may be larger than memory. */
function linesIn(path: string): number {
  const file = openSync(path, 'r');
  try {
    const piece = Buffer.alloc(PIECE_BYTES);
    let count = 0;
    for (let length = readSync(file, piece); length > 0; length = readSync(file, piece))
      for (let at = piece.indexOf(10); at !== -1 && at < length; at = piece.indexOf(10, at + 1)) count++;
    return count;
  } finally {
    closeSync(file);
  }
}

/** Faults of the target's disk speak of the export, not of the archive. */
function exportFaultOf(error: unknown, path: string): unknown {
  if (error instanceof ArchiveRefusal || error instanceof ArchiveFault) return error;
  const fault = archiveFaultOf(error, path);
  if (fault === null) return error;
  const words: Partial<Record<ArchiveFault['code'], string>> = {
    'archive-disk-full': `The disk that holds ${path} is full, so the export was not written; free some space or choose another disk. The archive is untouched.`,
    'archive-read-only': `The file ${path} can't be written (no permission, or a read-only medium); choose another place. The archive is untouched.`,
    'archive-folder-missing': `The folder of ${path} does not exist; make it first or choose another one.`,
  };
  return new ArchiveFault(fault.code, words[fault.code] ?? fault.message);
}
