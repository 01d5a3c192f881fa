/**
 * Tables of the search index. They are derived: no form of the archive contains them, they are made anew from the rows
 * whenever they are missing, damaged, or were made by a program that composes them otherwise.
 */
import { TOKENIZE } from './folding.ts';

const DERIVED = [
  'search_text',
  'search_entry',
  'search_order',
  'search_rules_text',
  'search_rules',
  'search_form',
  'thumbnail',
];

/** Takes away what there is of them and makes them empty. */
export const EMPTY_SEARCH_TABLES = `
${DERIVED.map((table) => `DROP TABLE IF EXISTS ${table};`).join('\n')}

-- Derived from the other tables and made anew from them at any time: nothing here is a record. One row a pull.
CREATE TABLE search_entry (
  pull_id INTEGER PRIMARY KEY,
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
  made_at_audit INTEGER NOT NULL,
  -- What the text index is made of, words as it folds them, each between spaces (folding.ts); words with signs between
  -- ("PQR-12/3") also in their parts. Behind what a line shows: reading that does not walk over them.
  words TEXT NOT NULL,
  set_names TEXT NOT NULL,
  rules TEXT NOT NULL,
  base_metal TEXT NOT NULL,
  filler TEXT NOT NULL,
  -- Words for filters, each with a sign that nobody types before it.
  facets TEXT NOT NULL
) STRICT;
CREATE INDEX search_entry_of_set ON search_entry (set_id);

-- What a list can be sorted by, never null: narrow, so that many pulls are looked up and sorted without their entries.
CREATE TABLE search_order (
  pull_id INTEGER PRIMARY KEY,
  started INTEGER NOT NULL,
  specimen TEXT NOT NULL,
  set_name TEXT NOT NULL,
  operator TEXT NOT NULL,
  peak REAL NOT NULL,
  strength REAL NOT NULL
) STRICT;
${['started', 'specimen', 'set_name', 'operator', 'peak', 'strength']
  .map((column) => `CREATE INDEX search_order_by_${column} ON search_order (${column});`)
  .join('\n')}

CREATE VIRTUAL TABLE search_text USING fts5(
  words, set_names, rules, base_metal, filler, facets,
  content='search_entry', content_rowid='pull_id',
  ${TOKENIZE}, prefix='2 3 4 5 6 7 8 9 10'
);
CREATE TRIGGER search_entry_put_in AFTER INSERT ON search_entry BEGIN
  INSERT INTO search_order VALUES (new.pull_id, new.started_wall_ms, new.specimen_name, coalesce(new.set_name, ''),
    coalesce(new.operator, ''), coalesce(new.peak_force_n, -1), coalesce(new.strength_mpa, -1));
  INSERT INTO search_text (rowid, words, set_names, rules, base_metal, filler, facets)
  VALUES (new.pull_id, new.words, new.set_names, new.rules, new.base_metal, new.filler, new.facets);
END;
CREATE TRIGGER search_entry_taken_out AFTER DELETE ON search_entry BEGIN
  DELETE FROM search_order WHERE pull_id = old.pull_id;
  INSERT INTO search_text (search_text, rowid, words, set_names, rules, base_metal, filler, facets)
  VALUES ('delete', old.pull_id, old.words, old.set_names, old.rules, old.base_metal, old.filler, old.facets);
END;
-- Every text that the column "rules" has, with a number: rule packs are few, so a filter for them together with section
-- and place of fracture is one word ("together.ts") instead of three long lists that may have nothing in common.
CREATE TABLE search_rules (search_rules_id INTEGER PRIMARY KEY, rules TEXT NOT NULL UNIQUE) STRICT;
CREATE VIRTUAL TABLE search_rules_text USING fts5(
  rules, content='search_rules', content_rowid='search_rules_id', ${TOKENIZE}
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
