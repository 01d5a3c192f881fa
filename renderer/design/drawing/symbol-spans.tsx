/** The standards' symbols inside a drawing: index set low by hand, since SVG text knows no `sub`. */

const SYMBOL = /^([A-Za-z])(0|t)(?= |$)/;

export function SymbolSpans({ text }: { readonly text: string }) {
  const match = SYMBOL.exec(text);
  if (match === null) return <>{text}</>;
  const [whole, base = '', low = ''] = match;
  return (
    <>
      {base}
      <tspan font-size="0.72em" dy="4">
        {low}
      </tspan>
      <tspan dy="-4">{text.slice(whole.length)}</tspan>
    </>
  );
}
