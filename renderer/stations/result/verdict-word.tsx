/** A verdict in a word with a shape of its own: met, not met, not known. Colour comes last. */
import type { JSX } from 'preact';
import './verdict-word.css';

export type Met = 'yes' | 'no' | 'unknown';

const line = { fill: 'none', stroke: 'currentColor', 'stroke-width': 2 } as const;

/** A size inside its two limits, a size beyond one of them, a size that was not taken. */
const SHAPES: Readonly<Record<Met, JSX.Element>> = {
  yes: (
    <>
      <path d="M3 2v12M13 2v12" {...line} />
      <circle cx="8" cy="8" r="2.6" fill="currentColor" />
    </>
  ),
  no: (
    <>
      <path d="M2 2v12M8 2v12" {...line} />
      <path d="m15.5 8-5-4v8Z" fill="currentColor" />
    </>
  ),
  unknown: <path d="M3 2v12M13 2v12" {...line} stroke-dasharray="2 2" />,
};

export function VerdictWord({
  met,
  word,
  count,
}: {
  readonly met: Met;
  readonly word: string;
  readonly count?: number;
}) {
  return (
    <span class="verdict-word" data-met={met}>
      <svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
        {SHAPES[met]}
      </svg>
      {count === undefined ? word : `${String(count)} ${word}`}
    </span>
  );
}

/** How many of each verdict, those first that a person has to look at; none of a kind is not said. */
export function VerdictCounts<V extends string>({
  verdicts,
  words,
  met,
}: {
  readonly verdicts: readonly V[];
  readonly words: Readonly<Record<V, string>>;
  readonly met: Readonly<Record<V, Met>>;
}) {
  const order: readonly Met[] = ['no', 'yes', 'unknown'];
  const present = [...new Set(verdicts)].sort((a, b) => order.indexOf(met[a]) - order.indexOf(met[b]));
  return (
    <span class="verdict-counts">
      {present.map((verdict) => (
        <VerdictWord
          key={verdict}
          met={met[verdict]}
          word={words[verdict]}
          count={verdicts.filter((v) => v === verdict).length}
        />
      ))}
    </span>
  );
}
