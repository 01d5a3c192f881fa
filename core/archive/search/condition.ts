/**
 * What a search asks of an entry, said once and put two ways: as a query of the text index, and as a test of one entry by
 * the words that are kept beside it. Both find the same pulls.
 */
import type { SearchQuery } from '../../contract/search-requests.ts';
import { STRENGTH_MPA_MAX } from '../../limits.ts';
import type { Connection } from '../sql.ts';
import { dayNumber, strengthStep } from './entry.ts';
import { fittingRules, togetherWord } from './together.ts';
import { type SoughtWords, betweenSpaces, facetWord, rangeWords, soughtWords } from './tokens.ts';

/** The last day that a range without an end goes to: 2199-12-31. */
const DAY_MAX = 84_005;

/** Columns of the text index in which a filter looks by itself. */
type Column = 'set_names' | 'rules' | 'base_metal' | 'filler';
const TEXT_COLUMNS = ['words', 'set_names', 'rules', 'base_metal', 'filler'] as const;

export type Condition =
  | { readonly kind: 'words'; readonly sought: SoughtWords; readonly column?: Column }
  | { readonly kind: 'facet'; readonly word: string }
  | { readonly kind: 'all' | 'any'; readonly of: readonly Condition[] }
  | { readonly kind: 'but'; readonly of: Condition; readonly not: Condition };

export interface SqlCondition {
  readonly sql: string;
  readonly values: readonly (string | number)[];
}

/** As a query of the text index. Every word is quoted: no sign in it is syntax. */
export function asMatch(condition: Condition): string {
  if (condition.kind === 'facet') return quoted(condition.word);
  if (condition.kind === 'words') return wordsMatch(condition.sought, condition.column);
  if (condition.kind === 'but') return `(${asMatch(condition.of)}) NOT (${asMatch(condition.not)})`;
  return condition.of.map((one) => `(${asMatch(one)})`).join(condition.kind === 'all' ? ' AND ' : ' OR ');
}

function wordsMatch({ words, isBeginning }: SoughtWords, column?: Column): string {
  const phrase = `${quoted(words.join(' '))}${isBeginning ? ' *' : ''}`;
  return column === undefined ? phrase : `${column} : ${phrase}`;
}

/** As a test of the entry `e`. */
export function asTest(condition: Condition): SqlCondition {
  if (condition.kind === 'facet') return holds(['facets'], betweenSpaces([condition.word]));
  if (condition.kind === 'words') {
    const { words, isBeginning } = condition.sought;
    const between = betweenSpaces(words);
    return holds(
      condition.column === undefined ? TEXT_COLUMNS : [condition.column],
      isBeginning ? between.slice(0, -1) : between,
    );
  }
  if (condition.kind === 'but') {
    const [of, not] = [asTest(condition.of), asTest(condition.not)];
    return { sql: `((${of.sql}) AND NOT (${not.sql}))`, values: [...of.values, ...not.values] };
  }
  const parts = condition.of.map(asTest);
  return {
    sql: `(${parts.map(({ sql }) => sql).join(condition.kind === 'all' ? ' AND ' : ' OR ')})`,
    values: parts.flatMap(({ values }) => values),
  };
}

const holds = (columns: readonly string[], text: string): SqlCondition => ({
  sql: `(${columns.map((column) => `instr(e.${column}, ?) > 0`).join(' OR ')})`,
  values: columns.map(() => text),
});

/** Null where everything is found. */
export function conditionOf(connection: Connection, query: SearchQuery): Condition | null {
  const parts = [
    query.text === undefined ? null : wordsIn(query.text),
    ...sectionPlaceAndRules(connection, query),
    inColumn('base_metal', query.baseMetal),
    inColumn('filler', query.filler),
    typeof query.set === 'number'
      ? ({ kind: 'facet', word: facetWord('set', query.set) } as const)
      : inColumn('set_names', query.set),
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
  const wanted: Condition | null = parts.length === 0 ? null : { kind: 'all', of: parts };
  if (query.questionable !== false) return wanted;
  // "Not" needs something to be taken from: every pull has one of the two.
  const everything: Condition = {
    kind: 'any',
    of: [0, 1].map((value) => ({ kind: 'facet', word: facetWord('void', value) })),
  };
  return {
    kind: 'but',
    of: wanted ?? everything,
    not: { kind: 'facet', word: facetWord('questionable', 1) },
  };
}

/** Two or three of them as one word; one alone, or rules that fit too many texts, by its own. */
function sectionPlaceAndRules(
  connection: Connection,
  { geometry, broke: place, rules }: SearchQuery,
): (Condition | null)[] {
  const inRules = inColumn('rules', rules);
  const numbers = inRules === null ? null : fittingRules(connection, asMatch(inRules));
  if (numbers?.length === 0) return [NOTHING];
  const together =
    numbers === null
      ? [togetherWord({ geometry, place })]
      : numbers.map((number) => togetherWord({ geometry, place, rules: number }));
  const words = together.filter((word) => word !== null);
  if (words.length === 0) return [inRules, facet('geometry', geometry), facet('place', place)];
  return [
    numbers === null ? inRules : null,
    { kind: 'any', of: words.map((word) => ({ kind: 'facet', word })) },
  ];
}

const quoted = (word: string): string => `"${word}"`;

/** A word that no entry has. */
const NOTHING: Condition = { kind: 'facet', word: facetWord('nothing', 0) };

const facet = (kind: string, value: string | number | undefined): Condition | null =>
  value === undefined ? null : { kind: 'facet', word: facetWord(kind, value) };

const flag = (value: boolean | undefined): number | undefined =>
  value === undefined ? undefined : Number(value);

/** Null where nothing in it is a word; words that the index knows none of find nothing. */
function wordsIn(typed: string, column?: Column): Condition | null {
  const words = soughtWords(typed);
  if (words === null) return null;
  if (words.length === 0) return NOTHING;
  return {
    kind: 'all',
    of: words.map((sought) => ({ kind: 'words', sought, ...(column === undefined ? {} : { column }) })),
  };
}

/** A condition that holds no letter and no digit finds nothing rather than everything. */
const inColumn = (column: Column, typed: string | undefined): Condition | null =>
  typed === undefined ? null : (wordsIn(typed, column) ?? NOTHING);

function range(kind: string, low: number, high: number, given: readonly unknown[]): Condition | null {
  if (given.every((one) => one === undefined)) return null;
  const words = rangeWords(kind, low, high);
  // A range that ends before it begins.
  return words.length === 0 ? NOTHING : { kind: 'any', of: words.map((word) => ({ kind: 'facet', word })) };
}

const dayOf = (day: string | undefined, otherwise: number): number =>
  day === undefined ? otherwise : Math.max(0, dayNumber(Date.parse(`${day}T00:00:00Z`), 0));
