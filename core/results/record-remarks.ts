/** What was noticed about a record itself, a sentence each; nothing here changes a value. */
import { counted } from '../words/counted.ts';
import { channelValue } from '../curve/channel.ts';
import { BLOCK_READINGS } from '../curve/record-blocks.ts';
import type { Curve } from '../curve/curve.ts';
import { numberText } from '../quantity/number-text.ts';
import type { EvaluatedRecord } from './evaluated-record.ts';
import { goesOnAfterBreak } from './goes-on-after-break.ts';
import { stepClause } from './extension-steps.ts';
import { loadZero } from './load-zero.ts';
import { slopeOfMetals } from './slope-of-metals.ts';
import { readingNumber } from './finding.ts';
import { unitStepWords } from './unit-step.ts';

/** A record that begins with more load than this part of the maximum began after the loading did. */
const PRELOAD_FRACTION = 0.05;
/** Waiting before the loading worth a word. */
const SLACK_S = 5;
/** A longer wait is a fault of the clock column. */
const WAITED_S_MAX = 1e7;
/** Spikes named one by one; more are counted. */
const SPIKES_NAMED_MAX = 3;

/** Begins the remark on a break that the record itself names: what every recorded pull has, and no departure from anything. */
export const BREAK_MARKED_AT = 'The break was marked at reading ';

export function recordRemarks(record: EvaluatedRecord, curve: Curve): string[] {
  return [
    ...missing(record),
    ...(record.impossible
      ? [
          'Readings larger than any channel can show are passed over; look at the readout and its line format.',
        ]
      : []),
    ...unitChanged(record),
    ...spikes(record),
    ...strays(record),
    ...time(record),
    ...gaps(curve),
    ...beginning(record),
    ...ending(record),
    ...loadZero(record),
    ...slope(record),
    ...(record.strainReason?.code === 'slope-implausible' ? [record.strainReason.reason] : []),
    ...slips(record),
    ...record.loadFaults.map(
      ({ clause }) =>
        `${capital(clause)}: look at the readout and its range; what was read there is withheld or says so.`,
    ),
    ...whole(goesOnAfterBreak(record)),
    ...(record.trust.trouble === undefined
      ? []
      : [`${capital(record.trust.trouble.clause)}; extension counts only up to there.`]),
  ];
}

/** What the slope says of scales and units, where it isn't told already that no metal has it. */
function slope({ line, columns }: EvaluatedRecord): string[] {
  return line === null || columns.strainSource?.channel === 'travel'
    ? []
    : whole(slopeOfMetals(line)?.sentence ?? null);
}

const whole = (sentence: string | null): string[] => (sentence === null ? [] : [sentence]);

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function missing({ scan }: EvaluatedRecord): string[] {
  const absent = scan.counted - scan.present - scan.spikes.length;
  return absent > 0
    ? [`${String(absent)} of ${String(scan.counted)} readings have no load and are passed over.`]
    : [];
}

function unitChanged({ unitStep }: EvaluatedRecord): string[] {
  return unitStep === null
    ? []
    : [`${unitStepWords(unitStep)}: is the mark before it a break at all? Nothing after it is evaluated.`];
}

function spikes({ scan, load, columns }: EvaluatedRecord): string[] {
  if (scan.spikes.length === 0) return [];
  const named = scan.spikes.slice(0, SPIKES_NAMED_MAX).map(readingNumber).join(', ');
  const more = scan.spikes.length > SPIKES_NAMED_MAX ? ' and more' : '';
  const largest = numberText(channelValue(load, scan.largestIndex), 4);
  const unit = columns.force === undefined ? 'MPa' : 'N';
  return [
    scan.spikes.length === 1
      ? `A reading stands alone far above the neighbours (${named}) and is not taken for the maximum; the largest of the others is ${largest} ${unit}.`
      : `${String(scan.spikes.length)} readings stand alone far above the neighbours (${named}${more}) and are not taken for the maximum; the largest of the others is ${largest} ${unit}.`,
  ];
}

function strays({ strays: indices }: EvaluatedRecord): string[] {
  if (indices.length === 0) return [];
  const named = indices.slice(0, SPIKES_NAMED_MAX).map(readingNumber).join(', ');
  const more = indices.length > SPIKES_NAMED_MAX ? ' and more' : '';
  return [
    indices.length === 1
      ? `1 single reading of the extension far from both neighbours (${named}) is passed over.`
      : `${String(indices.length)} single readings of the extension far from both neighbours (${named}${more}) are passed over.`,
  ];
}

function time({ columns }: EvaluatedRecord): string[] {
  const ts = columns.timeS;
  if (ts === undefined) return [];
  if (ascends(ts)) return [];
  let equal = 0;
  let backwards = 0;
  for (let i = 1; i < ts.length; i++) {
    const t = ts[i] as number;
    const before = ts[i - 1] as number;
    if (t === before) equal += 1;
    else if (t < before) backwards += 1;
  }
  return [
    ...(equal > 0
      ? [
          equal === 1
            ? '1 reading has the same time as the one before.'
            : `${String(equal)} readings have the same time as the one before.`,
        ]
      : []),
    ...(backwards > 0
      ? [`The time goes back at ${String(backwards)} readings; readings are taken in the order they came.`]
      : []),
  ];
}

/** True where every reading is later than the one before. */
function ascends(ts: Float64Array): boolean {
  for (let from = 1; from < ts.length; from += BLOCK_READINGS)
    if (!ascendsWithin(ts, from, Math.min(ts.length, from + BLOCK_READINGS))) return false;
  return true;
}

/** A short loop of its own: it is called often and so is made fast at once. */
function ascendsWithin(ts: Float64Array, from: number, to: number): boolean {
  let before = ts[from - 1] as number;
  let i = from;
  // Four at a time, which takes a fifth off the time of the whole pass.
  for (; i + 3 < to; i += 4) {
    const a = ts[i] as number;
    const b = ts[i + 1] as number;
    const c = ts[i + 2] as number;
    const d = ts[i + 3] as number;
    if (!(a > before && b > a && c > b && d > c)) return false;
    before = d;
  }
  for (; i < to; i++) {
    const t = ts[i] as number;
    if (!(t > before)) return false;
    before = t;
  }
  return true;
}

function slips({ steps, line }: EvaluatedRecord): string[] {
  if (steps.length === 0) return [];
  const before = steps.every((step) => line !== null && step.index <= line.range.from);
  return [
    `The extension ${stepClause(steps)}: probably a slip of the extensometer; look at its knife edges. ${before ? 'The elastic line is taken from the readings after it, whose foot takes it up.' : 'What it moves is withheld or says so.'}`,
  ];
}

function gaps({ gaps: all = [] }: Curve): string[] {
  const said = (
    list: typeof all,
    words: (count: string, longest: string, them: string) => string,
  ): string[] => {
    if (list.length === 0) return [];
    const longest = list.reduce((most, { durationS }) => Math.max(most, durationS), 0);
    return [words(counted(list.length, 'gap'), numberText(longest, 3), list.length === 1 ? 'it' : 'them')];
  };
  return [
    ...said(
      all.filter(({ ofSecond }) => ofSecond !== true),
      (count, longest, them) =>
        `The record has ${count} in which nothing was received, the longest ${longest} s; what happened in ${them} is not known.`,
    ),
    ...said(
      all.filter(({ ofSecond }) => ofSecond === true),
      (count, longest, them) =>
        `The second instrument has ${count} in which nothing was received from it, the longest ${longest} s; the load went on, and what the second instrument would have shown in ${them} is not known.`,
    ),
  ];
}

function beginning(record: EvaluatedRecord): string[] {
  const { load, startIndex, peakIndex, scan, columns } = record;
  const peak = channelValue(load, peakIndex);
  const first = channelValue(load, scan.firstPresent);
  const remarks: string[] = [];
  if (first > PRELOAD_FRACTION * peak)
    remarks.push(
      `The record begins at ${numberText((100 * first) / peak, 2)} % of the maximum load: a preload, or a zero that was not set.`,
    );
  const ts = columns.timeS;
  const waited = ts === undefined ? Number.NaN : (ts[startIndex] as number) - (ts[0] as number);
  if (waited > SLACK_S && waited < WAITED_S_MAX)
    remarks.push(
      `The loading begins ${numberText(waited, 3)} s into the record (reading ${readingNumber(startIndex)}); the slack before it is left out.`,
    );
  return remarks;
}

function ending({ end, columns, load, peakIndex }: EvaluatedRecord): string[] {
  const after = columns.length - 1 - end.index;
  switch (end.kind) {
    case 'collapse':
      if (after === 1 && channelValue(load, end.index + 1) === 0)
        return [
          'The last row has no load and is taken for the break; if it was only appended to the file, the record may have stopped before the break.',
        ];
      return [
        `The break is after reading ${readingNumber(end.index)}; ${after === 1 ? 'the one reading' : `the ${String(after)} readings`} after it ${after === 1 ? 'is' : 'are'} not evaluated.`,
      ];
    case 'run-out':
      return [
        'The force runs out slowly instead of breaking off; the break is put where it falls below 10 % of the maximum.',
      ];
    case 'marked':
      return [`${BREAK_MARKED_AT}${readingNumber(end.index)}.`];
    case 'unloaded':
      return [`The specimen was let off from reading ${readingNumber(end.index)} on; no break is recorded.`];
    case 'stops': {
      if (end.index === peakIndex) return ['The record stops while the load still rises.'];
      const part = (100 * channelValue(load, end.index)) / channelValue(load, peakIndex);
      return [
        `The record stops at ${numberText(part, 3)} % of the maximum load without the fall that a break makes.`,
      ];
    }
  }
}
