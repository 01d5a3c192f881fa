/** Evaluations that a person kept: by which options, who, when, why. Never edited once released. */
import { appendOnly } from './append-only.ts';

export const evaluations = `
-- The last of a pull stands. Nothing that was recorded changes with it; one without options is the pull as recorded.
CREATE TABLE evaluation (
  evaluation_id INTEGER PRIMARY KEY,
  pull_id INTEGER NOT NULL REFERENCES pull (pull_id),
  -- The specimen record, with its corrections of that day, that the values rest on.
  specimen_id INTEGER NOT NULL REFERENCES specimen (specimen_id),
  options_json TEXT NOT NULL,
  -- Files that tables were read from: what, name, SHA-256.
  sources_json TEXT NOT NULL,
  -- What the program of that day made of it: symbol, value, unit.
  values_json TEXT NOT NULL,
  method_version TEXT NOT NULL,
  program_version TEXT NOT NULL,
  kept_wall_ms INTEGER NOT NULL,
  kept_by TEXT,
  supersedes INTEGER UNIQUE REFERENCES evaluation (evaluation_id),
  reason TEXT NOT NULL CHECK (length(trim(reason)) > 0)
) STRICT;
CREATE INDEX evaluation_pull ON evaluation (pull_id);
-- One line of evaluations a pull: only its first supersedes nothing but the record itself.
CREATE UNIQUE INDEX evaluation_first ON evaluation (pull_id) WHERE supersedes IS NULL;

${appendOnly(['evaluation'])}
`;
