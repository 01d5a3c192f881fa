/** Certificates of pulls whose specimen is in no set. Never edited once released. */
import { appendOnly } from './append-only.ts';

// A column that must have a value can't be made one that need not: the table is made anew with the same rows.
export const certificatesOfPulls = `
CREATE TABLE certificate_made_anew (
  certificate_id INTEGER PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  set_id INTEGER REFERENCES specimen_set (set_id),
  -- One member; null for the whole set.
  set_member_id INTEGER REFERENCES set_member (set_member_id),
  -- In place of a set: one pull, judged by no rules.
  pull_id INTEGER REFERENCES pull (pull_id),
  issued_wall_ms INTEGER NOT NULL,
  utc_offset_minutes INTEGER NOT NULL CHECK (utc_offset_minutes BETWEEN -1080 AND 1080),
  -- Of everything it says but the moment of printing: the same content keeps its number.
  content_sha256 BLOB NOT NULL,
  program_version TEXT NOT NULL,
  CHECK ((set_id IS NULL) <> (pull_id IS NULL)),
  CHECK (set_member_id IS NULL OR set_id IS NOT NULL)
) STRICT;
INSERT INTO certificate_made_anew
  (certificate_id, number, set_id, set_member_id, issued_wall_ms, utc_offset_minutes, content_sha256, program_version)
  SELECT certificate_id, number, set_id, set_member_id, issued_wall_ms, utc_offset_minutes, content_sha256,
    program_version
  FROM certificate;
DROP TABLE certificate;
ALTER TABLE certificate_made_anew RENAME TO certificate;
CREATE INDEX certificate_set ON certificate (set_id);
CREATE INDEX certificate_pull ON certificate (pull_id);

${appendOnly(['certificate'])}
`;
