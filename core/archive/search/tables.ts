/**
 * Tables of the search index. They are derived: no form of the archive contains them, they are made anew from the rows
 * whenever they are missing, damaged, or were made by a program that composes them otherwise.
 */
import { OUTCOMES } from '../../acceptance/verdict.ts';
import { FRACTURE_PLACES } from '../../contract/record.ts';
import { NAME_LENGTH_MAX } from '../../limits.ts';
import { TEXT_COLUMNS } from './condition.ts';
import { TOKENIZE } from './folding.ts';

const DERIVED = [
  'search_words',
  'search_text',
  'search_entry',
  'search_value',
  'search_form',
  'search_saved',
  'search_changed',
  'thumbnail',
  // Of programs before this one.
  'search_order',
  'search_rules_text',
  'search_rules',
];

/** What is said of the set. Only pulls that have it stand in its index: of many nothing is said. */
export const SAID_COLUMNS = ['rules', 'base_metal', 'filler', 'heat', 'filler_lot', 'welder'] as const;

/** Columns of `search_value` by which a list can be sorted, each with an index. */
export const ORDER_COLUMNS = [
  'started',
  'specimen',
  'set_name',
  'operator',
  'peak',
  'strength',
  'yield',
  'elongation',
  'readings',
  'verdict_rank',
  'place_rank',
  'questionable',
  ...SAID_COLUMNS,
] as const;
export type OrderColumn = (typeof ORDER_COLUMNS)[number];

/** Their columns in an entry. */
const SAID_OF_SET = {
  rules: 'rule_pack_name',
  base_metal: 'shown_base_metal',
  filler: 'shown_filler',
  heat: 'heat',
  filler_lot: 'filler_lot',
  welder: 'welder',
} as const satisfies Readonly<Record<(typeof SAID_COLUMNS)[number], string>>;

/** Below every force and stress, and the same number in the database and in the key of a page. */
const NO_NUMBER = Number.MIN_SAFE_INTEGER;
/** What stands in a column where a pull has nothing there: below everything else. Null where every pull has something. */
export const NONE: Readonly<Record<OrderColumn, string | number | null>> = {
  started: null,
  specimen: null,
  set_name: '',
  operator: '',
  peak: NO_NUMBER,
  strength: NO_NUMBER,
  yield: NO_NUMBER,
  elongation: NO_NUMBER,
  readings: null,
  verdict_rank: 0,
  place_rank: 0,
  questionable: null,
  rules: '',
  base_metal: '',
  filler: '',
  heat: '',
  filler_lot: '',
  welder: '',
};

/** The same in the database. */
export const noneSql = (column: OrderColumn): string | null => {
  const none = NONE[column];
  return typeof none === 'number' ? String(none) : none === null ? null : "''";
};

/** Of a text of several parts, of ten base metals for example, so many signs are sorted by. */
export const SORTED_SIGNS_MAX = NAME_LENGTH_MAX;

/** Its place in the list, from 1; 0 for none and for what is not in it. */
export const rankIn = (list: readonly string[], value: string | null): number =>
  value === null ? 0 : list.indexOf(value) + 1;

/** The same in the database. */
const rankSql = (list: readonly string[], of: string): string =>
  `CASE ${of} ${list.map((value, i) => `WHEN '${value}' THEN ${String(i + 1)}`).join(' ')} ELSE 0 END`;

/** By outcome, and what is questionable behind what is not. */
export const verdictRank = (verdict: string | null, questionable: boolean): number =>
  2 * rankIn(OUTCOMES, verdict) + Number(questionable);

const saidOfSet = (of: string, column: keyof typeof SAID_OF_SET): string =>
  `substr(coalesce(${of}.${SAID_OF_SET[column]}, ''), 1, ${String(SORTED_SIGNS_MAX)})`;

/** What `search_value` holds of an entry: the columns in their order, and what they are made of. */
const VALUES = {
  pull_id: (of) => `${of}.pull_id`,
  started: (of) => `${of}.dated_wall_ms`,
  specimen: (of) => `${of}.specimen_name`,
  set_name: (of) => `coalesce(${of}.set_name, '')`,
  operator: (of) => `coalesce(${of}.operator, '')`,
  peak: (of) => `coalesce(${of}.peak_force_n, ${String(NO_NUMBER)})`,
  strength: (of) => `coalesce(${of}.strength_mpa, ${String(NO_NUMBER)})`,
  yield: (of) => `coalesce(${of}.yield_mpa, ${String(NO_NUMBER)})`,
  elongation: (of) => `coalesce(${of}.elongation_percent, ${String(NO_NUMBER)})`,
  readings: (of) => `${of}.reading_count`,
  verdict_rank: (of) => `2 * ${rankSql(OUTCOMES, `${of}.verdict`)} + coalesce(${of}.questionable, 0)`,
  place_rank: (of) => rankSql(FRACTURE_PLACES, `${of}.place`),
  day: (of) => `${of}.day`,
  geometry: (of) => `${of}.geometry`,
  place: (of) => `${of}.place`,
  verdict: (of) => `${of}.verdict`,
  interrupted: (of) => `${of}.interrupted`,
  voided: (of) => `${of}.void_reason IS NOT NULL`,
  questionable: (of) => `coalesce(${of}.questionable, 0)`,
  // Last: what filters look at stands before.
  rules: (of) => saidOfSet(of, 'rules'),
  base_metal: (of) => saidOfSet(of, 'base_metal'),
  filler: (of) => saidOfSet(of, 'filler'),
  heat: (of) => saidOfSet(of, 'heat'),
  filler_lot: (of) => saidOfSet(of, 'filler_lot'),
  welder: (of) => saidOfSet(of, 'welder'),
} as const satisfies Record<string, (of: string) => string>;
export const VALUE_COLUMNS = Object.keys(VALUES);
export const valuesOf = (of: string): string =>
  Object.values(VALUES)
    .map((value) => value(of))
    .join(', ');

/** The same in the database, of a row with a verdict. */
export const verdictRankOf = VALUES.verdict_rank;

/** Nothing is noted before something is saved. */
const NOTE_CHANGED = (of: string): string =>
  `INSERT OR IGNORE INTO search_changed (pull_id) SELECT ${of}.pull_id WHERE EXISTS (SELECT 1 FROM search_saved);`;

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
  -- Days since 1970 by the clock of the place, as stated or of the start.
  day INTEGER NOT NULL,
  -- ISO 8601 with the offset of the place.
  started TEXT NOT NULL,
  -- The day that a person stated of an imported pull, and the moment by which the pull is sorted by date.
  pulled_on TEXT,
  dated_wall_ms INTEGER NOT NULL,
  set_id INTEGER,
  set_name TEXT,
  rule_pack TEXT,
  rule_pack_name TEXT,
  -- Of the set that it is in, as it is written there.
  shown_base_metal TEXT,
  shown_filler TEXT,
  heat TEXT,
  filler_lot TEXT,
  welder TEXT,
  geometry TEXT NOT NULL,
  measured_in TEXT NOT NULL CHECK (measured_in IN ('si', 'us')),
  place TEXT,
  operator TEXT,
  origin TEXT NOT NULL,
  ended INTEGER NOT NULL CHECK (ended IN (0, 1)),
  reading_count INTEGER NOT NULL,
  peak_force_n REAL,
  -- What opening the pull would give (shown-results.ts).
  strength_mpa REAL,
  -- As stated: of the evaluation that is kept, else as the pull was first worked out; null until then.
  yield_mpa REAL,
  elongation_percent REAL,
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
  filler TEXT NOT NULL
) STRICT;
CREATE INDEX search_entry_of_set ON search_entry (set_id);

-- What a list can be sorted by, never null, and filtered by: narrow, so that many pulls are looked at without their
-- entries. A program that goes on running holds these values in memory (held-pulls.ts).
CREATE TABLE search_value (
  pull_id INTEGER PRIMARY KEY,
  started INTEGER NOT NULL,
  specimen TEXT NOT NULL,
  set_name TEXT NOT NULL,
  operator TEXT NOT NULL,
  peak REAL NOT NULL,
  strength REAL NOT NULL,
  yield REAL NOT NULL,
  elongation REAL NOT NULL,
  readings INTEGER NOT NULL,
  verdict_rank INTEGER NOT NULL,
  place_rank INTEGER NOT NULL,
  day INTEGER NOT NULL,
  geometry TEXT NOT NULL,
  place TEXT,
  verdict TEXT,
  interrupted INTEGER NOT NULL,
  voided INTEGER NOT NULL,
  questionable INTEGER NOT NULL,
${Object.keys(SAID_OF_SET)
  .map((column) => `  ${column} TEXT NOT NULL`)
  .join(',\n')}
) STRICT;
${ORDER_COLUMNS.map(
  (column) =>
    `CREATE INDEX search_value_by_${column} ON search_value (${column})${column in SAID_OF_SET ? ` WHERE ${column} > ''` : ''};`,
).join('\n')}

CREATE VIRTUAL TABLE search_text USING fts5(
  ${TEXT_COLUMNS.join(', ')},
  content='search_entry', content_rowid='pull_id',
  ${TOKENIZE}, prefix='2 3 4 5 6 7 8 9 10'
);
-- Its words, and how many pulls have each in each column.
CREATE VIRTUAL TABLE search_words USING fts5vocab(search_text, 'col');
CREATE TRIGGER search_entry_put_in AFTER INSERT ON search_entry BEGIN
  INSERT INTO search_value (${VALUE_COLUMNS.join(', ')}) VALUES (${valuesOf('new')});
  INSERT INTO search_text (rowid, ${TEXT_COLUMNS.join(', ')})
  VALUES (new.pull_id, ${TEXT_COLUMNS.map((column) => `new.${column}`).join(', ')});
  ${NOTE_CHANGED('new')}
END;
CREATE TRIGGER search_entry_taken_out AFTER DELETE ON search_entry BEGIN
  DELETE FROM search_value WHERE pull_id = old.pull_id;
  INSERT INTO search_text (search_text, rowid, ${TEXT_COLUMNS.join(', ')})
  VALUES ('delete', old.pull_id, ${TEXT_COLUMNS.map((column) => `old.${column}`).join(', ')});
  ${NOTE_CHANGED('old')}
END;
CREATE TRIGGER search_entry_judged AFTER UPDATE OF verdict, questionable ON search_entry BEGIN
  UPDATE search_value SET verdict = new.verdict, questionable = coalesce(new.questionable, 0),
    verdict_rank = ${VALUES.verdict_rank('new')}
  WHERE pull_id = new.pull_id;
  ${NOTE_CHANGED('new')}
END;
CREATE TRIGGER search_entry_stated AFTER UPDATE OF yield_mpa, elongation_percent ON search_entry BEGIN
  UPDATE search_value SET yield = ${VALUES.yield('new')}, elongation = ${VALUES.elongation('new')}
  WHERE pull_id = new.pull_id;
  ${NOTE_CHANGED('new')}
END;

-- What a program that went on running held in memory (saved-search.ts), in pieces, so that the next one need not gather it
-- from all pulls again; and the pulls of which something has changed since.
CREATE TABLE search_saved (name TEXT PRIMARY KEY, body BLOB NOT NULL) STRICT;
CREATE TABLE search_changed (pull_id INTEGER PRIMARY KEY) STRICT;

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
