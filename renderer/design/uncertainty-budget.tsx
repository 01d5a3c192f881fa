/** The budget of one uncertainty as a table: each component with what it contributes, and what they come to together. */
import type { UnitSymbol } from '../../core/quantity/units.ts';
import type { Result } from '../../core/results/result.ts';
import { shownInSystem } from '../../core/results/shown-in-system.ts';
import { significant } from '../numbers/format.ts';
import { language, units } from '../store/view-settings.ts';
import { told } from '../words/told.ts';
import { words } from '../words/words.ts';
import { SymbolText } from './symbol-text.tsx';
import { TableScroll } from './table-scroll.tsx';
import './uncertainty-budget.css';

/** An uncertainty is stated to two digits; its components to one more, so that the sum can be checked. */
const STATED_DIGITS = 2;
const LINE_DIGITS = 3;

export function UncertaintyBudget({ result }: { readonly result: Result }) {
  const text = words.value.result.budget;
  const shown = shownInSystem(result, { units: units.value === 'US' ? 'us' : 'si', measuredIn: 'SI' });
  const { uncertainty } = shown;
  if (uncertainty === undefined) return null;
  const number = (value: number, digits = LINE_DIGITS): string => significant(value, digits, language.value);
  const unit = shown.unit === '1' ? '' : ` ${shown.unit}`;
  return (
    <TableScroll label={`${text.title} ${result.symbol}`} of="budget">
      <table>
        <caption>
          {text.title} <SymbolText text={result.symbol} />
        </caption>
        <thead>
          <tr>
            <th scope="col">{text.standard}</th>
            <th scope="col">{text.sensitivity}</th>
            <th scope="col">{text.contribution}</th>
            <th scope="col">{text.degreesOfFreedom}</th>
          </tr>
        </thead>
        {uncertainty.budget.map((line, i) => (
          <tbody key={i}>
            <tr>
              <th scope="rowgroup" colSpan={4}>
                <SymbolText text={told(line.source)} />{' '}
                <span class="pencil">({text.distributions[line.distribution]})</span>
              </th>
            </tr>
            <tr>
              <td>{`${number(line.standard)}${line.unit === '1' ? '' : ` ${line.unit}`}`}</td>
              <td>{`${number(line.sensitivity)}${sensitivityUnit(shown.unit, line.unit)}`}</td>
              <td>{`${number(line.contribution)}${unit}`}</td>
              <td>{line.degreesOfFreedom === undefined ? '∞' : number(line.degreesOfFreedom)}</td>
            </tr>
          </tbody>
        ))}
        <tfoot>
          <tr>
            <th scope="row" colSpan={2}>
              {text.combined}
            </th>
            <td>{`${number(uncertainty.standard)}${unit}`}</td>
            <td>{uncertainty.degreesOfFreedom === undefined ? '∞' : number(uncertainty.degreesOfFreedom)}</td>
          </tr>
          <tr>
            <th scope="row" colSpan={2}>
              {text.expanded(number(uncertainty.coverageFactor))}
            </th>
            <td class="total">{`${number(uncertainty.expanded, STATED_DIGITS)}${unit}`}</td>
            <td />
          </tr>
        </tfoot>
      </table>
    </TableScroll>
  );
}

/** " MPa/mm"; nothing where result and component have the same unit. */
function sensitivityUnit(result: UnitSymbol, component: UnitSymbol): string {
  if (result === component) return '';
  return component === '1' ? ` ${result}` : ` ${result}/${component}`;
}
