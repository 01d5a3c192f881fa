/** Old and new values side by side: those that change, each with why where one of them is not given. */
import { type BesideEachOther, besideEachOther } from '../../../core/evaluation/side-by-side.ts';
import type { Evaluation } from '../../../core/results/evaluation.ts';
import type { Result } from '../../../core/results/result.ts';
import { SymbolText } from '../../design/symbol-text.tsx';
import { TableScroll } from '../../design/table-scroll.tsx';
import { prose } from '../../numbers/prose.ts';
import { units } from '../../store/view-settings.ts';
import { told } from '../../words/told.ts';
import { words } from '../../words/words.ts';
import { shownValue } from '../result/result-list.tsx';

export function ValueComparison({
  before,
  after,
}: {
  readonly before: Evaluation;
  readonly after: Evaluation;
}) {
  const text = words.value.evaluation;
  const rows = besideEachOther(before, after);
  const changed = rows.filter((row) => row.changed);
  return (
    <div class="comparison" role="status">
      <h3>{text.comparison}</h3>
      {changed.length === 0 ? (
        <p>{text.nothingChanges}</p>
      ) : (
        <TableScroll label={text.comparison}>
          <table>
            <thead>
              <tr>
                <th scope="col">{text.value}</th>
                <th scope="col">{text.before}</th>
                <th scope="col">{text.after}</th>
              </tr>
            </thead>
            <tbody>
              {changed.map((row) => (
                <Row key={row.symbol} row={row} />
              ))}
            </tbody>
          </table>
        </TableScroll>
      )}
      {changed.length === 0 || changed.length === rows.length ? null : (
        <p class="pencil">{text.unchanged(String(rows.length - changed.length))}</p>
      )}
    </div>
  );
}

function Row({ row }: { readonly row: BesideEachOther }) {
  return (
    <tr data-changed={row.symbol}>
      <th scope="row">
        <SymbolText text={row.symbol} />
        <span class="pencil small">
          {' '}
          <SymbolText text={told(row.name)} />
        </span>
      </th>
      <Cell result={row.before} reason={row.reason} />
      <Cell result={row.after} reason={row.reason} />
    </tr>
  );
}

function Cell({ result, reason }: { readonly result: Result | null; readonly reason: string | null }) {
  if (result === null)
    return (
      <td class="word">
        {words.value.evaluation.notGiven}
        {reason === null ? null : <span class="pencil small">: {prose(reason)}</span>}
      </td>
    );
  const { text, unit } = shownValue(result, units.value);
  return (
    <td>
      {text} <span class="unit">{unit}</span>
    </td>
  );
}
