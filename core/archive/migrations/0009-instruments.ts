/** Frames, force channels, extensometers and callipers, their calibrations, and with which a pull was made. Never edited once released. */
import { appendOnly } from './append-only.ts';

export const instruments = `
CREATE TABLE instrument (
  instrument_id INTEGER PRIMARY KEY,
  begun_wall_ms INTEGER NOT NULL
) STRICT;

-- What is said of an instrument; a correction, and its going out of use, is a new row.
CREATE TABLE instrument_statement (
  instrument_statement_id INTEGER PRIMARY KEY,
  instrument_id INTEGER NOT NULL REFERENCES instrument (instrument_id),
  kind TEXT NOT NULL CHECK (kind IN ('frame', 'force-channel', 'extensometer', 'calliper')),
  name TEXT NOT NULL CHECK (length(trim(name)) > 0),
  form_json TEXT NOT NULL,
  -- Offered for no pull any more; what it measured stays.
  retired INTEGER NOT NULL CHECK (retired IN (0, 1)),
  wall_ms INTEGER NOT NULL,
  said_by TEXT,
  supersedes INTEGER UNIQUE REFERENCES instrument_statement (instrument_statement_id),
  reason TEXT,
  CHECK (supersedes IS NULL OR length(trim(reason)) > 0)
) STRICT;
CREATE INDEX instrument_statement_instrument ON instrument_statement (instrument_id);

-- A calibration as its certificate says it; one that was entered wrongly is superseded with the reason.
CREATE TABLE calibration (
  calibration_id INTEGER PRIMARY KEY,
  instrument_id INTEGER NOT NULL REFERENCES instrument (instrument_id),
  certificate_number TEXT NOT NULL CHECK (length(trim(certificate_number)) > 0),
  calibrated_on TEXT NOT NULL,
  due_on TEXT NOT NULL,
  form_json TEXT NOT NULL,
  wall_ms INTEGER NOT NULL,
  said_by TEXT,
  supersedes INTEGER UNIQUE REFERENCES calibration (calibration_id),
  reason TEXT,
  CHECK (due_on > calibrated_on),
  CHECK (supersedes IS NULL OR length(trim(reason)) > 0)
) STRICT;
CREATE INDEX calibration_instrument ON calibration (instrument_id);

-- With what a pull was measured, as it stood at its start; pulls from before this form have none.
CREATE TABLE pull_instruments (
  pull_id INTEGER PRIMARY KEY REFERENCES pull (pull_id),
  instruments_json TEXT NOT NULL
) STRICT;

-- The same, one row an instrument, to find the pulls of an instrument that turns out to have been off.
CREATE TABLE pull_instrument (
  pull_instrument_id INTEGER PRIMARY KEY,
  pull_id INTEGER NOT NULL REFERENCES pull_instruments (pull_id),
  instrument_id INTEGER NOT NULL REFERENCES instrument (instrument_id),
  calibration_id INTEGER REFERENCES calibration (calibration_id),
  state TEXT NOT NULL CHECK (state IN ('valid', 'overdue', 'none')),
  UNIQUE (pull_id, instrument_id),
  CHECK ((calibration_id IS NULL) = (state = 'none'))
) STRICT;
CREATE INDEX pull_instrument_instrument ON pull_instrument (instrument_id);

${appendOnly(['instrument', 'instrument_statement', 'calibration', 'pull_instruments', 'pull_instrument'])}
`;
