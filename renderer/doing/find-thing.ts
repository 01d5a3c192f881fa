/** Finds what can be done by plain words: every word written is looked for at the beginnings of the words of each thing. */

export interface Named {
  readonly name: string;
  /** Other words for it. */
  readonly also: string;
}

/** Said around what is meant, in English and Spanish. */
const AROUND: ReadonlySet<string> = new Set(
  'a an and are can do does for from how i in is it me my of on one or please so that the this to want what where with y de del el en es la las lo los me mi o para por puedo que quiero se su un una como donde cual hacer ver'.split(
    ' ',
  ),
);
/** An ending may differ (“backups”, “calibrated”) once so much of a word agrees. */
const STEM_LENGTH = 4;

/** Words without accents and case; nothing else counts. */
function wordsOf(text: string): string[] {
  return (
    text
      .normalize('NFD')
      .replace(/\p{M}/gu, '')
      .toLowerCase()
      .match(/[\p{L}\p{N}]+/gu) ?? []
  );
}

const fits = (written: string, word: string): boolean =>
  word.startsWith(written) || (word.length >= STEM_LENGTH && written.startsWith(word));

/** How well a thing answers: words of its name count twice; 0 where none of the words is of it. */
function answers(written: readonly string[], { name, also }: Named): { hits: number; weight: number } {
  const names = wordsOf(name);
  const others = wordsOf(also);
  let hits = 0;
  let weight = 0;
  for (const one of written) {
    const inName = names.some((word) => fits(one, word));
    if (!inName && !others.some((word) => fits(one, word))) continue;
    hits++;
    weight += inName ? 2 : 1;
  }
  return { hits, weight };
}

/**
 * Those that most of the words fit, best first, in the given order where two fit alike. All of them where nothing is
 * written.
 */
export function findThings<T>(text: string, things: readonly T[], named: (thing: T) => Named): readonly T[] {
  const all = wordsOf(text);
  const telling = all.filter((word) => !AROUND.has(word));
  const written = telling.length === 0 ? all : telling;
  if (written.length === 0) return things;
  const found = things
    .map((thing) => ({ thing, ...answers(written, named(thing)) }))
    .filter(({ hits }) => hits > 0);
  const most = Math.max(0, ...found.map(({ hits }) => hits));
  return found
    .filter(({ hits }) => hits === most)
    .sort((a, b) => b.weight - a.weight)
    .map(({ thing }) => thing);
}
