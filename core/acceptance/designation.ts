/** Designations as people write them ("SA-516 Gr. 70", "a516-70", "E7018 H4R") brought to one spelling. */

const WORDS_WITHOUT_MEANING = new Set(['ASTM', 'ASME', 'GRADE', 'GR', 'TYPE', 'TP', 'CLASS', 'FILLER']);

/** Upper-case letters and digits only, SA/SB written as A/B, "Grade" and "Type" left out. */
export function designationKey(text: string): string {
  const joined = text
    .toUpperCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '' && !WORDS_WITHOUT_MEANING.has(word))
    .join('')
    .replace(/^S(?=[AB]\d)/, '');
  return joined.replace(/(\d)(?:GRADE|GR|TYPE|TP)(?=[A-Z0-9])/, '$1');
}

/** The same without the optional diffusible-hydrogen and moisture designators of a filler ("H4", "H8R"). */
export function fillerDesignationKey(text: string): string {
  return designationKey(text).replace(/(?<=\d|[A-Z])H(?:2|4|8|16)R?$/, '');
}

export interface Named {
  readonly id: string;
  readonly name: string;
  readonly aliases: readonly string[];
}

export type Found<T> =
  | { readonly kind: 'found'; readonly item: T }
  | { readonly kind: 'ambiguous'; readonly candidates: readonly T[] }
  | { readonly kind: 'none'; readonly near: readonly T[] };

/** How many near names are offered when nothing matches. */
const NEAR_MAX = 5;

/**
 * Finds by id first, then by id, name or alias in tolerant spelling. A spelling that several share is ambiguous:
 * they are handed back instead of one being chosen.
 */
export function findByDesignation<T extends Named>(
  items: readonly T[],
  text: string,
  keyOf: (text: string) => string = designationKey,
): Found<T> {
  const byId = items.find((item) => item.id === text.trim());
  if (byId !== undefined) return { kind: 'found', item: byId };
  const key = keyOf(text);
  if (key === '') return { kind: 'none', near: [] };
  const byIdKey = items.filter((item) => keyOf(item.id) === key);
  const matches =
    byIdKey.length > 0
      ? byIdKey
      : items.filter((item) => [item.name, ...item.aliases].some((spelling) => keyOf(spelling) === key));
  const [first, ...others] = matches;
  if (first === undefined) return { kind: 'none', near: nearOnes(items, key, keyOf) };
  return others.length === 0 ? { kind: 'found', item: first } : { kind: 'ambiguous', candidates: matches };
}

function nearOnes<T extends Named>(items: readonly T[], key: string, keyOf: (text: string) => string): T[] {
  return items
    .filter((item) =>
      [item.id, ...item.aliases].some((spelling) => {
        const other = keyOf(spelling);
        return key.length > 1 && other.length > 1 && (other.startsWith(key) || key.startsWith(other));
      }),
    )
    .slice(0, NEAR_MAX);
}
