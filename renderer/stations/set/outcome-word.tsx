/** Accepted, rejected, undecided: a word with a shape. Doubts and a person's decision are told beside it. */
import type { JSX } from 'preact';
import type { Outcome } from '../../../core/acceptance/verdict.ts';
import type { Words } from '../../words/en.ts';
import { words } from '../../words/words.ts';

const line = { fill: 'none', stroke: 'currentColor', 'stroke-width': 2.4 } as const;

/** The stamp on a part: a closed one with its tick, a barred one, one that is not struck yet. */
const SHAPES: Readonly<Record<Outcome, JSX.Element>> = {
  accept: (
    <>
      <circle cx="12" cy="12" r="9.5" {...line} />
      <path d="m7 12.5 3.5 4 6.5-8.5" {...line} />
    </>
  ),
  reject: (
    <>
      <path d="M2.5 2.5h19v19h-19Z" fill="currentColor" />
      <path d="m7 7 10 10M17 7 7 17" stroke="var(--sheet)" stroke-width="2.8" />
    </>
  ),
  undecided: (
    <>
      <path d="M12 2 22 12 12 22 2 12Z" {...line} stroke-dasharray="4 2.5" />
      <path d="M12 7.5v5.5M12 15v2" {...line} />
    </>
  ),
};

export function OutcomeWord({
  outcome,
  large = false,
  ofSet = false,
  said = words.value,
}: {
  readonly outcome: Outcome;
  readonly large?: boolean;
  /** Of a whole set; default: of a specimen. */
  readonly ofSet?: boolean;
  /** Default: those of the page's language. */
  readonly said?: Words;
}) {
  return (
    <span class={large ? 'outcome-word large' : 'outcome-word'} data-outcome={outcome}>
      <svg viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
        {SHAPES[outcome]}
      </svg>
      {(ofSet ? said.set.setOutcomes : said.set.outcomes)[outcome]}
    </span>
  );
}
