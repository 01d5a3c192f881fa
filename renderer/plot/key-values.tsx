/**
 * Key values of a picture as a table that folds out beneath it: read aloud row by row, and copied into a spreadsheet with
 * Ctrl+C (`renderer/keys/copy-rows.ts`). It is no live region: what changes is read when somebody asks for it.
 */
import { words } from '../words/words.ts';
import './key-values.css';

export interface KeyValue {
  readonly name: string;
  readonly cells: readonly string[];
}

export interface KeyValuesProps {
  /** Of the table, for those who come to it without the picture. */
  readonly caption: string;
  /** Heads of the cells, behind that of the name. */
  readonly columns: readonly string[];
  readonly rows: readonly KeyValue[];
  /** What a row stands for; default: a point of the curve. */
  readonly nameHead?: string;
  /** What is pressed to fold it out; default: "Key values as a table". */
  readonly summary?: string;
  readonly id?: string;
  /** Lies over the picture rather than beneath it. */
  readonly isOver?: boolean;
  readonly onFold?: (isOpen: boolean) => void;
}

export function KeyValues({
  caption,
  columns,
  rows,
  nameHead,
  summary,
  id,
  isOver = false,
  onFold,
}: KeyValuesProps) {
  const text = words.value.plot;
  return (
    <details
      class="key-values"
      id={id}
      data-over={isOver}
      onToggle={(event) => onFold?.(event.currentTarget.open)}
    >
      <summary>{summary ?? text.tableTitle}</summary>
      <table>
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">{nameHead ?? text.point}</th>
            {columns.map((column) => (
              <th scope="col" key={column}>
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row, i) => (
            // Two pulls may have one name.
            <tr key={`${String(i)} ${row.name}`}>
              <th scope="row">{row.name}</th>
              {row.cells.map((cell, at) => (
                <td key={columns[at]}>{cell}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </details>
  );
}
