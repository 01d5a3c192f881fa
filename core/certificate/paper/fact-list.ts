/** Parts that the whole certificate and each specimen share: a list of facts, the mark of an outcome. */
import type { Outcome } from '../../acceptance/verdict.ts';
import type { PaperText, PaperWords } from '../../words/paper-words.ts';
import type { Fact } from '../certificate-content.ts';
import { type Markup, NOTHING, html, typed } from './markup.ts';
import { momentOnPaper } from './moment-on-paper.ts';

/** Of a set with what stands beside the outcome put in: forms of their own, since in Spanish a set is of another gender. */
const OUTCOME_WORDS = {
  specimen: { accept: 'ACCEPTED', reject: 'REJECTED', undecided: 'UNDECIDED' },
  set: { accept: 'ACCEPTED{1}', reject: 'REJECTED{1}', undecided: 'UNDECIDED{1}' },
} as const satisfies Readonly<Record<string, Readonly<Record<Outcome, PaperText>>>>;

export interface MarkedOutcome {
  readonly of: keyof typeof OUTCOME_WORDS;
  readonly outcome: Outcome;
  /** In the same frame: a verdict on simulated readings must not be cut out without that word. */
  readonly beside: string | null;
}

/** Whose values the program wrote: what was typed stands as it was typed. */
const MOMENTS = ['issued', 'made again from the archive', 'started', 'imported'] as const;

/** `words`: those that the facts were composed in. */
export function factList(facts: readonly Fact[], words: PaperWords): Markup {
  if (facts.length === 0) return NOTHING;
  const moments = new Set(MOMENTS.map((label) => words.text(label)));
  return html`<dl>
    ${facts.map(
      ({ label, value }) =>
        html`<dt>${typed(label)}</dt>
          <dd>${typed(moments.has(label) ? momentOnPaper(value) : value)}</dd>`,
    )}
  </dl>`;
}

export function outcomeMark({ of, outcome, beside }: MarkedOutcome, { text }: PaperWords): Markup {
  const behind = beside === null ? '' : ` · ${beside}`;
  return html`<p class="outcome" data-outcome="${outcome}">
    ${of === 'set' ? text(OUTCOME_WORDS.set[outcome], behind) : `${text(OUTCOME_WORDS.specimen[outcome])}${behind}`}
  </p>`;
}
