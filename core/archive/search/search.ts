/**
 * Finds pulls: in memory where the program holds what is needed for it (held-search.ts), otherwise by asking the database.
 * The text index answers by rowid, which is the number of the pull, and a page begins behind a key, never at an offset.
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
import { type Connection, allRows, sqlInteger } from '../sql.ts';
import { type SqlCondition, asMatch, asSql, conditionOf } from './condition.ts';
import { type OrderKey, columnOf, keyText } from './found-order.ts';
import { type HeldAsked, heldPage } from './held-search.ts';
import { asOneText, pullIdsOf } from './held-words.ts';
import { NONE, noneSql } from './tables.ts';

const lineRow = z.object({
  pull_id: sqlInteger,
  specimen_id: sqlInteger,
  specimen_name: z.string(),
  started_wall_ms: sqlInteger,
  started: z.string(),
  pulled_on: z.string().nullable(),
  dated_wall_ms: sqlInteger,
  set_id: sqlInteger.nullable(),
  set_name: z.string().nullable(),
  rule_pack: z.string().nullable(),
  rule_pack_name: z.string().nullable(),
  shown_base_metal: z.string().nullable(),
  shown_filler: z.string().nullable(),
  heat: z.string().nullable(),
  filler_lot: z.string().nullable(),
  welder: z.string().nullable(),
  geometry: z.string(),
  measured_in: foundPull.unwrap().shape.measuredIn,
  place: z.string().nullable(),
  operator: z.string().nullable(),
  origin: z.string(),
  ended: sqlInteger,
  reading_count: sqlInteger,
  peak_force_n: z.number().nullable(),
  strength_mpa: z.number().nullable(),
  yield_mpa: z.number().nullable(),
  elongation_percent: z.number().nullable(),
  interrupted: sqlInteger,
  void_reason: z.string().nullable(),
  verdict: foundPull.unwrap().shape.verdict,
  questionable: sqlInteger.nullable(),
});

/** As the contract has it: what the database can't hold itself is made of its numbers. */
const line = lineRow.transform((row): FoundPull => ({
  pullId: row.pull_id,
  specimenId: row.specimen_id,
  specimenName: row.specimen_name,
  startedWallMs: row.started_wall_ms,
  started: row.started,
  pulledOn: row.pulled_on,
  datedWallMs: row.dated_wall_ms,
  setId: row.set_id,
  setName: row.set_name,
  rulePack: row.rule_pack,
  rulePackName: row.rule_pack_name,
  baseMetal: row.shown_base_metal,
  filler: row.shown_filler,
  heat: row.heat,
  fillerLot: row.filler_lot,
  welder: row.welder,
  geometry: row.geometry,
  measuredIn: row.measured_in,
  place: row.place,
  operator: row.operator,
  origin: row.origin,
  ended: row.ended === 1,
  readingCount: row.reading_count,
  peakForceN: row.peak_force_n,
  strengthMpa: row.strength_mpa,
  yieldMpa: row.yield_mpa,
  elongationPercent: row.elongation_percent,
  interrupted: row.interrupted === 1,
  voidReason: row.void_reason,
  verdict: row.verdict,
  questionable: row.questionable === 1,
  verdictKnown: row.set_id === null || row.ended === 0 || row.questionable !== null,
}));

const LINE = Object.keys(lineRow.shape)
  .map((column) => `e.${column}`)
  .join(', ');

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
): { items: FoundPull[]; next: string | null } {
  const key = after === undefined ? null : order.by === 'kept' ? keptKey(after) : orderedKey(after);
  const ids = idsFound(connection, { query, order, limit }, key);
  const items = linesTogether(connection, ids);
  const last = items.at(-1);
  return { items, next: last === undefined || ids.length < limit ? null : keyText(last, order.by) };
}

/** Numbers of all pulls found, in order. */
export function foundPullIds(
  connection: Connection,
  { query, order }: Pick<SearchPage, 'query' | 'order'>,
): Float64Array {
  return Float64Array.from(idsFound(connection, { query, order, limit: FOUND_PULLS_MAX }, null));
}

function idsFound(
  connection: Connection,
  { query, order, limit }: SearchPage,
  after: OrderKey | null,
): readonly number[] {
  const asked: HeldAsked = {
    condition: conditionOf(query),
    column: columnOf(order.by),
    descending: order.descending,
    after,
    limit,
  };
  return heldPage(connection, asked) ?? askedIds(connection, asked);
}

/** The same from the database: those that have something in the column, then, where there is room left, those without. */
function askedIds(connection: Connection, asked: HeldAsked): readonly number[] {
  const { column, after, limit } = asked;
  const none = column === null ? null : noneSql(column);
  if (column === null || none === null) return askedStretch(connection, asked, []);
  const isBehind = after !== null && after[0] === NONE[column];
  const filled = isBehind
    ? []
    : askedStretch(connection, asked, [{ sql: `v.${column} > ${none}`, values: [] }]);
  if (filled.length === limit) return filled;
  return [
    ...filled,
    ...askedStretch(
      connection,
      { ...asked, column: null, after: isBehind ? after : null, limit: limit - filled.length },
      [{ sql: `v.${column} = ${none}`, values: [] }],
    ),
  ];
}

function askedStretch(
  connection: Connection,
  { condition, column, descending, after, limit }: HeldAsked,
  among: readonly SqlCondition[],
): readonly number[] {
  const { words, filters } = condition;
  const [way, beyond] = descending ? ['DESC', '<'] : ['ASC', '>'];
  // By the number that the text index itself gives: it is walked no further than to the end of the page.
  const id = words.length > 0 ? 't.rowid' : 'v.pull_id';
  const conditions: SqlCondition[] = [
    ...(words.length > 0 ? [{ sql: 'search_text MATCH ?', values: [asMatch(words)] }] : []),
    ...among,
    ...asSql(filters),
    ...(after === null
      ? []
      : column === null
        ? [{ sql: `${id} ${beyond} ?`, values: [after[1]] }]
        : [{ sql: `(v.${column}, v.pull_id) ${beyond} (?, ?)`, values: after }]),
  ];
  const where = conditions.length === 0 ? '' : `WHERE ${conditions.map(({ sql }) => sql).join(' AND ')}`;
  const sql = `SELECT ${id} AS id
    FROM ${words.length > 0 ? 'search_text t CROSS JOIN search_value v ON v.pull_id = t.rowid' : 'search_value v'}
    ${where} ORDER BY ${column === null ? '' : `v.${column} ${way}, `}${id} ${way} LIMIT ?`;
  // Prepared anew: its text depends on what was asked.
  return pullIdsOf(connection.prepare(asOneText(sql)), [
    ...conditions.flatMap(({ values }) => values),
    limit,
  ]);
}

/** In the order asked; a pull that is not there is left out. */
export function linesOf(connection: Connection, pullIds: readonly number[]): FoundPull[] {
  return pullIds.flatMap((pullId) =>
    allRows(connection, line, `SELECT ${LINE} FROM search_entry e WHERE e.pull_id = ?`, pullId),
  );
}

/** The same of many, in one question. */
function linesTogether(connection: Connection, pullIds: readonly number[]): FoundPull[] {
  const lines = allRows(
    connection,
    line,
    `SELECT ${LINE} FROM json_each(?) asked CROSS JOIN search_entry e ON e.pull_id = asked.value`,
    JSON.stringify(pullIds),
  );
  const of = new Map(lines.map((one) => [one.pullId, one]));
  return pullIds.flatMap((pullId) => of.get(pullId) ?? []);
}

const WRONG_KEY = () =>
  new ArchiveRefusal(
    'search-key-wrong',
    'The key after which the page is to begin is none that a page ended with; take the "next" of the page before.',
    'after',
  );

function keptKey(after: string): OrderKey {
  if (!/^\d{1,15}$/.test(after)) throw WRONG_KEY();
  return [Number(after), Number(after)];
}

const orderedKeyForm = z.tuple([z.union([z.string(), z.number()]), z.number().int()]);

function orderedKey(after: string): OrderKey {
  try {
    return orderedKeyForm.parse(JSON.parse(after));
  } catch {
    throw WRONG_KEY();
  }
}
