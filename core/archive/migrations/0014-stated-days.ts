/** Days on which pulls from elsewhere were made, as people state them. Never edited once released. */
import { appendOnly } from './append-only.ts';

export const statedDays = `
-- Of an imported pull, whose record has the moment of the import: "2019-05-14" or "2019-05-14T10:30", by the clock of the
-- place. The newest stands; a correction names the one before and its reason.
CREATE TABLE stated_day (
  stated_day_id INTEGER PRIMARY KEY,
  pull_id INTEGER NOT NULL REFERENCES pull (pull_id),
  pulled_on TEXT NOT NULL CHECK (pulled_on GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]*'),
  said_by TEXT,
  wall_ms INTEGER NOT NULL,
  supersedes INTEGER UNIQUE REFERENCES stated_day (stated_day_id),
  reason TEXT,
  CHECK (supersedes IS NULL OR reason IS NOT NULL)
) STRICT;
CREATE INDEX stated_day_pull ON stated_day (pull_id);

${appendOnly(['stated_day'])}
`;
