/** Moments on the wall clock as ISO 8601 with the offset of the place, "2024-05-17T09:12:30.250+02:00". */

const OFFSET_MINUTES_MAX = 18 * 60;

/**
 * `utcOffsetMinutes`: minutes ahead of UTC at that place and moment; null where it is not known, and the moment is then
 * in UTC with "Z" (RFC 9557, section 2.2: UTC is known, the offset of the place is not). Throws a RangeError outside ±18 h.
 */
export function momentText(wallMs: number, utcOffsetMinutes: number | null): string {
  if (utcOffsetMinutes === null) return new Date(wallMs).toISOString();
  if (!Number.isInteger(utcOffsetMinutes) || Math.abs(utcOffsetMinutes) > OFFSET_MINUTES_MAX)
    throw new RangeError(`an offset of ${String(utcOffsetMinutes)} minutes from UTC does not exist`);
  const local = new Date(wallMs + utcOffsetMinutes * 60_000).toISOString().slice(0, -1);
  const sign = utcOffsetMinutes < 0 ? '-' : '+';
  const minutes = Math.abs(utcOffsetMinutes);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${local}${sign}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

/** µs as seconds with all their digits: 1_204_500 → "1.204500". */
export function secondsText(us: number): string {
  return (us / 1e6).toFixed(6);
}
