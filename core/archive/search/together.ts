/**
 * Words for filters that are often set together and of which each alone finds a large part of all pulls: section, place of
 * fracture, rules. Two long lists that have nothing in common would be walked through to their ends.
 */
import { z } from 'zod';
import { type Connection, allRows, insert, oneRow, sqlInteger } from '../sql.ts';
import { facetWord } from './tokens.ts';

/** More rule texts that fit what was typed are looked for by their own words. */
const RULES_MAX = 30;

const row = z.object({ search_rules_id: sqlInteger });

export interface Together {
  readonly geometry?: string | undefined;
  readonly place?: string | undefined;
  /** The number of a text of the column "rules". */
  readonly rules?: number | undefined;
}

/** Null where fewer than two are given. */
export function togetherWord({ geometry, place, rules }: Together): string | null {
  const given = Object.entries({ geometry, place, rules }).filter(([, value]) => value !== undefined);
  if (given.length < 2) return null;
  const kind = given.map(([name]) => name[0]).join('');
  return facetWord(`both${kind}x`, given.map(([, value]) => String(value).replaceAll('-', '')).join('x'));
}

/** Of one entry, those without rules: they follow from its rows alone. */
export const wordsWithoutRules = ({ geometry, place }: Together): string[] =>
  [togetherWord({ geometry, place })].filter((word) => word !== null);

/** Of one entry, those with rules; their number is given when a text is first met. */
export function wordsWithRules(
  connection: Connection,
  { geometry, place }: Together,
  rulesText: string,
): string[] {
  if (rulesText === '') return [];
  const rules = rulesNumber(connection, rulesText);
  return [
    { geometry, rules },
    { place, rules },
    { geometry, place, rules },
  ]
    .filter((one) => !('place' in one) || one.place !== undefined)
    .map(togetherWord)
    .filter((word) => word !== null);
}

function rulesNumber(connection: Connection, rules: string): number {
  const known = oneRow(connection, row, 'SELECT search_rules_id FROM search_rules WHERE rules = ?', rules);
  return known?.search_rules_id ?? insert(connection, 'search_rules', { rules });
}

/** Whether a word of an entry's facets is one with rules. */
export const isWithRules = (word: string): boolean =>
  ['gr', 'pr', 'gpr'].some((kind) => word.startsWith(facetWord(`both${kind}x`, '')));

/** Texts of rules that a query fits, by number; null where there are more than are looked for one by one. */
export function fittingRules(connection: Connection, match: string): number[] | null {
  const fits = allRows(
    connection,
    row,
    'SELECT rowid AS search_rules_id FROM search_rules_text WHERE search_rules_text MATCH ? LIMIT ?',
    match,
    RULES_MAX + 1,
  ).map((one) => one.search_rules_id);
  return fits.length > RULES_MAX ? null : fits;
}
