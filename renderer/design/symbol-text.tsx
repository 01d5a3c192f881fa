/**
 * Writes the standards' symbols with their index set low: Rp0.2, S0, Fm, ReH; the name of a standard and a day stay in one line.
 * Other text passes through as it is, and every sign of it stays what it is: what is copied is what was written.
 */

/**
 * The symbols of ISO 6892-1 that the program uses: each base with the indices it is known with, longest first.
 * "At" before a word is the word, and so are "Su" and "Le" of Spanish.
 */
const SYMBOL = new RegExp(
  [
    String.raw`\b(R)(p[\d.]*\d|t[\d.]*\d|eH|eL|m)\b`,
    String.raw`\b(A)(gt|g|e|t(?!\s+[a-z]))\b`,
    String.raw`\b([FS])(m|0|u(?!\s+\p{L}))\b`,
    String.raw`\b(L)(0|u|c|e(?!\s+\p{L})|t)\b`,
    String.raw`\b([abdDt])(0|u)\b`,
    String.raw`\b(W)(m|t)\b`,
    String.raw`\b(m)(E)\b`,
    // A Greek letter is no word character of an expression: its own end is looked for.
    String.raw`([σε])(m)\b`,
    // Have no second group: a standard with a part (ISO 6892-1) and a day, which would else be broken at their hyphens.
    String.raw`\b(\d{4}-\d\d-\d\d(?: \d\d:\d\d)?)\b`,
    String.raw`\b((?:ISO|IEC|ASTM|AWS|EN) [A-Z]?\d+-\d+)\b`,
  ].join('|'),
  'gu',
);

export function SymbolText({ text }: { readonly text: string }) {
  const parts: (string | { readonly base: string; readonly low?: string | undefined })[] = [];
  let end = 0;
  for (const match of text.matchAll(SYMBOL)) {
    const [whole, ...groups] = match;
    const [base = '', low] = (groups as (string | undefined)[]).filter((group) => group !== undefined);
    parts.push(text.slice(end, match.index), { base, low });
    end = match.index + whole.length;
  }
  parts.push(text.slice(end));
  return (
    <>
      {parts.map((part) =>
        typeof part === 'string' ? (
          part
        ) : part.low === undefined ? (
          <span class="in-one-line">{part.base}</span>
        ) : (
          <>
            {part.base}
            <sub>{part.low}</sub>
          </>
        ),
      )}
    </>
  );
}
