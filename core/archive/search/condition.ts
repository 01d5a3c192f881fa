/**
 * What a search asks for: words, which the text index finds, and filters, which the values kept beside it answer. A pull
 * is found where all of them hold.
 */
import type { SearchQuery } from '../../contract/search-requests.ts';
import { dayNumber } from './entry.ts';
import { type SoughtWords, betweenSpaces, setWord, soughtWords } from './tokens.ts';

/** Columns of the text index; in the last four a filter looks by itself. */
export const TEXT_COLUMNS = ['words', 'set_names', 'rules', 'base_metal', 'filler'] as const;
export type TextColumn = (typeof TEXT_COLUMNS)[number];
/** What is written of one pull: words as the index folds them, each between spaces. */
export type Written = Readonly<Record<TextColumn, string>>;

/** Looked for in every column, or in one. */
export interface Sought extends SoughtWords {
  readonly column?: TextColumn;
}

export interface Filters {
  readonly geometry?: string | undefined;
  readonly place?: string | undefined;
  /** Null: not judged. */
  readonly verdict?: string | null | undefined;
  readonly interrupted?: boolean | undefined;
  readonly voided?: boolean | undefined;
  readonly questionable?: boolean | undefined;
  /** Days since 1970 by the clock of the place, both included. */
  readonly fromDay?: number | undefined;
  readonly toDay?: number | undefined;
  /** Both included; a pull without a strength is in no range. */
  readonly strengthMinMpa?: number | undefined;
  readonly strengthMaxMpa?: number | undefined;
}

export interface Condition {
  readonly words: readonly Sought[];
  readonly filters: Filters;
}

export interface SqlCondition {
  readonly sql: string;
  readonly values: readonly (string | number)[];
}

export function conditionOf(query: SearchQuery): Condition {
  const { verdict, fromDay, toDay, strengthMinMpa, strengthMaxMpa } = query;
  const hasStrengths = strengthMinMpa !== undefined || strengthMaxMpa !== undefined;
  return {
    words: [
      ...(query.text === undefined ? [] : wordsIn(query.text)),
      ...inColumn('rules', query.rules),
      ...inColumn('base_metal', query.baseMetal),
      ...inColumn('filler', query.filler),
      ...(typeof query.set === 'number'
        ? [{ words: [setWord(query.set)], isBeginning: false, column: 'set_names' } as const]
        : inColumn('set_names', query.set)),
    ],
    filters: {
      geometry: query.geometry,
      place: query.broke,
      verdict: verdict === 'not-judged' ? null : verdict,
      interrupted: query.interrupted,
      voided: query.voided,
      questionable: query.questionable,
      fromDay: fromDay === undefined ? undefined : dayOf(fromDay),
      toDay: toDay === undefined ? undefined : dayOf(toDay),
      strengthMinMpa: hasStrengths ? (strengthMinMpa ?? 0) : undefined,
      strengthMaxMpa,
    },
  };
}

const dayOf = (day: string): number => dayNumber(Date.parse(`${day}T00:00:00Z`), 0);

/** A word that no entry has. */
const NOTHING: Sought = { words: [setWord(0)], isBeginning: false, column: 'set_names' };

/** None where nothing in it is a word; words that the index knows none of find nothing. */
function wordsIn(typed: string, column?: TextColumn): readonly Sought[] {
  const sought = soughtWords(typed);
  if (sought === null) return [];
  if (sought.length === 0) return [NOTHING];
  return sought.map((one) => ({ ...one, ...(column === undefined ? {} : { column }) }));
}

/** A condition that holds no letter and no digit finds nothing rather than everything. */
function inColumn(column: TextColumn, typed: string | undefined): readonly Sought[] {
  if (typed === undefined) return [];
  const words = wordsIn(typed, column);
  return words.length === 0 ? [NOTHING] : words;
}

/** As a query of the text index. Every word is quoted: no sign in it is syntax. */
export function asMatch(sought: readonly Sought[]): string {
  return sought
    .map(({ words, isBeginning, column }) => {
      const phrase = `"${words.join(' ')}"${isBeginning ? ' *' : ''}`;
      return column === undefined ? `(${phrase})` : `(${column} : ${phrase})`;
    })
    .join(' AND ');
}

/** Whether what is written of a pull has it; the text index finds the same pulls. */
export function isWrittenIn({ words, isBeginning, column }: Sought, written: Written): boolean {
  const between = betweenSpaces(words);
  const text = isBeginning ? between.slice(0, -1) : between;
  return (column === undefined ? TEXT_COLUMNS : [column]).some((one) => written[one].includes(text));
}

/** As conditions on the values `v`. */
export function asSql(filters: Filters): SqlCondition[] {
  const flag = (value: boolean | undefined): number | undefined =>
    value === undefined ? undefined : Number(value);
  return [
    ...(filters.verdict === null ? [{ sql: 'v.verdict IS NULL', values: [] }] : []),
    ...(
      [
        ['v.verdict =', filters.verdict ?? undefined],
        ['v.geometry =', filters.geometry],
        ['v.place =', filters.place],
        ['v.interrupted =', flag(filters.interrupted)],
        ['v.voided =', flag(filters.voided)],
        ['v.questionable =', flag(filters.questionable)],
        ['v.day >=', filters.fromDay],
        ['v.day <=', filters.toDay],
        ['v.strength >=', filters.strengthMinMpa],
        ['v.strength <=', filters.strengthMaxMpa],
      ] as const
    ).flatMap(([sql, value]) => (value === undefined ? [] : [{ sql: `${sql} ?`, values: [value] }])),
  ];
}
