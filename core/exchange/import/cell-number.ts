/** What a cell says: a number, that there is none, or neither. The whole cell or nothing: "12.5abc" is not 12.5. */
import type { GroupSign, TimeForm } from './import-plan.ts';

export interface NumberStyle {
  readonly decimalSign: '.' | ',';
  readonly groupSign?: GroupSign | undefined;
}

/** Words that stand where no value was: compared in lower case. */
const ABSENT_WORDS = new Set([
  '',
  '-',
  '--',
  '---',
  '----',
  '–',
  '*',
  'nan',
  '-nan',
  'na',
  'n/a',
  '#n/a',
  '#na',
  '#value!',
  '#div/0!',
  '#num!',
  'null',
  'none',
  'ol',
  'o.l.',
  'over',
  'overload',
  'overrange',
  'inf',
  '+inf',
  '-inf',
  'infinity',
  '-infinity',
]);

export function isAbsent(cell: string): boolean {
  return ABSENT_WORDS.has(cell) || ABSENT_WORDS.has(cell.toLowerCase());
}

const PLAIN = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?$/;
const BLANKS_AS_GROUPS = /[\u0020\u00a0\u2007\u2009\u202f]/g;

/**
 * The number as text with a point and without groups ("-1234.5"), so that the nearest double can be taken from it
 * in one step; null where the cell is no number. A group must hold three digits.
 */
export function plainNumberText(cell: string, style: NumberStyle): string | null {
  if (style.decimalSign === '.' && PLAIN.test(cell)) return cell;
  let text = cell.startsWith('−') ? `-${cell.slice(1)}` : cell;
  const group = style.groupSign;
  if (group !== undefined) {
    if (group === ' ') text = text.replace(BLANKS_AS_GROUPS, ' ');
    if (text.includes(group)) {
      const decimal = text.indexOf(style.decimalSign);
      const whole = decimal === -1 ? text : text.slice(0, decimal);
      if (!GROUPED[group].test(whole)) return null;
      text = whole.replaceAll(group, '') + (decimal === -1 ? '' : text.slice(decimal));
    }
  }
  if (style.decimalSign === ',') {
    // A point is no part of a number whose decimal sign is the comma.
    if (text.includes('.')) return null;
    text = text.replace(',', '.');
  }
  return PLAIN.test(text) ? text : null;
}

const GROUPED: Readonly<Record<GroupSign, RegExp>> = {
  ',': /^[+-]?\d{1,3}(?:,\d{3})+$/,
  '.': /^[+-]?\d{1,3}(?:\.\d{3})+$/,
  ' ': /^[+-]?\d{1,3}(?: \d{3})+$/,
  "'": /^[+-]?\d{1,3}(?:'\d{3})+$/,
};

const CLOCK = /^(?:(\d{1,4}):)?(\d{1,2}):(\d{1,2})(?:[.,](\d{1,9}))?$/;
const DATE_TIME =
  /^(\d{4})-(\d{2})-(\d{2})[T ](\d{2}):(\d{2}):(\d{2})(?:[.,](\d{1,9}))?\s*(?:Z|[+-]\d{2}:?\d{2})?$/;

/** Seconds written as [hh:]mm:ss.s; null where the cell is no clock reading. */
export function clockSeconds(cell: string): number | null {
  const match = CLOCK.exec(cell);
  if (match === null) return null;
  const [, hours = '0', minutes = '', seconds = '', decimals = ''] = match;
  if (Number(minutes) > 59 || Number(seconds) > 59) return null;
  const whole = Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds);
  return decimals === '' ? whole : Number(`${String(whole)}.${decimals}`);
}

/** Seconds since 1970 of an ISO 8601 date and time, taken as UTC: only differences are used. */
export function dateTimeSeconds(cell: string): { readonly whole: number; readonly fraction: number } | null {
  const match = DATE_TIME.exec(cell);
  if (match === null) return null;
  const [, year, month, day, hours, minutes, seconds, decimals = ''] = match;
  const ms = Date.UTC(
    Number(year),
    Number(month) - 1,
    Number(day),
    Number(hours),
    Number(minutes),
    Number(seconds),
  );
  return Number.isNaN(ms)
    ? null
    : { whole: ms / 1000, fraction: decimals === '' ? 0 : Number(`0.${decimals}`) };
}

/** How a cell of a time column is written; null where it is none of the known forms. */
export function timeForm(cell: string, style: NumberStyle): TimeForm | null {
  if (plainNumberText(cell, style) !== null) return 'decimal';
  if (CLOCK.test(cell)) return 'clock';
  return DATE_TIME.test(cell) ? 'date-time' : null;
}
