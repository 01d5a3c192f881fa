/** What the certificate of a verification says that depends on what was verified, and how both kinds lay it out. */
import type { Working } from '../../results/result.ts';
import type { Figure, ReadStep } from '../../verification/worksheet.ts';
import type { PaperText, PaperWords } from '../../words/paper-words.ts';
import type { Fact } from '../certificate-content.ts';
import { type Markup, NOTHING, html } from './markup.ts';

export interface VerificationBody {
  readonly facts: readonly Fact[];
  readonly verdict: Markup;
  readonly tableTitle: string;
  readonly table: Markup;
  readonly working: Markup;
  /** Which limits are to be checked against whose copies. */
  readonly caution: string;
}

/** One row a step: what was applied and indicated, then its figures. */
export interface ReadingsTable {
  readonly applied: string;
  readonly runCount: number;
  readonly figureHeads: readonly string[];
  readonly rows: readonly {
    readonly appliedText: string;
    readonly read: ReadStep | undefined;
    readonly figures: readonly string[];
  }[];
  readonly note: string;
}

/** Each step with what was read at it. */
export const stepRows = <Step extends { readonly appliedText: string }>(
  steps: readonly Step[],
  read: readonly ReadStep[],
  figuresOf: (step: Step) => readonly string[],
): ReadingsTable['rows'] =>
  steps.map((step, place) => ({
    appliedText: step.appliedText,
    read: read[place],
    figures: figuresOf(step),
  }));

export function readingsTable(
  { applied, runCount, figureHeads, rows, note }: ReadingsTable,
  { text }: PaperWords,
): Markup {
  const runs = Array.from({ length: runCount }, (_, run) => run);
  const head = [
    applied,
    ...runs.map((run) => text('run {1}', String(run + 1))),
    text('down'),
    ...figureHeads,
  ];
  return html`<table class="readings">
      <thead>
        <tr>
          ${head.map((title) => html`<th>${title}</th>`)}
        </tr>
      </thead>
      <tbody>
        ${rows.map(
          ({ appliedText, read, figures }) =>
            html`<tr>
              ${[
                appliedText,
                ...runs.map((run) => read?.runs[run]?.indicated.text ?? ''),
                read?.descending?.indicated.text ?? '–',
                ...figures,
              ].map((cell) => html`<td>${cell}</td>`)}
            </tr>`,
        )}
      </tbody>
    </table>
    <p class="note">${note}</p>`;
}

/** What stayed when nothing was applied; nothing where it was not read. */
export const zerosLine = (
  without: PaperText,
  zeros: readonly Figure[],
  behind: string,
  { text }: PaperWords,
): Markup =>
  zeros.length === 0
    ? NOTHING
    : html`<p>
        ${text('Without {1}: {2} {3}', text(without), zeros.map((zero) => zero.text).join(', '), behind)}
      </p>`;

/** Each figure as formula and numbers put in, then where the formulas are from. */
export function workingTable(
  all: readonly { readonly of: string; readonly working: Working }[],
  { said }: PaperWords,
): Markup {
  const named = [...new Set(all.map(({ working }) => working.source))];
  const sources = named.filter((one) => !named.some((other) => other !== one && other.includes(one)));
  return html`<table class="working">
      <tbody>
        ${all.map(
          ({ of, working }) =>
            html`<tr>
              <td>${said(of)}</td>
              <td>${said(working.substituted)}</td>
              <td>${said(working.formula)}</td>
            </tr>`,
        )}
      </tbody>
    </table>
    ${sources.map((source) => html`<p class="note">${said(source)}</p>`)}`;
}
