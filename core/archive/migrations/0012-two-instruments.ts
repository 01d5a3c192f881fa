/** A second instrument on a port of its own beside the one that gives the load. Never edited once released. */
import { appendOnly } from './append-only.ts';

// Chunks of both instruments stand in one order, that of their arrival; their openings are even for the first and odd
// for the second.
export const twoInstruments = `
CREATE TABLE second_instrument (
  pull_id INTEGER PRIMARY KEY REFERENCES pull (pull_id),
  profile_id INTEGER NOT NULL REFERENCES readout_profile (profile_id),
  source_json TEXT NOT NULL,
  source_words TEXT NOT NULL,
  -- A value older than this is joined to no load.
  age_max_ms REAL NOT NULL CHECK (age_max_ms > 0)
) STRICT;

-- The raw record of each of the two, and how they were joined, when the pull was closed.
CREATE TABLE two_instruments_end (
  pull_id INTEGER PRIMARY KEY REFERENCES second_instrument (pull_id),
  records_json TEXT NOT NULL,
  skew_json TEXT NOT NULL
) STRICT;

-- 1: only the second of two instruments was not heard.
ALTER TABLE gap ADD COLUMN instrument INTEGER CHECK (instrument = 1);

${appendOnly(['second_instrument', 'two_instruments_end'])}
`;
