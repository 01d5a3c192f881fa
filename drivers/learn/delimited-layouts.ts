/** Layouts with a delimiter between the fields. */
import { FIELDS_MAX } from '../../core/contract/readout-profile.ts';
import type { NumberStyle } from '../lines/number-grammar.ts';
import type { Layout } from './layout.ts';

/** Delimiters tried at most: runs of signs that stand in most lines. */
const DELIMITERS_MAX = 12;
const IN_MOST_LINES = 0.6;

export function delimitedLayouts(texts: readonly string[], style: NumberStyle): Layout[] {
  const layouts: Layout[] = [];
  for (const delimiter of delimitersOf(texts, style)) {
    const count = modalCount(texts.map((text) => text.split(delimiter).length));
    if (count === null || count < 2 || count > FIELDS_MAX) continue;
    layouts.push(layout(delimiter, count, false, style, 0.02));
  }
  const blanks = modalCount(texts.map((text) => text.split(' ').filter((field) => field !== '').length));
  if (blanks !== null && blanks >= 2 && blanks <= FIELDS_MAX && !texts.some((text) => text.includes('\t')))
    layouts.push(layout(' ', blanks, true, style, 0));
  // A number alone on its line.
  layouts.push(layout(style.decimalSign === ',' ? ';' : ',', 1, false, style, 0.03));
  return layouts;
}

function layout(
  delimiter: string,
  count: number,
  mergeRepeated: boolean,
  style: NumberStyle,
  preference: number,
): Layout {
  const fields = Array.from({ length: count }, (_, index) => String(index + 1));
  return {
    format: { kind: 'delimited', delimiter, mergeRepeated, fields },
    style,
    labels: new Map(),
    preference,
  };
}

const LONE_SIGN = /(?<![^A-Za-z0-9\s+\-.%µ°"])[^A-Za-z0-9\s+\-.%µ°"](?![^A-Za-z0-9\s+\-.%µ°"])/g;
/** What stands between the fields of a table, where a field may be empty in every line. */
const OFTEN_EMPTY = /^[,;\t]/;

/** Runs of signs (with and without the blanks around them) that could stand between fields. */
function delimitersOf(texts: readonly string[], style: NumberStyle): string[] {
  const lines = new Map<string, number>();
  const alone = new Set(texts.flatMap((text) => text.match(LONE_SIGN) ?? []));
  for (const text of texts) {
    const found = new Set<string>();
    for (const match of text.matchAll(/[^A-Za-z0-9\s+\-.%µ°"]+|->|=>|\t+/g)) {
      const run = match[0];
      if (run.length > 4) continue;
      found.add(run);
      // Two delimiters with an empty field between them; a bar or a colon that never stands alone is half of one.
      if (run.length === 1 || alone.has(run.charAt(0)) || OFTEN_EMPTY.test(run)) found.add(run.charAt(0));
      const before = text.charAt(match.index - 1) === ' ' ? ' ' : '';
      const after = text.charAt(match.index + run.length) === ' ' ? ' ' : '';
      found.add(before + run + after);
    }
    for (const run of found) lines.set(run, (lines.get(run) ?? 0) + 1);
  }
  return [...lines]
    .filter(
      ([run, count]) =>
        count >= texts.length * IN_MOST_LINES && run !== style.decimalSign && !isEndOfLabel(run, texts),
    )
    .sort((a, b) => a[0].trim().length - b[0].trim().length || a[0].length - b[0].length)
    .slice(0, DELIMITERS_MAX)
    .map(([run]) => run);
}

/** A colon or an equals sign that mostly stands behind a letter ends a label; it is none between fields. */
function isEndOfLabel(run: string, texts: readonly string[]): boolean {
  if (!/^[:=] ?$/.test(run)) return false;
  const places = texts.flatMap((text) => text.match(run === '=' || run === '= ' ? /.?=/g : /.?:/g) ?? []);
  return places.filter((place) => /[A-Za-z%]/.test(place.charAt(0))).length > places.length / 2;
}

function modalCount(counts: readonly number[]): number | null {
  const tally = new Map<number, number>();
  for (const count of counts) tally.set(count, (tally.get(count) ?? 0) + 1);
  const [found] = [...tally].sort((a, b) => b[1] - a[1]);
  return found === undefined ? null : found[0];
}
