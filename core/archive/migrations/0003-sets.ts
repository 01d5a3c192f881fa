/** Sets of specimens, who is in them, what a person overruled, and the certificates issued. Never edited once released. */
import { appendOnly } from './append-only.ts';

export const sets = `
CREATE TABLE specimen_set (
  set_id INTEGER PRIMARY KEY,
  begun_wall_ms INTEGER NOT NULL
) STRICT;

-- What is said of a set, with the whole rule pack as it was on that day; a correction is a new row.
CREATE TABLE set_statement (
  set_statement_id INTEGER PRIMARY KEY,
  set_id INTEGER NOT NULL REFERENCES specimen_set (set_id),
  name TEXT NOT NULL,
  set_json TEXT NOT NULL,
  saved_wall_ms INTEGER NOT NULL,
  saved_by TEXT,
  supersedes INTEGER UNIQUE REFERENCES set_statement (set_statement_id),
  reason TEXT,
  program_version TEXT NOT NULL,
  CHECK (supersedes IS NULL OR reason IS NOT NULL)
) STRICT;
CREATE INDEX set_statement_set ON set_statement (set_id);

-- The specimen as it was first kept; its corrections are found from there.
CREATE TABLE set_member (
  set_member_id INTEGER PRIMARY KEY,
  set_id INTEGER NOT NULL REFERENCES specimen_set (set_id),
  specimen_id INTEGER NOT NULL REFERENCES specimen (specimen_id),
  retest_of INTEGER REFERENCES set_member (set_member_id),
  retest_reason TEXT,
  joined_wall_ms INTEGER NOT NULL,
  joined_by TEXT,
  UNIQUE (set_id, specimen_id),
  CHECK ((retest_of IS NULL) = (retest_reason IS NULL))
) STRICT;

CREATE TABLE set_member_void (
  set_member_id INTEGER PRIMARY KEY REFERENCES set_member (set_member_id),
  voided_by TEXT NOT NULL,
  reason TEXT NOT NULL,
  wall_ms INTEGER NOT NULL
) STRICT;

-- A person overrules the verdict of the rules on one member; the last one counts, all stay.
CREATE TABLE verdict_override (
  verdict_override_id INTEGER PRIMARY KEY,
  set_member_id INTEGER NOT NULL REFERENCES set_member (set_member_id),
  outcome TEXT NOT NULL CHECK (outcome IN ('accept', 'reject', 'undecided')),
  person TEXT NOT NULL,
  reason TEXT NOT NULL,
  wall_ms INTEGER NOT NULL,
  utc_offset_minutes INTEGER NOT NULL CHECK (utc_offset_minutes BETWEEN -1080 AND 1080)
) STRICT;
CREATE INDEX verdict_override_member ON verdict_override (set_member_id);

CREATE TABLE certificate (
  certificate_id INTEGER PRIMARY KEY,
  number TEXT NOT NULL UNIQUE,
  set_id INTEGER NOT NULL REFERENCES specimen_set (set_id),
  -- One member; null for the whole set.
  set_member_id INTEGER REFERENCES set_member (set_member_id),
  issued_wall_ms INTEGER NOT NULL,
  utc_offset_minutes INTEGER NOT NULL CHECK (utc_offset_minutes BETWEEN -1080 AND 1080),
  -- Of everything it says but the moment of printing: the same content keeps its number.
  content_sha256 BLOB NOT NULL,
  program_version TEXT NOT NULL
) STRICT;
CREATE INDEX certificate_set ON certificate (set_id);

-- Who issues certificates here; the newest counts.
CREATE TABLE laboratory (
  laboratory_id INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  lines_json TEXT NOT NULL,
  wall_ms INTEGER NOT NULL
) STRICT;

${appendOnly(['specimen_set', 'set_statement', 'set_member', 'set_member_void', 'verdict_override', 'certificate', 'laboratory'])}
`;
