/** Pulls taken from another archive, saved searches, and indexes that the search index is made with. Never edited once released. */
import { appendOnly } from './append-only.ts';

export const originsAndSearches = `
-- Searches that a person wants again; a convenience, no record.
CREATE TABLE saved_search (
  name TEXT PRIMARY KEY,
  query_json TEXT NOT NULL,
  wall_ms INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

-- A pull that came from another archive, with its number there.
CREATE TABLE pull_origin (
  pull_id INTEGER PRIMARY KEY REFERENCES pull (pull_id),
  archive_identity TEXT NOT NULL,
  pull_id_there INTEGER NOT NULL,
  taken_wall_ms INTEGER NOT NULL,
  UNIQUE (archive_identity, pull_id_there)
) STRICT;

CREATE INDEX set_member_specimen ON set_member (specimen_id);
CREATE INDEX pull_end_raw ON pull_end (raw_sha256);

${appendOnly(['pull_origin'])}
`;
