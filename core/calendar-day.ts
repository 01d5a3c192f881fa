/** A day of the calendar, "2026-03-31": whether there is one, how people type it, and the days beside it. */

const DAY_MS = 86_400_000;

/** True for a day that there is; 2026-02-30 is none. */
export function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const moment = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(moment.getTime()) && moment.toISOString().startsWith(text);
}

export interface TypedDay {
  /** "2026-03-31" */
  readonly day: string;
  /** "10:30"; null where none is typed. */
  readonly time: string | null;
}

/** Year, month and day with any sign between them, or none; a time may follow. */
const TYPED =
  /^(?:(\d{4})\s*[-.,/ \u2010-\u2015\u2212]\s*(\d{1,2})\s*[-.,/ \u2010-\u2015\u2212]\s*(\d{1,2})|(\d{4})(\d\d)(\d\d))(?:[T ]\s*(\d{1,2}:\d\d))?$/;

/**
 * What somebody types as a day: "2026/3/31", "2026 03 31", "20260331 9:30". The year stands first, since of the others
 * nobody can tell the day from the month. Null where it is none.
 */
export function typedDay(typed: string): TypedDay | null {
  const parts = TYPED.exec(typed.trim());
  if (parts === null) return null;
  const [, year = parts[4], month = parts[5], date = parts[6]] = parts;
  const day = [year, month, date].map((part = '') => part.padStart(2, '0')).join('-');
  return isDay(day) ? { day, time: parts[7]?.padStart(5, '0') ?? null } : null;
}

/** The day so many days later; itself where there is none with four digits of its year. */
export function dayLater(day: string, days: number): string {
  const later = new Date(Date.parse(`${day}T00:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10);
  return isDay(later) ? later : day;
}

/** The day that the clock of this place shows. */
export function dayHere(now: Date): string {
  const part = (n: number, digits = 2): string => String(n).padStart(digits, '0');
  return `${part(now.getFullYear(), 4)}-${part(now.getMonth() + 1)}-${part(now.getDate())}`;
}
