/** Photos of broken specimens. Never edited once released. */
import { appendOnly } from './append-only.ts';

export const photos = `
CREATE TABLE photo (
  photo_id INTEGER PRIMARY KEY,
  pull_id INTEGER NOT NULL REFERENCES pull (pull_id),
  media_type TEXT NOT NULL,
  width_px INTEGER NOT NULL,
  height_px INTEGER NOT NULL,
  byte_count INTEGER NOT NULL,
  -- Over the bytes of the file as it was chosen; they are kept as they are.
  sha256 BLOB NOT NULL,
  body BLOB NOT NULL,
  file_name TEXT NOT NULL,
  caption TEXT,
  added_by TEXT,
  wall_ms INTEGER NOT NULL,
  -- The photo in whose place it stands; that one stays, and is shown no more on paper.
  supersedes INTEGER UNIQUE REFERENCES photo (photo_id),
  reason TEXT,
  CHECK (supersedes IS NULL OR length(trim(reason)) > 0)
) STRICT;
CREATE INDEX photo_pull ON photo (pull_id);

-- Withdrawn without another in its place.
CREATE TABLE photo_withdrawal (
  photo_id INTEGER PRIMARY KEY REFERENCES photo (photo_id),
  reason TEXT NOT NULL CHECK (length(trim(reason)) > 0),
  withdrawn_by TEXT,
  wall_ms INTEGER NOT NULL
) STRICT;

${appendOnly(['photo', 'photo_withdrawal'])}
`;
