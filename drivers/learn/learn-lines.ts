/**
 * Learning a readout from its bytes: layouts are proposed, each is turned into a whole profile, and the parser
 * that will read the readout later says how much of the bytes each explains. The one that explains most is proposed.
 * Of many bytes a part that is spread over them decides; what is said of the proposal is counted over all of them.
 */
import type { ReadoutProfile, SerialSettings } from '../../core/contract/readout-profile.ts';
import { createParser } from '../create-parser.ts';
import type { ParsedLine } from '../reading.ts';
import { lineChecker } from '../lines/line-check.ts';
import type { NumberStyle } from '../lines/number-grammar.ts';
import { channelRemarks } from './channel-remarks.ts';
import { delimitedLayouts } from './delimited-layouts.ts';
import { findCheck } from './find-check.ts';
import { type FoundHeading, findHeading, strayHeadings } from './find-heading.ts';
import { type FoundLines, LEARN_LINES_MAX, findLines } from './find-lines.ts';
import { fixedColumnLayouts } from './fixed-column-layouts.ts';
import { groupLines } from './group-lines.ts';
import type { Layout } from './layout.ts';
import { type LearntChannel, type LearntProfile, profileOfLayout } from './profile-of-layout.ts';
import { parityShown, sevenBits, withoutTopBits } from './parity-bits.ts';
import { spreadPieces } from './spread-pieces.ts';
import { templateLayouts } from './template-layouts.ts';

export interface Learnt {
  readonly profile: ReadoutProfile;
  /** 0 to 1: how far the proposal can be believed. Never above ONE_LINE_CONFIDENCE for a single line. */
  readonly confidence: number;
  readonly channels: readonly LearntChannel[];
  readonly readings: number;
  readonly rejected: number;
  /** In words, for the person who decides. */
  readonly remarks: readonly string[];
}

export interface LearnOptions {
  readonly name?: string;
  readonly serial?: SerialSettings;
  /** How long it took for the bytes to come, for the rate. */
  readonly seconds?: number;
}

/** Bytes looked at; a readout shows what it is within seconds. */
export const LEARN_BYTES_MAX = 4 * 1_048_576;
export const ONE_LINE_CONFIDENCE = 0.4;
/** Lines that come by turns are parts of one record, even where a layout fits each of them. */
const TOGETHER_PREFERENCE = 0.2;
/** Below this nothing is proposed. */
const CONFIDENCE_MIN = 0.15;

/** Null where the bytes have no lines with numbers in them. */
export function learnLines(bytes: Uint8Array, options: LearnOptions = {}): Learnt | null {
  const asCame = bytes.subarray(0, LEARN_BYTES_MAX);
  const parity = parityShown(asCame);
  if (parity !== null) return learnSevenBits(asCame, parity, options);
  const seen = asCame;
  const found = findLines(seen);
  if (found === null || found.texts.length === 0) return null;
  let best: Scored | null = null;
  const grouped = groupLines(findHeading(found.texts).texts);
  const together =
    grouped === null
      ? []
      : candidates(
          { ...found, framing: { ...found.framing, lines: grouped.lines }, texts: [...grouped.texts] },
          options,
          withPassedOver(findHeading(found.texts), grouped.passedOver),
        );
  for (const candidate of [...candidates(found, options), ...together]) {
    const scored = score(candidate, spreadPieces(seen, candidate.profile.framing));
    if (best === null || scored.score > best.score) best = scored;
  }
  if (best === null || best.readings === 0) return null;
  const learnt = proposal(overAll(best, seen), found, options);
  // Noise has lines too, and now and then a number in one of them.
  return learnt.confidence < CONFIDENCE_MIN ? null : learnt;
}

const withPassedOver = (headed: FoundHeading, beginnings: readonly string[]): FoundHeading => ({
  ...headed,
  ignoredLines: [...headed.ignoredLines, ...beginnings],
});

/** Bytes of seven bits and parity, recorded as eight. */
function learnSevenBits(bytes: Uint8Array, parity: 'even' | 'odd', options: LearnOptions): Learnt | null {
  const serial = options.serial ?? SETTINGS_UNKNOWN;
  const learnt = learnLines(withoutTopBits(bytes), { ...options, serial: sevenBits(serial, parity) });
  if (learnt === null) return null;
  const remark = `The top bit of each byte is a parity bit: the readout sends seven data bits with ${parity} parity.`;
  return { ...learnt, remarks: [remark, ...learnt.remarks] };
}

const SETTINGS_UNKNOWN: SerialSettings = {
  baudRate: 9600,
  dataBits: 8,
  parity: 'none',
  stopBits: 1,
  flowControl: 'none',
};

interface Candidate extends LearntProfile {
  readonly layout: Layout;
  /** Numbers of a usual line that the layout must account for. */
  readonly textCount: number;
}

/** `headed`: the headings, where those of the lines themselves were looked at before they were joined. */
function* candidates(found: FoundLines, options: LearnOptions, headed?: FoundHeading): Generator<Candidate> {
  const check = findCheck(found.texts, found.framing.leading ?? '');
  // The mark of a check is the mark of the end of the text too (ETX).
  const { trailing, ...withoutTrailing } = found.framing;
  const checkAgain =
    check === null && trailing !== undefined
      ? findCheck(
          found.texts.map((text) => text + trailing),
          found.framing.leading ?? '',
        )
      : null;
  const framing = checkAgain === null ? found.framing : withoutTrailing;
  const theCheck = check ?? checkAgain;
  const checker = theCheck === null ? null : lineChecker(theCheck, framing.leading);
  const bodies =
    checker === null
      ? found.texts
      : found.texts.flatMap((text) => {
          const checked = checker(checkAgain === null ? text : text + (trailing ?? ''));
          return checked.ok ? [checked.text] : [];
        });
  const { heading, ignoredLines, texts } =
    headed === undefined ? findHeading(bodies) : { ...headed, heading: null, texts: bodies };
  if (texts.length === 0) return;
  const context = {
    texts,
    framing,
    check: theCheck,
    heading,
    ignoredLines,
    serial: options.serial ?? null,
    name: options.name ?? 'Learned readout',
  };
  const minus = parenthesesAreMinus(texts) ? { minusInParentheses: true } : {};
  for (const style of stylesOf(texts)) {
    const layouts = [
      ...delimitedLayouts(texts, { ...style, ...minus }),
      ...fixedColumnLayouts(texts, { ...style, ...minus }),
      ...templateLayouts(texts, { ...style, ...minus }),
    ];
    for (const layout of layouts) {
      const learnt = profileOfLayout(layout, context);
      if (learnt !== null) yield { ...learnt, layout, textCount: texts.length };
    }
  }
}

/** Nothing but a number between parentheses, with no name before them ("CH(1)"). */
const IN_PARENTHESES = /(?<![A-Za-z])\([ \t]*[\d.,' ]*\d[ \t]*\)/g;

/** Parentheses that stand around a number in some lines and not in others; around each of them they say nothing. */
function parenthesesAreMinus(texts: readonly string[]): boolean {
  const counts = new Set(texts.map((text) => text.match(IN_PARENTHESES)?.length ?? 0));
  return counts.size > 1;
}

/** Dates, and times of the day: a point in them says nothing about the numbers. */
const POINTED_DAY = /\b\d{2}\.\d{2}\.(?:\d{4}|\d{2})\b|\b\d{1,2}:\d{2}(?::\d{2})?\.\d+/g;

/** Decimal signs that the lines allow, the likelier first. */
function stylesOf(lines: readonly string[]): NumberStyle[] {
  const texts = lines.map((line) => (/\d,\d/.test(line) ? line.replace(POINTED_DAY, '') : line));
  const points = texts.some((text) => /\d\.\d|\.\d/.test(text));
  const commas = texts.filter((text) => /\d,\d/.test(text)).length;
  const grouped = texts.some((text) => /(?<![\d.,])\d{1,3}(?:,\d{3})+(?:\.\d+)?(?![\d,])/.test(text));
  const groupedByBlank = texts.some((text) => /(?<![\d.,])\d{1,3}(?: \d{3})+[.,]\d/.test(text));
  const groupedByApostrophe = texts.some((text) => /(?<![\d.,])\d{1,3}(?:'\d{3})+(?![\d'])/.test(text));
  const groupedByPoint = texts.some((text) => /(?<![\d.,])\d{1,3}(?:\.\d{3})+,\d/.test(text));
  // "999 N", then "1,000 N": read as a decimal sign it would be a thousandth.
  if (!points && commasOnlyGroup(texts, ',')) return [{ decimalSign: '.', groupSign: ',' }];
  if (commas === 0 && commasOnlyGroup(texts, '.')) return [{ decimalSign: ',', groupSign: '.' }];
  const styles: NumberStyle[] = [{ decimalSign: '.' }];
  if (points && grouped) styles.push({ decimalSign: '.', groupSign: ',' });
  if (commas > texts.length / 2 && !points && commasAreDecimal(texts)) styles.push({ decimalSign: ',' });
  if (groupedByBlank) styles.push({ decimalSign: points ? '.' : ',', groupSign: ' ' });
  if (groupedByApostrophe) styles.push({ decimalSign: points ? '.' : ',', groupSign: "'" });
  if (groupedByPoint) styles.push({ decimalSign: ',', groupSign: '.' });
  return styles;
}

/** Lines from which a sign can be told to group thousands: a number with it, and one without it, in so many each. */
const GROUPING_LINES_MIN = 3;

/**
 * Whether a sign stands in numbers of a thousand and more alone, always before three digits, and never in smaller ones at
 * the same place of the line. Decimals would stand in all of them.
 */
function commasOnlyGroup(texts: readonly string[], sign: ',' | '.'): boolean {
  const numbers = sign === ',' ? /\d+(?:,\d+)*/g : /\d+(?:\.\d+)*/g;
  const grouped = sign === ',' ? /^[1-9]\d{0,2}(?:,\d{3})+$/ : /^[1-9]\d{0,2}(?:\.\d{3})+$/;
  const places = new Map<number, { with: number; without: number; other: boolean }>();
  for (const text of texts)
    (text.match(numbers) ?? []).forEach((number, place) => {
      const seen = places.get(place) ?? { with: 0, without: 0, other: false };
      if (!number.includes(sign)) {
        seen.without++;
        seen.other ||= number.length > 3;
      } else if (grouped.test(number)) seen.with++;
      else seen.other = true;
      places.set(place, seen);
    });
  const withSign = [...places.values()].filter((seen) => seen.with > 0 || (seen.other && seen.without === 0));
  return (
    withSign.length > 0 &&
    withSign.every(
      (seen) => !seen.other && seen.with >= GROUPING_LINES_MIN && seen.without >= GROUPING_LINES_MIN,
    )
  );
}

/** "12,345" in every line may be twelve or twelve thousand: nothing in the lines tells. */
const commaIsDoubtful = (texts: readonly string[]): boolean => {
  const numbers = texts
    .flatMap((text) => text.match(/\d+(?:[.,]\d+)*/g) ?? [])
    .filter((it) => it.includes(','));
  return numbers.length > 0 && numbers.every((number) => /^[1-9]\d{0,2}(?:,\d{3})+$/.test(number));
};

/** Decimals come in one number, or beside another delimiter; "427,13" and "3211,105" are two whole numbers each. */
function commasAreDecimal(texts: readonly string[]): boolean {
  if (texts.some((text) => /[;\t|]/.test(text) || /[A-Za-z%]/.test(text))) return true;
  const widths = new Set(
    texts.flatMap((text) => Array.from(text.matchAll(/\d,(\d+)/g), (match) => match[1]?.length ?? 0)),
  );
  if (texts.some((text) => /\d,\d+,\d/.test(text))) return false;
  return (
    widths.size === 1 ||
    (widths.size === 2 && texts.some((text) => text.trim().includes(' '))) ||
    decimalsStandFast(texts)
  );
}

/** Each number keeps as many digits behind its comma from line to line; whole numbers would not. */
function decimalsStandFast(texts: readonly string[]): boolean {
  const widths = new Map<number, Set<number>>();
  for (const text of texts)
    Array.from(text.matchAll(/\d,(\d+)/g)).forEach((match, place) => {
      widths.set(place, (widths.get(place) ?? new Set<number>()).add(match[1]?.length ?? 0));
    });
  return widths.size > 1 && [...widths.values()].every((its) => its.size === 1);
}

interface Scored extends Candidate {
  readonly score: number;
  readonly readings: number;
  /** Lines that are neither readings nor headings. */
  readonly rejected: number;
}

/** Lines that do not fit cost more than their share where another layout takes them too: up to so much. */
const MISFIT_COST_MAX = 0.04;

/** Bytes parsed at once: the readings of four megabytes need not stand in memory together. */
const PARSED_AT_ONCE = 65_536;

function* parsedLines(profile: ReadoutProfile, bytes: Uint8Array): Generator<ParsedLine> {
  const parser = createParser(profile);
  for (let at = 0; at < bytes.length; at += PARSED_AT_ONCE)
    yield* parser.push(0, bytes.subarray(at, at + PARSED_AT_ONCE), 0);
  yield* parser.end();
}

/** `pieces` are parsed each by itself. */
function score(candidate: Candidate, pieces: readonly Uint8Array[]): Scored {
  const { profile, layout, channels, opaqueFields } = candidate;
  let readings = 0;
  let clean = 0;
  let rejected = 0;
  for (const piece of pieces)
    for (const { outcome } of parsedLines(profile, piece)) {
      if (outcome.kind === 'misfit') {
        if (outcome.reason !== 'ignored') rejected++;
        continue;
      }
      readings++;
      if (outcome.reading.channels.every((channel) => channel.status !== 'malformed')) clean++;
    }
  const lines = Math.max(1, readings + rejected);
  const explained =
    (clean + (readings - clean) * 0.2) / lines - Math.min(MISFIT_COST_MAX, (5 * rejected) / lines);
  const said = channels.filter((channel) => channel.unit !== null).length;
  const named = channels.filter((channel) => channel.isSaid).length;
  return {
    ...candidate,
    readings,
    rejected,
    score:
      explained -
      opaqueFields * 0.08 +
      layout.preference +
      // One value of each kind a record: read line by line, load and extension would stand in one channel.
      (profile.framing.lines === undefined ? 0 : TOGETHER_PREFERENCE) +
      // A layout that finds more of the units and names has understood more of the line.
      said * 0.03 +
      (0.04 * named) / channels.length +
      decimalBonus(candidate),
  };
}

/** The proposal with what it explains of all bytes. */
function overAll(best: Candidate, bytes: Uint8Array): Scored {
  const whole = score(best, [bytes]);
  const passingOver = withoutStrayHeadings(best, bytes);
  if (passingOver === best) return whole;
  const passed = score(passingOver, [bytes]);
  // What stands at the beginning may be the beginning of a reading further on.
  return passed.readings < whole.readings ? whole : passed;
}

/** Words at the beginning that no layout takes for a reading (a greeting, the number of a test) are passed over. */
function withoutStrayHeadings(best: Candidate, bytes: Uint8Array): Candidate {
  const [fitting, unfit]: [string[], string[]] = [[], []];
  for (const { outcome, bytes: text } of parsedLines(best.profile, bytes)) {
    if (fitting.length + unfit.length >= LEARN_LINES_MAX) break;
    const isHead = fitting.length === 0 && outcome.kind === 'misfit' && outcome.reason !== 'ignored';
    if (outcome.kind === 'reading') fitting.push(Buffer.from(text).toString('latin1'));
    else if (isHead) unfit.push(Buffer.from(text).toString('latin1'));
  }
  const stray = strayHeadings(unfit, fitting);
  if (stray.length === 0) return best;
  const ignoredLines = [...best.profile.ignoredLines, ...stray];
  return { ...best, profile: { ...best.profile, ignoredLines } };
}

/** "12,34" read as two whole numbers explains as many lines as one number with a decimal comma. */
function decimalBonus({ layout, profile, channels }: Candidate): number {
  if (layout.style.groupSign !== undefined) return 0.02;
  if (layout.style.decimalSign !== ',') return 0;
  return channels.length > 0 && profile.format.kind !== 'delimited' ? 0.02 : 0.04;
}

const DOUBTFUL_COMMA = 0.6;
const COMMA_REMARK =
  'Every comma stands before three digits, so it may be a decimal comma or set thousands apart: compare with the display, or learn again with the frame at rest.';

function proposal(best: Scored, found: FoundLines, { seconds }: LearnOptions): Learnt {
  const lines = best.readings + best.rejected;
  const explained = best.readings / Math.max(1, lines);
  const enough = lines <= 1 ? ONE_LINE_CONFIDENCE : 1 - 0.6 / lines;
  const unnamed = best.channels.filter((channel) => channel.quantity === null).length / best.channels.length;
  const guessed =
    best.channels.filter((channel) => channel.quantity !== null && !channel.isSaid).length /
    best.channels.length;
  const isDoubtful = best.layout.style.groupSign !== ',' && commaIsDoubtful(found.texts);
  const confidence =
    explained *
    enough *
    (1 - 0.3 * unnamed - 0.15 * guessed) *
    (best.opaqueFields > 0 ? 0.85 : 1) *
    (isDoubtful ? DOUBTFUL_COMMA : 1);
  const rateHz = seconds === undefined || seconds <= 0 ? null : best.readings / seconds;
  const rounded = rateHz === null ? null : Number(rateHz.toPrecision(3));
  const profile =
    rounded === null || rounded <= 0 || rounded > 100_000
      ? best.profile
      : { ...best.profile, rateHz: rounded };
  return {
    profile,
    confidence: Math.round(Math.max(0, Math.min(1, confidence)) * 100) / 100,
    channels: best.channels,
    readings: best.readings,
    rejected: best.rejected,
    remarks: [
      `Lines end with ${found.terminatorWords}.`,
      ...best.profile.channels
        .filter(({ peak }) => peak)
        .map(({ field }) => `Field ${field} shows the largest value so far, not that of the moment.`),
      ...(isDoubtful ? [COMMA_REMARK] : []),
      ...channelRemarks(best.channels),
    ],
  };
}
