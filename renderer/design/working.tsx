/** The working of one value: formula, numbers put in, steps, the answer underlined twice, and how sure it is. */
import { groupedWithin } from '../../core/acceptance/number-text.ts';
import type { Result } from '../../core/results/result.ts';
import { asReported, fixed, placesOf, significant } from '../numbers/format.ts';
import { language } from '../store/view-settings.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';
import { SymbolText } from './symbol-text.tsx';
import { UncertaintyBudget } from './uncertainty-budget.tsx';
import './working.css';

/** Enough digits to recompute the result by hand. */
const INPUT_DIGITS = 8;
const UNROUNDED_DIGITS = 8;

export function WorkingBlock({ result }: { readonly result: Result }) {
  const text = words.value.result;
  const { working, rounded } = result;
  const lang = language.value;
  const unit = result.unit === '1' ? '' : result.unit;
  return (
    <div class="working">
      <p class="formula">
        <SymbolText text={told(working.formula)} />
      </p>
      {working.inputs.length === 0 ? null : (
        <dl class="inputs">
          {working.inputs.map((input) => (
            <>
              <dt>
                <SymbolText text={input.symbol} />
              </dt>
              <dd>
                = {significant(input.value, INPUT_DIGITS, lang)} {input.unit === '1' ? '' : input.unit}
              </dd>
              <dd class="from">{told(input.from)}</dd>
            </>
          ))}
        </dl>
      )}
      <p>
        <SymbolText text={groupedWithin(told(working.substituted))} />
      </p>
      {(working.steps ?? []).map((step) => (
        <p key={step}>
          <SymbolText text={groupedWithin(told(step))} />
        </p>
      ))}
      {rounded.length === 0 ? (
        <p>
          <span class="answer">
            <SymbolText text={result.symbol} /> = {fixed(result.value, placesOf(result.unit), lang)} {unit}
          </span>
        </p>
      ) : (
        rounded.map((r) => (
          <p key={`${r.rule}${r.unit}`}>
            <span class="answer">
              <SymbolText text={result.symbol} /> = {asReported(r.text, lang)} {r.unit}
            </span>
            <span class="aside"> {` ${text.rule} ${told(r.rule)}`}</span>
          </p>
        ))
      )}
      <p class="aside">
        {text.unrounded} {significant(result.value, UNROUNDED_DIGITS, lang)} {unit} · {text.method}{' '}
        <SymbolText text={told(result.method)} /> · {text.source} <SymbolText text={told(working.source)} />
      </p>
      <UncertaintyBudget result={result} />
    </div>
  );
}
