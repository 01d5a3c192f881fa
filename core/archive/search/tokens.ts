/**
 * Words by which the text index finds: what people wrote, whole and in parts, and a word for each set. That begins with a
 * sign of the private use area, which nobody types and which is taken out of what was typed.
 */
import { foldedWords } from './folding.ts';

const PRIVATE = /[\ue000-\uf8ff]/g;
const SIGN = '\ue000';
/** Words that one search may have; more are no search. */
export const SEARCH_WORDS_MAX = 12;
/** Text of one column of an entry; a specimen's notes and its sets' fit. */
const COLUMN_LENGTH_MAX = 48_000;

/**
 * Words of the texts of one column and of their parts ("PQR-12/3" also as PQR, 12, 3), folded as the text index folds
 * them, each between spaces: what a search looks for can be found in it without that index. `more` are words as they are.
 */
export function columnText(
  texts: readonly (string | null | undefined)[],
  more: readonly string[] = [],
): string {
  const whole = [...new Set(texts.filter((one) => one !== null && one !== undefined && one !== ''))]
    .join(' \n ')
    .replace(PRIVATE, ' ')
    .slice(0, COLUMN_LENGTH_MAX);
  const parts = new Set<string>();
  for (const word of whole.split(/\s+/)) {
    const its = word.split(/[^\p{L}\p{N}\p{M}]+/u).filter((part) => part !== '');
    if (its.length > 1 || (its[0] ?? word) !== word) for (const part of its) parts.add(part);
  }
  return betweenSpaces([...foldedWords(whole), ...foldedWords([...parts].join(' ')), ...more]);
}

export const betweenSpaces = (words: readonly string[]): string => ` ${words.join(' ')} `;

/** What one typed word is looked for as: some words behind each other, the last of them perhaps a beginning. */
export interface SoughtWords {
  readonly words: readonly string[];
  readonly isBeginning: boolean;
}

/** What was typed, word by word; null where there is no letter and no digit in it. None where the index knows none of them. */
export function soughtWords(typed: string): SoughtWords[] | null {
  const words = typed
    .replace(PRIVATE, ' ')
    .replaceAll('\u0000', ' ')
    .split(/\s+/)
    // Signs around a word are no part of it, as in a sentence; signs within are.
    .map((word) => word.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, ''))
    .filter((word) => word !== '')
    .slice(0, SEARCH_WORDS_MAX);
  if (words.length === 0) return null;
  return words
    .map((word) => ({ words: foldedWords(word), isBeginning: word.length > 1 }))
    .filter((one) => one.words.length > 0);
}

/** The word by which the pulls of a set are found, in the column of its names. */
export const setWord = (setId: number): string => `${SIGN}set${String(setId)}`;
