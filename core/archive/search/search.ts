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
import { ArchiveRefusal } from '../archive-fault.ts';
import { type Connection, allRows, countOf, sqlInteger, statement } from '../sql.ts';
import { type Condition, type SqlCondition, asMatch, asTest, conditionOf } from './condition.ts';

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

/** Columns of `search_order`, each with an index. */
const ORDER_COLUMN = {
  started: 'started',
  specimen: 'specimen',
  set: 'set_name',
  operator: 'operator',
  peak: 'peak',
  strength: 'strength',
} as const satisfies Record<Exclude<SearchOrder['by'], 'kept'>, string>;

export interface SearchPage {
  readonly query: SearchQuery;
  readonly order: SearchOrder;
  readonly after?: string | undefined;
  readonly limit: number;
}

/** How an order by a column is gone about; anything finds the same. */
export interface ColumnOrderLimits {
  /** Pulls that are found by no more are all looked up and sorted. */
  readonly lookedUpMax: number;
  /** Of what more have, the first few of the order are tested, then more; then all are looked up after all. */
  readonly tested: readonly number[];
}

// With 100 000 pulls either takes about as long for what so many have.
const COLUMN_ORDER: ColumnOrderLimits = { lookedUpMax: 2_500, tested: [250, 1_250, 3_000] };

/** One page, and the key behind which the next begins; null where this was the last. Throws an ArchiveRefusal for a wrong key. */
export function searchPulls(
  connection: Connection,
  page: SearchPage,
  columnOrder = COLUMN_ORDER,
): { items: FoundPull[]; next: string | null } {
  const { query, order, after, limit } = page;
  if (order.by !== 'kept')
    return byColumn(connection, { ...page, order: { ...order, by: order.by } }, columnOrder);
  const found = from(query, conditionOf(connection, query));
  const { id } = found;
  const key = after === undefined ? [] : [keptKey(after)];
  const items = allRows(
    connection,
    line,
    `SELECT ${LINE} FROM ${found.sql}${key.length > 0 ? ` AND ${id} ${beyond(order)} ?` : ''} ORDER BY ${id} ${way(order)} LIMIT ?`,
    ...found.values,
    ...key,
    limit,
  );
  return { items, next: items.length < limit ? null : String(items.at(-1)?.pullId ?? '') };
}

const way = ({ descending }: SearchOrder): string => (descending ? 'DESC' : 'ASC');
const beyond = ({ descending }: SearchOrder): string => (descending ? '<' : '>');

type Value = string | number;
type OrderKey = readonly [value: Value, pullId: number];
interface ColumnPage extends SearchPage {
  readonly order: SearchOrder & { readonly by: keyof typeof ORDER_COLUMN };
}

function byColumn(
  connection: Connection,
  page: ColumnPage,
  { lookedUpMax, tested }: ColumnOrderLimits,
): { items: FoundPull[]; next: string | null } {
  const { query, limit } = page;
  const key = page.after === undefined ? null : orderedKey(page.after);
  const condition = conditionOf(connection, query);
  const answer = (rows: readonly OrderedLine[]): { items: FoundPull[]; next: string | null } => {
    const items = rows.map((row) => line.parse(row));
    const last = rows.at(-1);
    return {
      items,
      next:
        last === undefined || rows.length < limit
          ? null
          : JSON.stringify([last.order_value, items.at(-1)?.pullId]),
    };
  };
  if (condition === null) return answer(firstTested(connection, page, key, limit, EVERYTHING));
  const hits = countOf(
    connection,
    'SELECT count(*) AS n FROM (SELECT 1 FROM search_text WHERE search_text MATCH ? LIMIT ?)',
    asMatch(condition),
    lookedUpMax + 1,
  );
  if (hits > lookedUpMax) {
    const test = both([asTest(condition), ...exactConditions(query)]);
    for (const count of tested) {
      const rows = firstTested(connection, page, key, count, test);
      if (rows.length === limit) return answer(rows);
    }
  }
  return answer(lookedUp(connection, page, condition, key));
}

const EVERYTHING: SqlCondition = { sql: '1', values: [] };

const both = (conditions: readonly SqlCondition[]): SqlCondition => ({
  sql: conditions.map(({ sql }) => sql).join(' AND '),
  values: conditions.flatMap(({ values }) => values),
});

const orderedLine = z.object({ order_value: z.union([z.string(), z.number()]) }).loose();
type OrderedLine = z.output<typeof orderedLine>;

/** Of the first `count` entries of an order behind a key, those that pass the test. */
function firstTested(
  connection: Connection,
  { query, order, limit }: ColumnPage,
  key: OrderKey | null,
  count: number,
  test: SqlCondition,
): OrderedLine[] {
  const [column, direction] = [ORDER_COLUMN[order.by], way(order)];
  // A range of the very column that is sorted by is where the walk begins.
  const range = both([EVERYTHING, ...(order.by === 'strength' ? exactConditions(query, column) : [])]);
  const first = (condition: string): string =>
    `SELECT ${column} AS order_value, pull_id AS id FROM search_order INDEXED BY search_order_by_${column}
     WHERE ${condition} AND ${range.sql} ORDER BY ${column} ${direction}, pull_id ${direction} LIMIT ${String(count)}`;
  const inOrder = `ORDER BY order_value ${direction}, id ${direction}`;
  // The rest of the equal ones, then what is beyond: asked as one comparison, the index would be walked from its start.
  const entries =
    key === null
      ? first('1')
      : `SELECT * FROM (SELECT * FROM (${first(`${column} = ? AND pull_id ${beyond(order)} ?`)})
         UNION ALL SELECT * FROM (${first(`${column} ${beyond(order)} ?`)})) ${inOrder} LIMIT ${String(count)}`;
  // Prepared anew: its text depends on how many words were typed.
  return connection
    .prepare(
      withLines(
        `SELECT order_value, id FROM (${entries}) CROSS JOIN search_entry e ON e.pull_id = id
         WHERE ${test.sql} ${inOrder} LIMIT ${String(limit)}`,
        order,
      ),
    )
    .all(
      ...(key === null ? range.values : [...key, ...range.values, key[0], ...range.values]),
      ...test.values,
    )
    .map((row) => orderedLine.parse(row));
}

/** Lines of the pulls that a query gives as `order_value` and `id`. */
const withLines = (found: string, order: SearchOrder): string =>
  `SELECT ${LINE}, order_value FROM (${found}) CROSS JOIN search_entry e ON e.pull_id = id
   ORDER BY order_value ${way(order)}, id ${way(order)}`;

/** All pulls that the text index finds, sorted. */
function lookedUp(
  connection: Connection,
  { query, order, limit }: ColumnPage,
  condition: Condition,
  key: OrderKey | null,
): OrderedLine[] {
  const [column, direction] = [`o.${ORDER_COLUMN[order.by]}`, way(order)];
  const found = from(query, condition, 'o');
  return allRows(
    connection,
    orderedLine,
    withLines(
      `SELECT ${column} AS order_value, o.pull_id AS id FROM ${found.sql}
       ${key === null ? '' : `AND (${column} ${beyond(order)} ? OR (${column} = ? AND o.pull_id ${beyond(order)} ?))`}
       ORDER BY ${column} ${direction}, o.pull_id ${direction} LIMIT ?`,
      order,
    ),
    ...found.values,
    ...(key === null ? [] : [key[0], ...key]),
    limit,
  );
}

/** Numbers of all pulls found, in order. */
export function foundPullIds(
  connection: Connection,
  { query, order }: Pick<SearchPage, 'query' | 'order'>,
): Float64Array {
  const direction = way(order);
  const column = order.by === 'kept' ? null : ORDER_COLUMN[order.by];
  const condition = conditionOf(connection, query);
  const found = from(query, condition, 'o');
  const lookUp = (): Float64Array =>
    idsOf(
      connection,
      `${found.id} AS id FROM ${found.sql}
       ORDER BY ${column === null ? '' : `o.${column} ${direction}, `}${found.id} ${direction}`,
      found.values,
    );
  if (exactConditions(query).length > 0) return lookUp();
  // Words alone are answered by the text index and the order by its own.
  const fitting =
    condition === null
      ? null
      : idsOf(
          connection,
          `rowid AS id FROM search_text WHERE search_text MATCH ? ORDER BY rowid ${direction}`,
          [asMatch(condition)],
        );
  if (column === null) return fitting ?? keptIds(connection, order.descending);
  if (fitting !== null && fitting.length <= LOOKED_UP_MAX) return lookUp();
  const ordered = idsOf(
    connection,
    `pull_id AS id FROM search_order ORDER BY ${column} ${direction}, pull_id ${direction}`,
    [],
  );
  if (fitting === null) return ordered;
  const wanted = new Uint8Array(1 + fitting.reduce((most, id) => Math.max(most, id), 0));
  for (const id of fitting) wanted[id] = 1;
  return ordered.filter((id) => wanted[id] === 1);
}

/** So many pulls are looked up and sorted sooner than an order of all pulls is walked through. */
const LOOKED_UP_MAX = 10_000;

/** As one text: handed over as a row each, they would take three times as long. */
function idsOf(connection: Connection, select: string, values: readonly (string | number)[]): Float64Array {
  const joined = z
    .string()
    .nullish()
    .parse(
      statement(
        connection,
        `SELECT group_concat(id) FROM (SELECT ${select} LIMIT ${String(FOUND_PULLS_MAX)})`,
      )
        .pluck()
        .get(...values),
    );
  const ids: unknown = JSON.parse(`[${joined ?? ''}]`);
  return Float64Array.from(Array.isArray(ids) ? ids : [], Number);
}

/** Every pull that has an entry. Any index of the entries is smaller than they are, so the order is made here. */
function keptIds(connection: Connection, descending: boolean): Float64Array {
  const ids = idsOf(connection, 'pull_id AS id FROM search_entry INDEXED BY search_entry_of_set', []).sort();
  return descending ? ids.reverse() : ids;
}

/** In the order asked; a pull that is not there is left out. */
export function linesOf(connection: Connection, pullIds: readonly number[]): FoundPull[] {
  return pullIds.flatMap((pullId) =>
    allRows(connection, line, `SELECT ${LINE} FROM search_entry e WHERE e.pull_id = ?`, pullId),
  );
}

/** FROM and WHERE of a query over entries `e` or orders `o`; `id` is the number of the pull, where the index itself gives it. */
function from(
  query: SearchQuery,
  condition: Condition | null,
  over: 'e' | 'o' = 'e',
): SqlCondition & { readonly id: string } {
  const table = over === 'e' ? 'search_entry e' : 'search_order o';
  const exact = both([EVERYTHING, ...exactConditions(query, over === 'e' ? 'e.strength_mpa' : 'o.strength')]);
  return condition === null
    ? { sql: `${table} WHERE ${exact.sql}`, values: exact.values, id: `${over}.pull_id` }
    : {
        sql: `search_text t CROSS JOIN ${table} ON ${over}.pull_id = t.rowid WHERE search_text MATCH ? AND ${exact.sql}`,
        values: [asMatch(condition), ...exact.values],
        id: 't.rowid',
      };
}

/** Within the step that a bound lies in the value itself decides. Pulls without a strength have no step. */
function exactConditions(
  { strengthMinMpa, strengthMaxMpa }: SearchQuery,
  strength = 'e.strength_mpa',
): SqlCondition[] {
  return [
    ...(strengthMinMpa === undefined ? [] : [{ sql: `${strength} >= ?`, values: [strengthMinMpa] }]),
    ...(strengthMaxMpa === undefined ? [] : [{ sql: `${strength} <= ?`, values: [strengthMaxMpa] }]),
  ];
}

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
