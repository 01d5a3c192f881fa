/** Layouts with fields at fixed places: for lines of one length that are filled up with blanks. */
import type { NumberStyle } from '../lines/number-grammar.ts';
import type { Layout } from './layout.ts';

/** Lines of the usual length, and how many of them must be padded differently, before columns are believed. */
const SAME_LENGTH = 0.8;

export function fixedColumnLayouts(texts: readonly string[], style: NumberStyle): Layout[] {
  const length = usualLength(texts);
  if (length === null || length < 3) return [];
  const lines = texts.filter((text) => text.length === length);
  if (lines.length < texts.length * SAME_LENGTH || !(isPadded(lines) || areGlued(lines, length))) return [];
  const columns = withTheirSigns(lines, columnsOf(lines, length));
  if (columns.length === 0) return [];
  return [
    {
      format: {
        kind: 'fixed-columns',
        columns: columns.map(({ start, end }, index) => ({
          name: String(index + 1),
          start,
          length: end - start,
        })),
        lineLength: { min: length, max: length },
      },
      style,
      labels: new Map(),
      preference: 0.02,
    },
  ];
}

/** Runs of blanks that change their length while the line keeps its own: the mark of padding. */
function isPadded(lines: readonly string[]): boolean {
  const patterns = new Set(
    lines.map((line) =>
      Array.from(line.matchAll(/ +/g), (run) => `${String(run.index)}:${String(run[0].length)}`).join(),
    ),
  );
  const begin = lines.filter((line) => line.startsWith(' ')).length;
  return patterns.size > 1 || (begin === lines.length && lines.every((line) => /^ {2,}\S/.test(line)));
}

/** Numbers without anything between them but the sign of the next one ("0450+0056.17+02.7064"). */
function areGlued(lines: readonly string[], length: number): boolean {
  if (lines.some((line) => line.includes(' '))) return false;
  return Array.from({ length }, (_, at) => at).some((at) => at > 0 && signBegins(lines, at));
}

interface Stretch {
  readonly start: number;
  /** Exclusive. */
  readonly end: number;
}

/** Stretches that are blank in no line or only in some, with the blanks before them: numbers grow to the left. */
function columnsOf(lines: readonly string[], length: number): Stretch[] {
  const filled = Array.from({ length }, (_, at) => lines.some((line) => line.charAt(at) !== ' '));
  const columns: Stretch[] = [];
  let end = 0;
  for (let at = 0; at < length; at++) {
    if (filled[at] !== true || (at + 1 < length && filled[at + 1] === true && !signBegins(lines, at + 1)))
      continue;
    columns.push({ start: end, end: at + 1 });
    end = at + 1;
  }
  return columns;
}

/**
 * A sign that is padded away from its digits ("-    21") belongs to the number behind it: in a column of its own it would
 * be lost, and with it which way the value points. A dash that stands in every line alike is a separator.
 */
function withTheirSigns(lines: readonly string[], columns: readonly Stretch[]): Stretch[] {
  const settled: Stretch[] = [];
  let begin = 0;
  columns.forEach(({ end }, index) => {
    const from = begin;
    const cut = index + 1 < columns.length ? signPlace(lines, { start: from, end }) : null;
    begin = cut ?? end;
    if (cut === null || lines.some((line) => line.slice(from, cut).trim() !== ''))
      settled.push({ start: from, end: begin });
    else begin = from;
  });
  return settled;
}

/** Where the signs at the end of a column begin; null where they are none of the next number. One behind a digit is its own. */
function signPlace(lines: readonly string[], { start, end }: Stretch): number | null {
  const signs = lines.flatMap((line) => {
    const text = line.slice(start, end).trimEnd();
    return /(?:^|[^+\d-])[+-]$/.test(text) ? [{ sign: text.at(-1), at: start + text.length - 1 }] : [];
  });
  const isSign = signs.some(({ sign }) => sign === '+') || (signs.length > 0 && signs.length < lines.length);
  if (!isSign) return null;
  const place = Math.min(...signs.map(({ at }) => at));
  return lines.every((line) => /^[ +-]*$/.test(line.slice(place, end))) ? place : null;
}

/** In every line a sign stands here behind a digit: a new column without a blank between. */
function signBegins(lines: readonly string[], at: number): boolean {
  return lines.every((line) => /[+-]/.test(line.charAt(at)) && /\d/.test(line.charAt(at - 1)));
}

function usualLength(texts: readonly string[]): number | null {
  const tally = new Map<number, number>();
  for (const { length } of texts) tally.set(length, (tally.get(length) ?? 0) + 1);
  return [...tally].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}
