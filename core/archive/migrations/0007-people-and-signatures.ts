/** People of this machine, signatures on certificates, and the results that a certificate rests on. Never edited once released. */
import { appendOnly } from './append-only.ts';

export const peopleAndSignatures = `
CREATE TABLE person (
  person_id INTEGER PRIMARY KEY,
  name TEXT NOT NULL CHECK (length(trim(name)) > 0),
  -- A short sign, as on a drawing: "OP2".
  sign TEXT NOT NULL,
  roles_json TEXT NOT NULL,
  -- Salted scrypt; null where no PIN is asked for.
  pin_salt BLOB,
  pin_hash BLOB,
  -- Signs here no more; the row stays.
  retired INTEGER NOT NULL CHECK (retired IN (0, 1)),
  wall_ms INTEGER NOT NULL,
  supersedes INTEGER UNIQUE REFERENCES person (person_id),
  reason TEXT,
  CHECK ((pin_salt IS NULL) = (pin_hash IS NULL)),
  CHECK (supersedes IS NULL OR length(trim(reason)) > 0)
) STRICT;

CREATE TABLE signature (
  signature_id INTEGER PRIMARY KEY,
  certificate_id INTEGER NOT NULL REFERENCES certificate (certificate_id),
  -- Of the certificate as it was signed.
  content_sha256 BLOB NOT NULL,
  printed_name TEXT NOT NULL,
  meaning TEXT NOT NULL,
  person_id INTEGER REFERENCES person (person_id),
  -- Whether the person's PIN was given with it.
  by_pin INTEGER NOT NULL CHECK (by_pin IN (0, 1)),
  wall_ms INTEGER NOT NULL,
  utc_offset_minutes INTEGER NOT NULL CHECK (utc_offset_minutes BETWEEN -1080 AND 1080)
) STRICT;
CREATE INDEX signature_certificate ON signature (certificate_id);

-- What each pull gave when the certificate was issued, and by which options, so that it can be worked out again.
CREATE TABLE certificate_result (
  certificate_result_id INTEGER PRIMARY KEY,
  certificate_id INTEGER NOT NULL REFERENCES certificate (certificate_id),
  pull_id INTEGER NOT NULL REFERENCES pull (pull_id),
  specimen_id INTEGER NOT NULL REFERENCES specimen (specimen_id),
  options_json TEXT NOT NULL,
  values_json TEXT NOT NULL,
  method_version TEXT NOT NULL
) STRICT;

${appendOnly(['person', 'signature', 'certificate_result'])}
`;
