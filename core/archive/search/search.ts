/**
 * Finds pulls. The text index answers by rowid, which is the number of the pull: newest first costs nothing, and a page
 * begins behind a key, never at an offset. What a person typed is cut into words and quoted: no sign in it is syntax.
 */
import { z } from 'zod';
import {
  FOUND_PULLS_MAX,
  type FoundPull,
  type SearchOrder,
  type SearchQuery,
  foundPull,
} from '../../contract/search-requests.ts';
import { STRENGTH_MPA_MAX } from '../../limits.ts';
import { ArchiveRefusal } from '../archive-fault.ts';
import { type Connection, allRows, countOf, sqlInteger, statement } from '../sql.ts';
import { dayNumber, strengthStep } from './entry.ts';
import { fittingRules, togetherWord } from './together.ts';
import { facetWord, rangeWords, wordsQuery } from './tokens.ts';

/** The last day that a range without an end goes to: 2199-12-31. */
const DAY_MAX = 84_005;

type Value = string | number;
interface Condition {
  readonly sql: string;
  readonly values: readonly Value[];
}

const line = z
  .object({
    pull_id: sqlInteger,
    specimen_id: sqlInteger,
    specimen_name: z.string(),
    started_wall_ms: sqlInteger,
    started: z.string(),
    set_id: sqlInteger.nullable(),
    set_name: z.string().nullable(),
    rule_pack: z.string().nullable(),
    geometry: z.string(),
    measured_in: foundPull.unwrap().shape.measuredIn,
    place: z.string().nullable(),
    operator: z.string().nullable(),
    origin: z.string(),
    ended: sqlInteger,
    reading_count: sqlInteger,
    peak_force_n: z.number().nullable(),
    strength_mpa: z.number().nullable(),
    interrupted: sqlInteger,
    void_reason: z.string().nullable(),
    verdict: foundPull.unwrap().shape.verdict,
    questionable: sqlInteger.nullable(),
  })
  .transform((row): FoundPull => ({
    pullId: row.pull_id,
    specimenId: row.specimen_id,
    specimenName: row.specimen_name,
    startedWallMs: row.started_wall_ms,
    started: row.started,
    setId: row.set_id,
    setName: row.set_name,
    rulePack: row.rule_pack,
    geometry: row.geometry,
    measuredIn: row.measured_in,
    place: row.place,
    operator: row.operator,
    origin: row.origin,
    ended: row.ended === 1,
    readingCount: row.reading_count,
    peakForceN: row.peak_force_n,
    strengthMpa: row.strength_mpa,
    interrupted: row.interrupted === 1,
    voidReason: row.void_reason,
    verdict: row.verdict,
    questionable: row.questionable === 1,
  }));

const LINE = `e.pull_id, e.specimen_id, e.specimen_name, e.started_wall_ms, e.started, e.set_id, e.set_name, e.rule_pack,
  e.geometry, e.measured_in, e.place, e.operator, e.origin, e.ended, e.reading_count, e.peak_force_n, e.strength_mpa,
  e.interrupted, e.void_reason, e.verdict, e.questionable`;

/** What orders by, never null, each with an index. */
const ORDER_SQL = {
  started: 'e.started_wall_ms',
  specimen: 'e.specimen_name',
  set: "coalesce(e.set_name, '')",
  operator: "coalesce(e.operator, '')",
  peak: 'coalesce(e.peak_force_n, -1)',
  strength: 'coalesce(e.strength_mpa, -1)',
} as const satisfies Record<Exclude<SearchOrder['by'], 'kept'>, string>;

/** Pulls with these words are fetched and sorted; where there are more, an order's index is walked until enough are found. */
const SORTED_HITS_MAX = 1_500;

export interface SearchPage {
  readonly query: SearchQuery;
  readonly order: SearchOrder;
  readonly after?: string | undefined;
  readonly limit: number;
}

/** One page, and the key behind which the next begins; null where this was the last. Throws an ArchiveRefusal for a wrong key. */
export function searchPulls(
  connection: Connection,
  { query, order, after, limit }: SearchPage,
  sortedHitsMax = SORTED_HITS_MAX,
): { items: FoundPull[]; next: string | null } {
  const { by, descending } = order;
  const way = descending ? 'DESC' : 'ASC';
  const beyond = descending ? '<' : '>';
  if (by === 'kept') {
    const found = from(connection, query);
    const { id } = found;
    const key = after === undefined ? [] : [keptKey(after)];
    const items = allRows(
      connection,
      line,
      `SELECT ${LINE} FROM ${found.sql}${key.length > 0 ? ` AND ${id} ${beyond} ?` : ''} ORDER BY ${id} ${way} LIMIT ?`,
      ...found.values,
      ...key,
      limit,
    );
    return { items, next: items.length < limit ? null : String(items.at(-1)?.pullId ?? '') };
  }
  const sql = ORDER_SQL[by];
  const found = fromInOrder(connection, query, by, sortedHitsMax);
  const rowsOf = (condition: string, key: readonly (string | number)[], count: number) =>
    allRows(
      connection,
      z.object({ order_value: z.union([z.string(), z.number()]) }).loose(),
      `SELECT ${LINE}, ${sql} AS order_value FROM ${found.sql}${condition} LIMIT ?`,
      ...found.values,
      ...key,
      count,
    );
  const inOrder = `ORDER BY ${sql} ${way}, e.pull_id ${way}`;
  // The rest of the equal ones, then what is beyond: asked as one comparison, the index would be walked from its start.
  const rows = after === undefined ? rowsOf(` ${inOrder}`, [], limit) : [];
  if (after !== undefined) {
    const key = orderedKey(after);
    rows.push(...rowsOf(` AND ${sql} = ? AND e.pull_id ${beyond} ? ORDER BY e.pull_id ${way}`, key, limit));
    if (rows.length < limit)
      rows.push(...rowsOf(` AND ${sql} ${beyond} ? ${inOrder}`, [key[0]], limit - rows.length));
  }
  const items = rows.map((row) => line.parse(row));
  const last = rows.at(-1);
  return {
    items,
    next:
      last === undefined || rows.length < limit
        ? null
        : JSON.stringify([last.order_value, items.at(-1)?.pullId]),
  };
}

/** Numbers of all pulls found, in order. */
export function foundPullIds(
  connection: Connection,
  { query, order }: Pick<SearchPage, 'query' | 'order'>,
): Float64Array {
  const way = order.descending ? 'DESC' : 'ASC';
  const inOrder = order.by === 'kept' ? null : `${ORDER_SQL[order.by]} ${way}, e.pull_id ${way}`;
  const found = from(connection, query);
  const byEntry = (): Float64Array =>
    idsOf(
      connection,
      `${found.id} FROM ${found.sql} ORDER BY ${inOrder ?? `${found.id} ${way}`}`,
      found.values,
    );
  if (exactConditions(query).length > 0) return byEntry();
  // Words alone are answered by the text index and the order by its own: neither has to fetch the entries.
  const match = matchOf(connection, query);
  const fitting =
    match === null
      ? null
      : idsOf(connection, `rowid FROM search_text WHERE search_text MATCH ? ORDER BY rowid ${way}`, [match]);
  if (inOrder === null) return fitting ?? keptIds(connection, order.descending);
  if (fitting !== null && fitting.length <= SORTED_BY_ENTRY_MAX) return byEntry();
  const ordered = idsOf(connection, `e.pull_id FROM search_entry e ORDER BY ${inOrder}`, []);
  if (fitting === null) return ordered;
  const wanted = new Set(fitting);
  return ordered.filter((id) => wanted.has(id));
}

/** So many entries are fetched and sorted sooner than an order of all pulls is walked through. */
const SORTED_BY_ENTRY_MAX = 5_000;

function idsOf(connection: Connection, select: string, values: readonly (string | number)[]): Float64Array {
  const ids: unknown[] = statement(connection, `SELECT ${select} LIMIT ${String(FOUND_PULLS_MAX)}`)
    .pluck()
    .all(...values);
  return Float64Array.from(ids, Number);
}

/** Every pull that has an entry. Any index of the entries is smaller than they are, so the order is made here. */
function keptIds(connection: Connection, descending: boolean): Float64Array {
  const ids = idsOf(connection, 'pull_id FROM search_entry INDEXED BY search_entry_of_set', []).sort();
  return descending ? ids.reverse() : ids;
}

/** In the order asked; a pull that is not there is left out. */
export function linesOf(connection: Connection, pullIds: readonly number[]): FoundPull[] {
  return pullIds.flatMap((pullId) =>
    allRows(connection, line, `SELECT ${LINE} FROM search_entry e WHERE e.pull_id = ?`, pullId),
  );
}

/** FROM and WHERE of a query; `id` is the number of the pull, where the index itself gives it. */
function from(connection: Connection, query: SearchQuery): Condition & { readonly id: string } {
  const match = matchOf(connection, query);
  const exact = exactConditions(query);
  const rest = exact.map(({ sql }) => ` AND ${sql}`).join('');
  const values = exact.flatMap((one) => one.values);
  return match === null
    ? { sql: `search_entry e WHERE 1${rest}`, values, id: 'e.pull_id' }
    : {
        sql: `search_text t CROSS JOIN search_entry e ON e.pull_id = t.rowid WHERE search_text MATCH ?${rest}`,
        values: [match, ...values],
        id: 't.rowid',
      };
}

/**
 * The same for an order by a column. Fetching and sorting all pulls that have a common word takes several times as long
 * as reading which they are, and asking the text index for one pull after the other far longer still.
 */
function fromInOrder(
  connection: Connection,
  query: SearchQuery,
  by: keyof typeof ORDER_SQL,
  sortedHitsMax: number,
): Condition {
  const match = matchOf(connection, query);
  if (match === null) return from(connection, query);
  const hits = countOf(
    connection,
    'SELECT count(*) AS n FROM (SELECT 1 FROM search_text WHERE search_text MATCH ? LIMIT ?)',
    match,
    sortedHitsMax + 1,
  );
  if (hits <= sortedHitsMax) return from(connection, query);
  const exact = exactConditions(query);
  return {
    sql: `search_entry e INDEXED BY search_entry_${by}
      WHERE e.pull_id IN (SELECT rowid FROM search_text WHERE search_text MATCH ?)${exact.map(({ sql }) => ` AND ${sql}`).join('')}`,
    values: [match, ...exact.flatMap((one) => one.values)],
  };
}

/** Within the step that a bound lies in the value itself decides. */
function exactConditions({ strengthMinMpa, strengthMaxMpa }: SearchQuery): Condition[] {
  return [
    ...(strengthMinMpa === undefined ? [] : [{ sql: 'e.strength_mpa >= ?', values: [strengthMinMpa] }]),
    ...(strengthMaxMpa === undefined ? [] : [{ sql: 'e.strength_mpa <= ?', values: [strengthMaxMpa] }]),
  ];
}

function matchOf(connection: Connection, query: SearchQuery): string | null {
  const parts = [
    query.text === undefined ? null : wordsQuery(query.text),
    ...sectionPlaceAndRules(connection, query),
    inColumn('base_metal', query.baseMetal),
    inColumn('filler', query.filler),
    typeof query.set === 'number' ? quoted(facetWord('set', query.set)) : inColumn('set_names', query.set),
    facet('verdict', query.verdict === 'not-judged' ? 'none' : query.verdict),
    facet('interrupted', flag(query.interrupted)),
    facet('void', flag(query.voided)),
    facet('questionable', query.questionable === true ? 1 : undefined),
    range('day', dayOf(query.fromDay, 0), dayOf(query.toDay, DAY_MAX), [query.fromDay, query.toDay]),
    range(
      'mpa',
      strengthStep(query.strengthMinMpa ?? 0),
      strengthStep(query.strengthMaxMpa ?? STRENGTH_MPA_MAX),
      [query.strengthMinMpa, query.strengthMaxMpa],
    ),
  ].filter((part) => part !== null);
  const wanted = parts.length === 0 ? null : parts.map((part) => `(${part})`).join(' AND ');
  if (query.questionable !== false) return wanted;
  // "Not" needs something to be taken from: every pull has one of the two.
  const all = wanted ?? `${quoted(facetWord('void', 0))} OR ${quoted(facetWord('void', 1))}`;
  return `(${all}) NOT ${quoted(facetWord('questionable', 1))}`;
}

/** Two or three of them as one word; one alone, or rules that fit too many texts, by its own. */
function sectionPlaceAndRules(
  connection: Connection,
  { geometry, broke: place, rules }: SearchQuery,
): (string | null)[] {
  const match = inColumn('rules', rules);
  const numbers = match === null ? null : fittingRules(connection, match);
  if (numbers?.length === 0) return [quoted(facetWord('nothing', 0))];
  const together =
    numbers === null
      ? [togetherWord({ geometry, place })]
      : numbers.map((number) => togetherWord({ geometry, place, rules: number }));
  const words = together.filter((word) => word !== null);
  if (words.length === 0) return [match, facet('geometry', geometry), facet('place', place)];
  return [numbers === null ? match : null, words.map(quoted).join(' OR ')];
}

const quoted = (word: string): string => `"${word}"`;

const facet = (kind: string, value: string | number | undefined): string | null =>
  value === undefined ? null : quoted(facetWord(kind, value));

const flag = (value: boolean | undefined): number | undefined =>
  value === undefined ? undefined : Number(value);

/** A condition that holds no letter and no digit finds nothing rather than everything. */
function inColumn(column: string, typed: string | undefined): string | null {
  if (typed === undefined) return null;
  return `${column} : (${wordsQuery(typed) ?? quoted(facetWord('nothing', 0))})`;
}

function range(kind: string, low: number, high: number, given: readonly unknown[]): string | null {
  return given.every((one) => one === undefined)
    ? null
    : rangeWords(kind, low, high).map(quoted).join(' OR ');
}

const dayOf = (day: string | undefined, otherwise: number): number =>
  day === undefined ? otherwise : Math.max(0, dayNumber(Date.parse(`${day}T00:00:00Z`), 0));

const WRONG_KEY = () =>
  new ArchiveRefusal(
    'search-key-wrong',
    'The key after which the page is to begin is none that a page ended with; take the "next" of the page before.',
    'after',
  );

function keptKey(after: string): number {
  if (!/^\d{1,15}$/.test(after)) throw WRONG_KEY();
  return Number(after);
}

const orderedKeyForm = z.tuple([z.union([z.string(), z.number()]), z.number().int()]);

function orderedKey(after: string): [string | number, number] {
  try {
    return orderedKeyForm.parse(JSON.parse(after));
  } catch {
    throw WRONG_KEY();
  }
}
