/** The key values of a curve as a table that can be read aloud, and copied into a spreadsheet. */
import { words } from '../words/words.ts';
import './key-values.css';

export interface KeyValue {
  readonly name: string;
  readonly reading: number;
  readonly cells: readonly string[];
}

export function KeyValues({
  columns,
  rows,
}: {
  readonly columns: readonly string[];
  readonly rows: readonly KeyValue[];
}) {
  const text = words.value.plot;
  return (
    <details class="key-values">
      <summary>{text.tableTitle}</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">{text.point}</th>
            <th scope="col">{text.reading}</th>
            {columns.map((column) => (
              <th scope="col" key={column}>
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.name}>
              <th scope="row">{row.name}</th>
              <td>{row.reading}</td>
              {row.cells.map((cell, i) => (
                <td key={columns[i]}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
