/** Parts that the whole certificate and each specimen share: a list of facts, the mark of an outcome. */
import type { Outcome } from '../../acceptance/verdict.ts';
import type { Fact } from '../certificate-content.ts';
import { type Markup, NOTHING, html, typed } from './markup.ts';
import { momentOnPaper } from './moment-on-paper.ts';

const OUTCOME_WORDS: Readonly<Record<Outcome, string>> = {
  accept: 'ACCEPTED',
  reject: 'REJECTED',
  undecided: 'UNDECIDED',
};

/** Whose values the program wrote: what was typed stands as it was typed. */
const MOMENTS: ReadonlySet<string> = new Set([
  'issued',
  'made again from the archive',
  'started',
  'imported',
]);

export function factList(facts: readonly Fact[]): Markup {
  if (facts.length === 0) return NOTHING;
  return html`<dl>
    ${facts.map(
      ({ label, value }) =>
        html`<dt>${typed(label)}</dt>
          <dd>${typed(MOMENTS.has(label) ? momentOnPaper(value) : value)}</dd>`,
    )}
  </dl>`;
}

/** `beside` stands in the same frame: a verdict on simulated readings must not be cut out without that word. */
export function outcomeMark(outcome: Outcome, beside: string | null = null): Markup {
  return html`<p class="outcome" data-outcome="${outcome}">
    ${OUTCOME_WORDS[outcome]}${beside === null ? '' : ` · ${beside}`}
  </p>`;
}
