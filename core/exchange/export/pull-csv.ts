/**
 * One pull as delimited text, line by line: facts of the record as remarks, a header with quantities and units,
 * then a row per reading with the converted values, the digits as shown, and the status. Gaps stand as remarks
 * where they were.
 */
import type { KeptPull } from '../../contract/pull-requests.ts';
import { CHANNEL_STATUSES, READING_STATUSES, type ReadingColumns } from '../../contract/reading.ts';
import type { Gap } from '../../contract/record.ts';
import {
  BYTE_ORDER_MARK,
  type CsvForm,
  PLAIN_CSV,
  decimalCell,
  numberCell,
  remarkLine,
  requireReadable,
  textCell,
} from './csv-form.ts';
import { secondsText } from './moment-text.ts';
import { type ChannelColumnNames, channelColumnNames } from './pull-csv-columns.ts';
import { pullFacts } from './pull-facts.ts';
import { type ShownTexts, shownTextsOf } from './shown-texts.ts';
import type { SpreadsheetPart } from './spreadsheet-rows.ts';

export interface PullCsvOptions {
  /** Default PLAIN_CSV. */
  readonly form?: CsvForm;
  /**
   * Seconds on the readout's own clock by the number of the reading, where that is the time of the curve: it becomes
   * time_s, and the arrival stands in a column of its own.
   */
  readonly readoutTimeS?: Float64Array;
  /** One of several files: `blocks` are then its readings. */
  readonly part?: SpreadsheetPart;
}

/** Rows of a file beside its readings: remarks, those of all gaps among them, header and end. */
export function rowsBesideReadings(pull: KeptPull): number {
  const facts = pullFacts(pull, channelColumnNames(pull), 'arrival').length;
  const [partFact, header, end] = [1, 1, 1];
  return facts + partFact + header + pull.gaps.length + end;
}

/**
 * Lines without their ends; the byte order mark, where the form has one, is at the beginning of the first. `blocks`
 * are consecutive columns read with `shown: true`, from whichever reading the export begins with.
 */
export function* pullCsvLines(
  pull: KeptPull,
  blocks: Iterable<ReadingColumns>,
  { form = PLAIN_CSV, readoutTimeS, part }: PullCsvOptions = {},
): Generator<string> {
  requireReadable(form);
  const names = channelColumnNames(pull);
  let mark = form.byteOrderMark ? BYTE_ORDER_MARK : '';
  const facts = pullFacts(pull, names, readoutTimeS === undefined ? 'arrival' : 'readout');
  for (const fact of [...facts, ...(part === undefined ? [] : [partWords(part, pull.readingCount)])]) {
    yield mark + remarkLine(fact);
    mark = '';
  }
  yield headerNames(names, readoutTimeS !== undefined)
    .map((name) => textCell(name, form))
    .join(form.delimiter);
  let count = 0;
  const gaps = pull.gaps.filter((gap) => isIn(part, gap)).sort((a, b) => a.beforeSeq - b.beforeSeq);
  for (const block of blocks) {
    const shownTexts = block.channels.map(({ shown }) => shownTextsOf(shown));
    for (let i = 0; i < block.count; i++) {
      const seq = block.firstSeq + i;
      while (gaps[0] !== undefined && gaps[0].beforeSeq <= seq) {
        const gap = gaps.shift();
        if (gap?.beforeSeq === seq) yield remarkLine(gapWords(gap));
      }
      yield readingRow(block, i, { names, form, readoutTimeS, shownTexts }).join(form.delimiter);
      count++;
    }
  }
  for (const gap of gaps) yield remarkLine(gapWords(gap));
  yield remarkLine(`end: ${String(count)} readings${part === undefined ? '' : ` of ${partName(part)}`}`);
}

const partName = ({ number, of }: SpreadsheetPart): string => `part ${String(number)} of ${String(of)}`;

function partWords(part: SpreadsheetPart, readingCount: number): string {
  const last = part.firstSeq + part.count - 1;
  return `${partName(part)}: readings ${String(part.firstSeq)} to ${String(last)} of ${String(readingCount)} in all`;
}

/** A gap behind the last reading stands in the last part. */
function isIn(part: SpreadsheetPart | undefined, { beforeSeq }: Gap): boolean {
  if (part === undefined) return true;
  const isLast = part.number === part.of;
  return beforeSeq >= part.firstSeq && (isLast || beforeSeq < part.firstSeq + part.count);
}

function headerNames(names: readonly ChannelColumnNames[], withArrival: boolean): string[] {
  return [
    'reading',
    'time_s',
    ...names.map((name) => name.converted),
    ...names.flatMap((name) => [
      name.shown,
      ...(name.shownUnit === null ? [] : [name.shownUnit]),
      name.status,
    ]),
    'status',
    ...(withArrival ? ['arrival_s'] : []),
  ];
}

interface RowForm {
  readonly names: readonly ChannelColumnNames[];
  readonly form: CsvForm;
  readonly readoutTimeS: Float64Array | undefined;
}

function readingRow(
  block: ReadingColumns,
  i: number,
  { names, form, readoutTimeS, shownTexts }: RowForm & { readonly shownTexts: readonly ShownTexts[] },
): string[] {
  const seq = block.firstSeq + i;
  const arrival = decimalCell(secondsText(block.elapsedUs[i] ?? Number.NaN), form);
  const time = readoutTimeS === undefined ? arrival : numberCell(readoutTimeS[seq] ?? Number.NaN, form);
  const row = [String(seq), time];
  for (const channel of block.channels) row.push(numberCell(channel.value[i] ?? Number.NaN, form));
  block.channels.forEach((channel, c) => {
    const text = shownTexts[c]?.[i] ?? null;
    row.push(text === null ? '' : decimalCell(text, form));
    if (names[c]?.shownUnit !== null)
      row.push(textCell(channel.shown?.units[channel.shown.unit[i] ?? 0] ?? '', form));
    row.push(CHANNEL_STATUSES[channel.status[i] ?? 0] ?? '');
  });
  row.push(READING_STATUSES[block.status[i] ?? 0] ?? '');
  if (readoutTimeS !== undefined) row.push(arrival);
  return row;
}

function gapWords(gap: Gap): string {
  const length =
    gap.toElapsedUs === null
      ? 'from here to the end'
      : `${secondsText(gap.toElapsedUs - gap.fromElapsedUs)} s`;
  return `gap before reading ${String(gap.beforeSeq)}: ${length} without readings from ${secondsText(gap.fromElapsedUs)} s on (${gap.cause}) ${gap.words}`.trimEnd();
}
