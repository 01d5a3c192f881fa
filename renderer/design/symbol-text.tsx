/** Writes the standards' symbols with their index set low: Rp0.2, S0, Fm, ReH. Other text passes through as it is. */

/** The symbols of ISO 6892-1 that the program uses, longest first so that "Rp0.2" isn't taken for "R". */
const SYMBOL =
  /\b(R(?=(?:p|t|r)[\d.]+|eH|eL|m\b)|[FSLAabdDW](?=(?:gt|g|t|m|e|c|n|0|u|o)\b))(p[\d.]+|t[\d.]+|r[\d.]+|eH|eL|gt|g|t|m|e|c|n|0|u|o)/g;

export function SymbolText({ text }: { readonly text: string }) {
  const parts: (string | { readonly base: string; readonly low: string })[] = [];
  let end = 0;
  for (const match of text.matchAll(SYMBOL)) {
    const [whole, base = '', low = ''] = match;
    parts.push(text.slice(end, match.index), { base, low });
    end = match.index + whole.length;
  }
  parts.push(text.slice(end));
  return (
    <>
      {parts.map((part) =>
        typeof part === 'string' ? (
          part
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
