/** Pulls on frames without a port: what a person typed from the display. Never edited once released. */
import { appendOnly } from './append-only.ts';

export const typedPulls = `
-- Its pull has an end, no readings and no raw bytes. A slip of the pen is made void and typed anew.
CREATE TABLE typed_pull (
  pull_id INTEGER PRIMARY KEY REFERENCES pull (pull_id),
  typed_json TEXT NOT NULL
) STRICT;

${appendOnly(['typed_pull'])}
`;
