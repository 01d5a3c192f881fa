/** The columns of a table of results, chosen: what is said of a pull, and its results unrounded and rounded. */
import { OFFERED_RESULTS, RESULT_FORMS } from '../../core/exchange/export/asked-columns.ts';
import { Button } from '../design/button.tsx';
import { SymbolText } from '../design/symbol-text.tsx';
import { words } from '../words/words.ts';
import { type ChosenColumns, OFFERED_FACTS } from './table-choice.ts';

export function TableColumns({ chosen }: { readonly chosen: ChosenColumns }) {
  const text = words.value.exchange;
  const { facts, forms, results } = chosen.now.value;
  return (
    <details class="filters" id="table-columns">
      <summary>{words.value.find.columns}</summary>
      <fieldset>
        <legend>{text.ofPull}</legend>
        <div class="checks">
          {OFFERED_FACTS.map((fact) => (
            <label key={fact}>
              <input
                type="checkbox"
                checked={facts.includes(fact)}
                onChange={() => chosen.toggleFact(fact)}
              />
              {text.facts[fact]}
            </label>
          ))}
        </div>
      </fieldset>
      <fieldset>
        <legend>{text.ofResults}</legend>
        <div class="checks">
          {RESULT_FORMS.map((form) => (
            <label key={form}>
              <input
                type="checkbox"
                checked={forms.includes(form)}
                onChange={() => chosen.toggleForm(form)}
              />
              {text.resultForms[form]}
            </label>
          ))}
          <label>
            <input type="checkbox" checked={results === 'all'} onChange={() => chosen.toggleAll()} />
            {text.everyResult}
          </label>
          {results === 'all'
            ? null
            : OFFERED_RESULTS.map((symbol) => (
                <label key={symbol}>
                  <input
                    type="checkbox"
                    checked={results.includes(symbol)}
                    onChange={() => chosen.toggleResult(symbol)}
                  />
                  <span>
                    <SymbolText text={symbol} />
                  </span>
                </label>
              ))}
        </div>
      </fieldset>
      <Button
        kind="compact"
        notNow={chosen.isUsual ? text.usualAlready : undefined}
        onPress={() => chosen.takeUsual()}
      >
        {text.usualColumns}
      </Button>
    </details>
  );
}
