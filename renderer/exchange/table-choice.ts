/** Which columns a person wants in tables of results; remembered. */
import { type Signal, signal } from '@preact/signals';
import { z } from 'zod';
import {
  type AskedColumn,
  OFFERED_RESULTS,
  PULL_FACTS,
  type PullFact,
  RESULT_FORMS,
  type ResultForm,
  USUAL_COLUMNS,
  USUAL_ON_PAPER,
} from '../../core/exchange/export/asked-columns.ts';
import { remember, remembered } from '../store/remembered.ts';

const tableChoice = z.strictObject({
  facts: z.array(z.enum(PULL_FACTS)),
  /** `all`: every result that one of the pulls has. */
  results: z.union([z.literal('all'), z.array(z.enum(OFFERED_RESULTS))]),
  forms: z.array(z.enum(RESULT_FORMS)),
});
export type TableChoice = z.infer<typeof tableChoice>;

/** Those that are offered: of one archive its own name says nothing. */
export const OFFERED_FACTS = PULL_FACTS.filter((fact) => fact !== 'archive');

const factsOf = (columns: readonly AskedColumn[]): PullFact[] =>
  columns.flatMap((column) => (column.kind === 'fact' && column.fact !== 'archive' ? [column.fact] : []));
const USUAL: TableChoice = { facts: factsOf(USUAL_COLUMNS), results: 'all', forms: [...RESULT_FORMS] };

/** Results stand before what was said of them. */
const BEHIND_RESULTS = PULL_FACTS.slice(PULL_FACTS.indexOf('verdict'));

/** Null where nothing is chosen. */
export function columnsOf({ facts, results, forms }: TableChoice): AskedColumn[] | null {
  const fact = (name: PullFact): AskedColumn => ({ kind: 'fact', fact: name });
  const chosen = OFFERED_FACTS.filter((one) => facts.includes(one));
  const its: AskedColumn[] =
    forms.length === 0
      ? []
      : results === 'all'
        ? [{ kind: 'results', forms: [...forms] }]
        : results.flatMap((symbol) => forms.map((form) => ({ kind: 'result', symbol, form }) as const));
  const columns = [
    ...chosen.filter((one) => !BEHIND_RESULTS.includes(one)).map(fact),
    ...its,
    ...chosen.filter((one) => BEHIND_RESULTS.includes(one)).map(fact),
  ];
  return columns.length === 0 ? null : columns;
}

export class ChosenColumns {
  readonly now: Signal<TableChoice>;
  readonly #usual: TableChoice;

  constructor(key: string, usual: TableChoice) {
    this.#usual = usual;
    this.now = signal(remembered(key, tableChoice, usual));
    remember(key, () => this.now.value);
  }

  toggleFact(fact: PullFact): void {
    const { facts } = this.now.value;
    this.now.value = {
      ...this.now.value,
      facts: OFFERED_FACTS.filter((one) => facts.includes(one) !== (one === fact)),
    };
  }

  toggleForm(form: ResultForm): void {
    const { forms } = this.now.value;
    this.now.value = {
      ...this.now.value,
      forms: RESULT_FORMS.filter((one) => forms.includes(one) !== (one === form)),
    };
  }

  toggleAll(): void {
    const { results } = this.now.value;
    this.now.value = { ...this.now.value, results: results === 'all' ? [...OFFERED_RESULTS] : 'all' };
  }

  toggleResult(symbol: (typeof OFFERED_RESULTS)[number]): void {
    const { results } = this.now.value;
    if (results === 'all') return;
    this.now.value = {
      ...this.now.value,
      results: OFFERED_RESULTS.filter((one) => results.includes(one) !== (one === symbol)),
    };
  }

  takeUsual(): void {
    this.now.value = this.#usual;
  }

  get isUsual(): boolean {
    return JSON.stringify(this.now.value) === JSON.stringify(this.#usual);
  }
}

/** What is offered of those that are usual on paper; columns in which nothing stands are left out there. */
const ON_PAPER: TableChoice = {
  facts: factsOf(USUAL_ON_PAPER),
  results: OFFERED_RESULTS.filter((symbol) =>
    USUAL_ON_PAPER.some((column) => column.kind === 'result' && column.symbol === symbol),
  ),
  forms: ['rounded'],
};

export const paperColumns = new ChosenColumns('gaugemark.results-columns-on-paper', ON_PAPER);
export const tableColumns = new ChosenColumns('gaugemark.results-columns', USUAL);
