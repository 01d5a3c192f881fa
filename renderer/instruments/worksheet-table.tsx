/** The table of a verification worksheet: lines that are typed into, each with its figures beside it. */
import type { ComponentChildren } from 'preact';
import { words } from '../words/words.ts';
import { LineCells } from './worksheet-cells.tsx';
import type { WorksheetLine } from './worksheet-line.ts';
import { TableScroll } from '../design/table-scroll.tsx';

export interface WorksheetTableProps {
  readonly name: string;
  readonly lines: readonly WorksheetLine[];
  /** What is applied, in a word, and its unit. */
  readonly applied: string;
  readonly unit: string;
  readonly runNames: readonly string[];
  readonly onChange: (place: number, change: Partial<WorksheetLine>) => void;
  readonly figureHeads: readonly string[];
  readonly figures: (place: number) => ComponentChildren;
  /** Rows below the lines. */
  readonly children?: ComponentChildren;
}

export function WorksheetTable({
  name,
  lines,
  applied,
  unit,
  runNames,
  onChange,
  figureHeads,
  figures,
  children,
}: WorksheetTableProps) {
  const { down } = words.value.instruments.sheet;
  return (
    <TableScroll label={name}>
      <table class="worksheet-table">
        <thead>
          <tr>
            {[`${applied}, ${unit}`, ...runNames, down, ...figureHeads].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {lines.map((line, place) => (
            <tr key={place}>
              <LineCells
                line={line}
                place={place}
                applied={applied}
                runNames={runNames}
                onChange={(change) => onChange(place, change)}
              />
              {figures(place)}
            </tr>
          ))}
          {children}
        </tbody>
      </table>
    </TableScroll>
  );
}
