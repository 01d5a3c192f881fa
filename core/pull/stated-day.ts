/**
 * The day on which a pull was made elsewhere, as a person states it: "2019-05-14", or with its time "2019-05-14T10:30", by
 * the clock of the place. It stands beside the record, which has the moment of the import.
 */
import { z } from 'zod';
import { typedDay } from '../calendar-day.ts';

const DAY_MS = 86_400_000;
/** Tensile tests are older; files of their readings are not. */
export const FIRST_STATED_YEAR = 1900;
const FORM = /^(\d{4})-\d{2}-\d{2}(?:T\d{2}:\d{2})?$/;

/** Milliseconds as if the clock of the place were UTC; NaN where there is no such day or time. */
export function clockMsOf(stated: string): number {
  if (!FORM.test(stated)) return Number.NaN;
  const ms = Date.parse(stated.includes('T') ? `${stated}Z` : `${stated}T00:00Z`);
  // 30 February would be a day of March.
  return !Number.isNaN(ms) && new Date(ms).toISOString().startsWith(stated) ? ms : Number.NaN;
}

export const statedDay = z
  .string()
  .refine(
    (text) => !Number.isNaN(clockMsOf(text)),
    'is no day; write it like 2019-05-14, or with its time like 2019-05-14T10:30',
  )
  .refine(
    (text) => Number(text.slice(0, 4)) >= FIRST_STATED_YEAR,
    `is before ${String(FIRST_STATED_YEAR)}; look at the year again`,
  );

/** Clocks of two places differ by a day at most, so tomorrow may be today elsewhere. */
export const liesAhead = (stated: string, nowWallMs: number): boolean =>
  clockMsOf(stated) > nowWallMs + DAY_MS;

/** The moment by which it is sorted, where the offset of the place was this one: a day without a time begins at midnight. */
export const wallMsOfStated = (stated: string, utcOffsetMinutes: number | null): number =>
  clockMsOf(stated) - (utcOffsetMinutes ?? 0) * 60_000;

/** "2019-05-14 10:30" */
export const statedText = (stated: string): string => stated.replace('T', ' ');

const MINUTE_LENGTH = '2019-05-14T10:30'.length;

/** When a pull was made, for a table: as stated, and marked so; else by the clock of the place, to the minute. */
export const dateOfPull = (
  { pulledOn, started }: { readonly pulledOn: string | null; readonly started: string },
  {
    asStated = (day: string): string => `${day} stated`,
    asRecorded = (moment: string): string => statedText(moment.slice(0, MINUTE_LENGTH)),
  } = {},
): string => (pulledOn === null ? asRecorded(started) : asStated(statedText(pulledOn)));

/** As people type it too: other signs in the day, a blank between day and time. What is no day stays as it was typed. */
export function statedAsTyped(typed: string): string {
  const read = typedDay(typed);
  if (read === null) return typed.trim();
  return read.time === null ? read.day : `${read.day}T${read.time}`;
}

/** Who stated it and when; the first beside an import, a later one in its place with its reason. */
export interface StatedDay {
  readonly statedDayId: number;
  readonly pulledOn: string;
  readonly by: string | null;
  readonly wallMs: number;
  readonly supersedes: number | null;
  readonly reason: string | null;
}

interface WithStatedDays {
  readonly startedWallMs: number;
  readonly statedDays: readonly StatedDay[];
}

/** The one that stands; null where nobody stated a day. */
export const standingDay = ({ statedDays }: WithStatedDays): StatedDay | null => statedDays.at(-1) ?? null;

/** Whether it was stated together with the import: both are of one moment. */
export const isOfImport = ({ wallMs }: StatedDay, { startedWallMs }: WithStatedDays): boolean =>
  wallMs === startedWallMs;

/** "2019-05-14 (stated at import)", "… (stated later by Quintero)": never to be taken for what a clock recorded. Null where nobody stated a day. */
export function pulledOnText(pull: WithStatedDays): string | null {
  const its = standingDay(pull);
  if (its === null) return null;
  const when = isOfImport(its, pull) ? 'at import' : its.by === null ? 'later' : `later by ${its.by}`;
  return `${statedText(its.pulledOn)} (stated ${when})`;
}
