/** The first form of the archive. Never edited once released: later changes are later files. */
import { appendOnly } from './append-only.ts';

/** Tables whose rows are never changed nor deleted; the database itself refuses it. */
const APPEND_ONLY = [
  'fact',
  'specimen',
  'measurement',
  'readout_profile',
  'pull',
  'pull_end',
  'mark',
  'gap',
  'gap_end',
  'zero',
  'act',
  'fracture_note',
  'audit',
];

/** Blocks of a closed pull are as untouchable; those of an open one may be resealed into larger ones. */
const BLOCKS = ['raw_block', 'reading_block'];

export const firstForm = `
CREATE TABLE fact (
  name TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE specimen (
  specimen_id INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  form_json TEXT NOT NULL,
  saved_wall_ms INTEGER NOT NULL,
  saved_by TEXT,
  supersedes INTEGER UNIQUE REFERENCES specimen (specimen_id),
  reason TEXT,
  program_version TEXT NOT NULL,
  CHECK (supersedes IS NULL OR reason IS NOT NULL)
) STRICT;
CREATE INDEX specimen_name ON specimen (name);

-- Each measurement as it was typed, one row each, so that they can be searched without reading the form.
CREATE TABLE measurement (
  specimen_id INTEGER NOT NULL REFERENCES specimen (specimen_id),
  field TEXT NOT NULL,
  place INTEGER NOT NULL,
  text TEXT NOT NULL,
  PRIMARY KEY (specimen_id, field, place)
) STRICT, WITHOUT ROWID;

CREATE TABLE readout_profile (
  profile_id INTEGER PRIMARY KEY,
  name TEXT NOT NULL,
  form_json TEXT NOT NULL,
  sha256 BLOB NOT NULL,
  -- Saved by a person under its name, or only kept because a pull used it.
  offered INTEGER NOT NULL CHECK (offered IN (0, 1)),
  saved_wall_ms INTEGER NOT NULL
) STRICT;
CREATE INDEX readout_profile_name ON readout_profile (name);

CREATE TABLE pull (
  pull_id INTEGER PRIMARY KEY,
  specimen_id INTEGER NOT NULL REFERENCES specimen (specimen_id),
  profile_id INTEGER NOT NULL REFERENCES readout_profile (profile_id),
  source_json TEXT NOT NULL,
  source_words TEXT NOT NULL,
  rules_json TEXT NOT NULL,
  operator TEXT,
  program_version TEXT NOT NULL,
  -- The wall clock once, and the monotonic clock at that moment; boot tells whether the latter still runs.
  started_wall_ms INTEGER NOT NULL,
  started_monotonic_us INTEGER NOT NULL,
  boot TEXT NOT NULL,
  planned_force_n REAL,
  planned_extension_mm REAL
) STRICT;
CREATE INDEX pull_specimen ON pull (specimen_id);

CREATE TABLE pull_end (
  pull_id INTEGER PRIMARY KEY REFERENCES pull (pull_id),
  ended_wall_ms INTEGER NOT NULL,
  duration_us INTEGER NOT NULL,
  reading_count INTEGER NOT NULL,
  chunk_count INTEGER NOT NULL,
  raw_byte_count INTEGER NOT NULL,
  -- Over all raw bytes in order, and over all decoded readings in order, however they are cut into blocks.
  raw_sha256 BLOB NOT NULL,
  readings_sha256 BLOB NOT NULL,
  peak_force_n REAL,
  misfit_json TEXT NOT NULL
) STRICT;

CREATE TABLE raw_block (
  pull_id INTEGER NOT NULL REFERENCES pull (pull_id),
  first_chunk INTEGER NOT NULL,
  chunk_count INTEGER NOT NULL CHECK (chunk_count > 0),
  byte_count INTEGER NOT NULL,
  -- Arrival, opening and length of each chunk; then their bytes. Each packed as its number says.
  table_packing INTEGER NOT NULL,
  chunk_table BLOB NOT NULL,
  packing INTEGER NOT NULL,
  body BLOB NOT NULL,
  sha256 BLOB NOT NULL,
  PRIMARY KEY (pull_id, first_chunk)
) STRICT;

CREATE TABLE reading_block (
  pull_id INTEGER NOT NULL REFERENCES pull (pull_id),
  first_seq INTEGER NOT NULL,
  reading_count INTEGER NOT NULL CHECK (reading_count > 0),
  first_chunk INTEGER NOT NULL,
  last_chunk INTEGER NOT NULL,
  packing INTEGER NOT NULL,
  body BLOB NOT NULL,
  PRIMARY KEY (pull_id, first_seq)
) STRICT;

CREATE TABLE mark (
  mark_id INTEGER PRIMARY KEY,
  pull_id INTEGER NOT NULL REFERENCES pull (pull_id),
  kind TEXT NOT NULL,
  seq INTEGER NOT NULL,
  elapsed_us INTEGER NOT NULL,
  cause TEXT NOT NULL,
  words TEXT NOT NULL
) STRICT;
CREATE INDEX mark_pull ON mark (pull_id);

CREATE TABLE gap (
  gap_id INTEGER PRIMARY KEY,
  pull_id INTEGER NOT NULL REFERENCES pull (pull_id),
  cause TEXT NOT NULL,
  before_seq INTEGER NOT NULL,
  from_us INTEGER NOT NULL,
  words TEXT NOT NULL
) STRICT;
CREATE INDEX gap_pull ON gap (pull_id);

CREATE TABLE gap_end (
  gap_id INTEGER PRIMARY KEY REFERENCES gap (gap_id),
  to_us INTEGER NOT NULL
) STRICT;

CREATE TABLE zero (
  zero_id INTEGER PRIMARY KEY,
  pull_id INTEGER NOT NULL REFERENCES pull (pull_id),
  channel_key TEXT NOT NULL,
  -- Exact ratio in the core's unit, "-1113/500".
  value TEXT NOT NULL,
  seq INTEGER NOT NULL
) STRICT;
CREATE INDEX zero_pull ON zero (pull_id);

CREATE TABLE act (
  act_id INTEGER PRIMARY KEY,
  pull_id INTEGER NOT NULL REFERENCES pull (pull_id),
  kind TEXT NOT NULL,
  elapsed_us INTEGER NOT NULL,
  wall_ms INTEGER NOT NULL,
  done_by TEXT,
  words TEXT NOT NULL
) STRICT;
CREATE INDEX act_pull ON act (pull_id);

CREATE TABLE fracture_note (
  fracture_note_id INTEGER PRIMARY KEY,
  pull_id INTEGER NOT NULL REFERENCES pull (pull_id),
  note_json TEXT NOT NULL,
  noted_by TEXT,
  wall_ms INTEGER NOT NULL,
  supersedes INTEGER UNIQUE REFERENCES fracture_note (fracture_note_id),
  reason TEXT,
  CHECK (supersedes IS NULL OR reason IS NOT NULL)
) STRICT;
CREATE INDEX fracture_note_pull ON fracture_note (pull_id);

-- One row for each statement kept; each carries the hash of the one before.
CREATE TABLE audit (
  audit_id INTEGER PRIMARY KEY,
  wall_ms INTEGER NOT NULL,
  what TEXT NOT NULL,
  subject TEXT NOT NULL,
  subject_id INTEGER NOT NULL,
  detail_json TEXT NOT NULL,
  previous_hash BLOB NOT NULL,
  hash BLOB NOT NULL UNIQUE
) STRICT;

${appendOnly(APPEND_ONLY)}

${BLOCKS.map(
  (table) => `
CREATE TRIGGER ${table}_is_not_changed BEFORE UPDATE ON ${table}
BEGIN SELECT RAISE(ABORT, 'blocks are never changed'); END;
CREATE TRIGGER ${table}_of_closed_pull_is_not_deleted BEFORE DELETE ON ${table}
WHEN EXISTS (SELECT 1 FROM pull_end WHERE pull_id = OLD.pull_id)
BEGIN SELECT RAISE(ABORT, 'blocks of a closed pull are never deleted'); END;
CREATE TRIGGER ${table}_of_closed_pull_is_not_added BEFORE INSERT ON ${table}
WHEN EXISTS (SELECT 1 FROM pull_end WHERE pull_id = NEW.pull_id)
BEGIN SELECT RAISE(ABORT, 'nothing is added to a closed pull'); END;`,
).join('\n')}
`;
