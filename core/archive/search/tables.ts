/**
 * Tables of the search index. They are derived: no form of the archive contains them, they are made anew from the rows
 * whenever they are missing, damaged, or were made by a program that composes them otherwise.
 */

const DERIVED = [
  'search_text',
  'search_entry',
  'search_rules_text',
  'search_rules',
  'search_form',
  'thumbnail',
];

const TOKENS = `tokenize="unicode61 remove_diacritics 2 tokenchars '-./_#+:&'"`;

/** Takes away what there is of them and makes them empty. */
export const EMPTY_SEARCH_TABLES = `
${DERIVED.map((table) => `DROP TABLE IF EXISTS ${table};`).join('\n')}

-- Derived from the other tables and made anew from them at any time: nothing here is a record. One row a pull.
CREATE TABLE search_entry (
  pull_id INTEGER PRIMARY KEY,
  -- What the text index is made of, as written; words with signs between ("PQR-12/3") also in their parts.
  specimen TEXT NOT NULL,
  set_names TEXT NOT NULL,
  rules TEXT NOT NULL,
  base_metal TEXT NOT NULL,
  filler TEXT NOT NULL,
  heat_lot TEXT NOT NULL,
  job TEXT NOT NULL,
  documents TEXT NOT NULL,
  people TEXT NOT NULL,
  notes TEXT NOT NULL,
  fracture TEXT NOT NULL,
  -- Words for filters, each with a sign that nobody types before it.
  facets TEXT NOT NULL,
  -- What a line of a list shows.
  specimen_id INTEGER NOT NULL,
  specimen_name TEXT NOT NULL,
  started_wall_ms INTEGER NOT NULL,
  -- ISO 8601 with the offset of the place.
  started TEXT NOT NULL,
  set_id INTEGER,
  set_name TEXT,
  rule_pack TEXT,
  geometry TEXT NOT NULL,
  measured_in TEXT NOT NULL CHECK (measured_in IN ('si', 'us')),
  place TEXT,
  operator TEXT,
  origin TEXT NOT NULL,
  ended INTEGER NOT NULL CHECK (ended IN (0, 1)),
  reading_count INTEGER NOT NULL,
  peak_force_n REAL,
  -- Rm of the evaluation that stands; else recorded peak over S0.
  strength_mpa REAL,
  interrupted INTEGER NOT NULL CHECK (interrupted IN (0, 1)),
  void_reason TEXT,
  -- Of the set, when it was judged last; null as soon as something it rests on has changed.
  verdict TEXT,
  questionable INTEGER CHECK (questionable IN (0, 1)),
  -- The newest entry of the audit chain when this row was made.
  made_at_audit INTEGER NOT NULL
) STRICT;
CREATE INDEX search_entry_started ON search_entry (started_wall_ms);
CREATE INDEX search_entry_specimen ON search_entry (specimen_name);
CREATE INDEX search_entry_strength ON search_entry (coalesce(strength_mpa, -1));
CREATE INDEX search_entry_peak ON search_entry (coalesce(peak_force_n, -1));
CREATE INDEX search_entry_set ON search_entry (coalesce(set_name, ''));
CREATE INDEX search_entry_operator ON search_entry (coalesce(operator, ''));
CREATE INDEX search_entry_of_set ON search_entry (set_id);

CREATE VIRTUAL TABLE search_text USING fts5(
  specimen, set_names, rules, base_metal, filler, heat_lot, job, documents, people, notes, fracture, facets,
  content='search_entry', content_rowid='pull_id',
  ${TOKENS}, prefix='2 3 4 5 6 7 8 9 10'
);
CREATE TRIGGER search_entry_put_in AFTER INSERT ON search_entry BEGIN
  INSERT INTO search_text (rowid, specimen, set_names, rules, base_metal, filler, heat_lot, job, documents, people, notes, fracture, facets)
  VALUES (new.pull_id, new.specimen, new.set_names, new.rules, new.base_metal, new.filler, new.heat_lot, new.job, new.documents, new.people, new.notes, new.fracture, new.facets);
END;
CREATE TRIGGER search_entry_taken_out AFTER DELETE ON search_entry BEGIN
  INSERT INTO search_text (search_text, rowid, specimen, set_names, rules, base_metal, filler, heat_lot, job, documents, people, notes, fracture, facets)
  VALUES ('delete', old.pull_id, old.specimen, old.set_names, old.rules, old.base_metal, old.filler, old.heat_lot, old.job, old.documents, old.people, old.notes, old.fracture, old.facets);
END;
-- Every text that the column "rules" has, with a number: rule packs are few, so a filter for them together with section
-- and place of fracture is one word ("together.ts") instead of three long lists that may have nothing in common.
CREATE TABLE search_rules (search_rules_id INTEGER PRIMARY KEY, rules TEXT NOT NULL UNIQUE) STRICT;
CREATE VIRTUAL TABLE search_rules_text USING fts5(
  rules, content='search_rules', content_rowid='search_rules_id', ${TOKENS}
);
CREATE TRIGGER search_rules_put_in AFTER INSERT ON search_rules BEGIN
  INSERT INTO search_rules_text (rowid, rules) VALUES (new.search_rules_id, new.rules);
END;

-- How its rows were composed: another number in the program makes it anew. While it is being made, newest first, pulls
-- with numbers below "below" may have no entry yet; null where it is whole.
CREATE TABLE search_form (form INTEGER NOT NULL, below INTEGER) STRICT;

-- Small pictures of curves, made when one is first asked for.
CREATE TABLE thumbnail (
  pull_id INTEGER PRIMARY KEY,
  form INTEGER NOT NULL,
  points BLOB NOT NULL
) STRICT;
`;
