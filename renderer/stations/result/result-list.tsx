/** Results with their working on request, and what was not given with the reason. */
import { inFieldWords } from '../../../core/specimen/field-words.ts';
import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import { reportedIn, reportedValue } from '../../../core/results/reported-in.ts';
import type { Result } from '../../../core/results/result.ts';
import { type UnitSymbol, convert } from '../../../core/quantity/units.ts';
import { SymbolText } from '../../design/symbol-text.tsx';
import { WorkingBlock } from '../../design/working.tsx';
import { type UnitSystem, unitForValue } from '../../numbers/display-unit.ts';
import { asReported, fixed, placesOf, significant } from '../../numbers/format.ts';
import { prose } from '../../numbers/prose.ts';
import { language, units } from '../../store/view-settings.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { MeasuringBlock } from './measuring-block.tsx';
import { TestingSpeedBlock } from './testing-speed-block.tsx';
import './result-list.css';

/** Everything of an evaluation, where no verdict stands between its values and what goes with them. */
export function ResultList({ evaluation }: { readonly evaluation: Evaluation }) {
  return (
    <>
      <ResultRows evaluation={evaluation} />
      <ResultNotes evaluation={evaluation} />
    </>
  );
}

export function ResultRows({ evaluation }: { readonly evaluation: Evaluation }) {
  return (
    <section aria-label={words.value.result.title}>
      <div class="results" data-copies="rows" data-head={words.value.copy.resultHeads.join('\t')}>
        {evaluation.results.map((result) => (
          <ResultRow key={result.symbol} result={result} />
        ))}
      </div>
    </section>
  );
}

/** What was not given and why, what was noticed, and how well it was measured and pulled. */
export function ResultNotes({ evaluation }: { readonly evaluation: Evaluation }) {
  const text = words.value.result;
  return (
    <>
      <section class="block" aria-labelledby="withheld-title">
        <h2 id="withheld-title">{text.withheld}</h2>
        {evaluation.withheld.length === 0 ? (
          <p class="pencil">{text.nothingWithheld}</p>
        ) : (
          <ul class="withheld">
            {evaluation.withheld.map((w) => (
              <li key={`${w.symbol}${w.code}`}>
                <ResultSymbol symbol={w.symbol} />
                <span>
                  <strong>
                    <SymbolText text={told(w.name)} />.
                  </strong>{' '}
                  <SymbolText text={prose(inFieldWords(w.reason))} />
                </span>
              </li>
            ))}
          </ul>
        )}
      </section>
      {evaluation.remarks.length === 0 ? null : (
        <section class="block" aria-labelledby="remarks-title">
          <h2 id="remarks-title">{text.remarks}</h2>
          <ul class="remarks">
            {evaluation.remarks.map((remark) => (
              <li key={remark}>{prose(remark)}</li>
            ))}
          </ul>
        </section>
      )}
      <MeasuringBlock evaluation={evaluation} />
      {evaluation.speed === undefined ? null : <TestingSpeedBlock speed={evaluation.speed} />}
    </>
  );
}

/** "A (extensometer)": what tells two values of one symbol apart stands small beneath it. */
function ResultSymbol({ symbol }: { readonly symbol: string }) {
  const [, sign = symbol, qualifier] = /^(.+?) \((.+)\)$/.exec(symbol) ?? [];
  return (
    <span class="result-symbol">
      <SymbolText text={sign} />
      {qualifier === undefined ? null : <span class="result-qualifier"> {qualifier}</span>}
    </span>
  );
}

function ResultRow({ result }: { readonly result: Result }) {
  const text = words.value.result;
  const open = useSignal(false);
  const id = useId();
  const mine = shownValue(result, units.value);
  const other = shownValue(result, units.value === 'SI' ? 'US' : 'SI');
  const uncertainty = shownUncertainty(result, mine.unit);
  const uncertain = uncertainty === null ? null : uncertaintyText(uncertainty, mine.unit);
  return (
    <div
      class="result-row"
      data-symbol={result.symbol}
      data-row={[
        result.symbol,
        told(result.name),
        mine.text,
        mine.unit,
        uncertainty?.expanded ?? '',
        uncertainty?.factor ?? '',
      ].join('\t')}
    >
      <button
        type="button"
        class="result-line"
        aria-expanded={open.value}
        aria-controls={id}
        title={open.value ? text.hideWorking : text.showWorking(result.symbol)}
        onClick={() => (open.value = !open.value)}
      >
        <ResultSymbol symbol={result.symbol} />
        <span>
          <span class="turn" aria-hidden="true">
            {open.value ? '▾' : '▸'}
          </span>{' '}
          <SymbolText text={told(result.name)} />
        </span>
        <span class="result-value">
          {mine.text} <span class="unit">{mine.unit}</span>
          {other.unit === mine.unit ? null : (
            <span class="result-other">
              {other.text} {other.unit}
            </span>
          )}
          {uncertain === null ? null : <span class="result-other result-uncertainty">{uncertain}</span>}
        </span>
      </button>
      {(result.remarks ?? []).map((remark) => (
        <p class="result-doubt" key={remark}>
          <SymbolText text={prose(remark)} />
        </p>
      ))}
      <div id={id} hidden={!open.value}>
        {open.value ? <WorkingBlock result={reportedIn(result, units.value)} /> : null}
      </div>
    </div>
  );
}

/** The value as it is reported in the chosen system; where no rule covers it the unrounded one with the screen's places. */
export function shownValue(
  result: Result,
  system: UnitSystem,
): { readonly text: string; readonly unit: UnitSymbol | '' } {
  const rounded = reportedValue(reportedIn(result, system));
  if (rounded !== null) return { text: asReported(rounded.text, language.value), unit: rounded.unit };
  if (isPlainNumber(result)) return { text: fixed(result.value, placesOf('1'), language.value), unit: '' };
  const target = unitForValue(result.value, result.unit, system);
  const value = convert(result.value, result.unit, target);
  return { text: fixed(value, placesOf(target), language.value), unit: target === '1' ? '' : target };
}

/** Exponents and quotients are plain numbers; what else has no unit is a strain, and read in %. */
const isPlainNumber = ({ symbol, unit }: Result): boolean =>
  unit === '1' && (symbol === 'n' || symbol.includes('/'));

/** An uncertainty is stated to two digits. */
const UNCERTAINTY_DIGITS = 2;
const FACTOR_DIGITS = 3;

/** Expanded uncertainty in the unit that the value is shown in, and its factor; null where the result has none. */
function shownUncertainty(
  { uncertainty, unit }: Result,
  shownUnit: UnitSymbol | '',
): { readonly expanded: string; readonly factor: string } | null {
  if (uncertainty === undefined) return null;
  const expanded = convert(uncertainty.expanded, unit, shownUnit === '' ? '1' : shownUnit);
  return {
    expanded: significant(expanded, UNCERTAINTY_DIGITS, language.value),
    factor: significant(uncertainty.coverageFactor, FACTOR_DIGITS, language.value),
  };
}

/** "± 4.8 MPa (k = 2)". */
const uncertaintyText = (
  { expanded, factor }: { readonly expanded: string; readonly factor: string },
  unit: string,
): string => words.value.result.uncertainty(`${expanded} ${unit}`.trim(), factor);
