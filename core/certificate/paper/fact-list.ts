/** Parts that the whole certificate and each specimen share: a list of facts, the mark of an outcome. */
import type { Outcome } from '../../acceptance/verdict.ts';
import type { PaperText, PaperWords } from '../../words/paper-words.ts';
import type { Fact } from '../certificate-content.ts';
import { type Markup, NOTHING, html, typed } from './markup.ts';
import { momentOnPaper } from './moment-on-paper.ts';

const OUTCOME_WORDS = {
  accept: 'ACCEPTED',
  reject: 'REJECTED',
  undecided: 'UNDECIDED',
} as const satisfies Readonly<Record<Outcome, PaperText>>;

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

/** `beside` stands in the same frame: a verdict on simulated readings must not be cut out without that word. */
export function outcomeMark(outcome: Outcome, beside: string | null, words: PaperWords): Markup {
  return html`<p class="outcome" data-outcome="${outcome}">
    ${words.text(OUTCOME_WORDS[outcome])}${beside === null ? '' : ` · ${beside}`}
  </p>`;
}
