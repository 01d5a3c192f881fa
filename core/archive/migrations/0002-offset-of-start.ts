/** How far the local clock was ahead of UTC when a pull was begun. Never edited once released. */

/** Null for pulls that were kept before: where they were made is not known, and is not guessed. */
export const offsetOfStart = `
ALTER TABLE pull ADD COLUMN started_utc_offset_minutes INTEGER
  CHECK (started_utc_offset_minutes BETWEEN -1080 AND 1080);
`;
