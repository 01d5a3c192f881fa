/**
 * Dates that stand above the rows of a file, or in its first row: one of them may be the day of the pull, which only a
 * person can say (the next calibration is a date too). They are proposed, never taken.
 */
import { clockMsOf, FIRST_STATED_YEAR } from '../../pull/stated-day.ts';

export interface DateInFile {
  /** Counted from 1. */
  readonly line: number;
  /** That line, or its beginning. */
  readonly text: string;
  /** "2019-05-14" or "2019-05-14T10:30": what a day and a month before a year may mean, both ways where both exist. */
  readonly days: readonly string[];
}

export const DATES_IN_FILE_MAX = 10;
const TEXT_LENGTH_MAX = 120;

/** Beginnings of the months in English, German, French and Spanish. */
const MONTHS: readonly (readonly string[])[] = [
  ['jan', 'jän', 'ene'],
  ['feb', 'fév', 'fev'],
  ['mar', 'mär'],
  ['apr', 'abr', 'avr'],
  ['may', 'mai'],
  ['jun', 'juin'],
  ['jul', 'juil'],
  ['aug', 'ago', 'aoû'],
  ['sep'],
  ['oct', 'okt'],
  ['nov'],
  ['dec', 'dez', 'dic', 'déc'],
];

const TIME = String.raw`(?:[,T ]+(\d{1,2}):(\d{2})(?::\d{2}(?:[.,]\d+)?)?(?:\s*([ap])\.?m\b)?)?`;
const YEAR_FIRST = new RegExp(
  String.raw`(?<![\d.-])(\d{4})([-/.])(\d{1,2})\2(\d{1,2})(?![\d-]|\.\d)${TIME}`,
  'giu',
);
const YEAR_LAST = new RegExp(
  String.raw`(?<![\d.-])(\d{1,2})([-/.])(\d{1,2})\2(\d{4})(?![\d-]|\.\d)${TIME}`,
  'giu',
);
const DAY_NAMED = new RegExp(
  String.raw`(?<!\d)(\d{1,2})\.?[ -](?:de )?(\p{L}{3,10})\.?[ -](?:de )?(\d{4})(?!\d)${TIME}`,
  'giu',
);
const NAME_FIRST = new RegExp(
  String.raw`(?<!\p{L})(\p{L}{3,10})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})(?!\d)${TIME}`,
  'giu',
);

/** The first ones, each day once. */
export function datesInHead(
  lines: readonly { readonly line: number; readonly text: string }[],
): DateInFile[] {
  const seen = new Set<string>();
  const found: DateInFile[] = [];
  for (const { line, text } of lines)
    for (const read of datesIn(text)) {
      const days = read.filter((day) => !seen.has(day));
      for (const day of days) seen.add(day);
      if (days.length > 0 && found.length < DATES_IN_FILE_MAX)
        found.push({ line, text: text.trim().slice(0, TEXT_LENGTH_MAX), days });
    }
  return found;
}

type Groups = readonly (string | undefined)[];
type Parts = readonly [year: string | undefined, month: string | number, day: string | undefined];

/** Of each date in a text, in its order, what it may mean. */
function datesIn(text: string): string[][] {
  const found: { at: number; days: string[] }[] = [];
  const look = (form: RegExp, partsOf: (groups: Groups) => Parts[], timeAt: number): void => {
    for (const match of text.matchAll(form)) {
      const groups: Groups = match;
      const days = partsOf(groups).flatMap((parts) => dayOf(parts, groups.slice(timeAt, timeAt + 3)) ?? []);
      if (days.length > 0) found.push({ at: match.index, days: [...new Set(days)] });
    }
  };
  look(YEAR_FIRST, ([, year, , month, day]) => [[year, month ?? '', day]], 5);
  // With points between the day stands first; with strokes it is the month in some countries.
  look(
    YEAR_LAST,
    ([, first, sign, second, year]) => [
      [year, second ?? '', first],
      ...(sign === '.' ? [] : ([[year, first ?? '', second]] as Parts[])),
    ],
    5,
  );
  look(DAY_NAMED, ([, day, month, year]) => [[year, monthOf(month), day]], 4);
  look(NAME_FIRST, ([, month, day, year]) => [[year, monthOf(month), day]], 4);
  return found.sort((a, b) => a.at - b.at).map(({ days }) => days);
}

/** From 1; 0 for what is no month. */
const monthOf = (name = ''): number =>
  MONTHS.findIndex((beginnings) => beginnings.some((one) => name.toLowerCase().startsWith(one))) + 1;

/** Null where there is no such day. A time that there is not is left away. */
function dayOf([year = '', month, day = '']: Parts, [hours, minutes, half]: Groups): string | null {
  const date = `${year}-${String(month).padStart(2, '0')}-${day.padStart(2, '0')}`;
  if (Number.isNaN(clockMsOf(date)) || Number(year) < FIRST_STATED_YEAR) return null;
  if (hours === undefined || minutes === undefined) return date;
  const hour = half === undefined ? Number(hours) : (Number(hours) % 12) + (/p/i.test(half) ? 12 : 0);
  const timed = `${date}T${String(hour).padStart(2, '0')}:${minutes}`;
  return Number.isNaN(clockMsOf(timed)) ? date : timed;
}

/** Told once a file was imported without a day though one may stand in it; null where none does. */
export const datesNotTaken = (dates: readonly DateInFile[]): string | null => {
  const [first] = dates;
  return first === undefined
    ? null
    : `No day of the pull was stated, so it is listed under the day of its import; line ${String(first.line)} of the file has a date, which may be it: ${first.days.join(' or ')}. If it is, state it beside the pull.`;
};
