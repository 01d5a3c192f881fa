/** A moment as people read it on paper: to the second, with the offset of the place. Files keep ISO 8601. */

const MOMENT = /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d:\d\d)(?:\.\d+)?(Z|[+-]\d\d:\d\d)$/;

/** "2026-11-28T17:24:29.972+01:00" as "2026-11-28 17:24:29 (UTC+01:00)"; anything else as it is. */
export const momentOnPaper = (text: string): string =>
  text.replace(
    MOMENT,
    (_all, day: string, time: string, offset: string) =>
      `${day} ${time} (UTC${offset === 'Z' ? '' : offset})`,
  );
