/** Pulls that a person made void, with the reason. Never edited once released. */
import { appendOnly } from './append-only.ts';

export const voidPulls = `
-- The pull stays as it was recorded; it counts in no set any more. Once void, always void.
CREATE TABLE pull_void (
  pull_id INTEGER PRIMARY KEY REFERENCES pull (pull_id),
  reason TEXT NOT NULL CHECK (length(trim(reason)) > 0),
  voided_by TEXT,
  wall_ms INTEGER NOT NULL,
  utc_offset_minutes INTEGER NOT NULL CHECK (utc_offset_minutes BETWEEN -1080 AND 1080)
) STRICT;

${appendOnly(['pull_void'])}
`;
