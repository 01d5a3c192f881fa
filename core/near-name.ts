/** The known name that a misspelt one most likely means. */

/** A third of the letters may be wrong: "gaugLenght" for "gaugeLength", never "id" for "od". */
const WRONG_LETTERS_SHARE = 1 / 3;
/** Longer words are no names of fields. */
const NAME_LETTERS_MAX = 60;

/** The nearest of the names, or null where none is near. Letter case, hyphens and underscores don't count. */
export function nearName(given: string, names: readonly string[]): string | null {
  const word = plain(given);
  if (word.length > NAME_LETTERS_MAX) return null;
  const [nearest] = names
    .map((name) => ({ name, changes: changesBetween(word, plain(name)) }))
    .filter(({ name, changes }) => changes <= Math.max(word.length, name.length) * WRONG_LETTERS_SHARE)
    .sort((a, b) => a.changes - b.changes);
  return nearest?.name ?? null;
}

const plain = (name: string): string => name.toLowerCase().replace(/[-_ ]/g, '');

/** Letters to insert, leave out, replace, or swap with their neighbour (optimal string alignment). */
function changesBetween(a: string, b: string): number {
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  const at = (i: number, j: number): number => rows[i]?.[j] ?? 0;
  for (let i = 1; i <= a.length; i++) {
    rows.push([i]);
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      rows[i]?.push(
        Math.min(
          at(i - 1, j) + 1,
          at(i, j - 1) + 1,
          at(i - 1, j - 1) + (same ? 0 : 1),
          swapped ? at(i - 2, j - 2) + 1 : Number.POSITIVE_INFINITY,
        ),
      );
    }
  }
  return at(a.length, b.length);
}
