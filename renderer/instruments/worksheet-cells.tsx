/** The cells of a worksheet that one types into: Enter goes on to the next one. */
import { words } from '../words/words.ts';
import type { WorksheetLine } from './worksheet-line.ts';

interface CellProps {
  readonly name: string;
  readonly value: string;
  readonly onInput: (text: string) => void;
}

export function Cell({ name, value, onInput }: CellProps) {
  return (
    <td>
      <input
        class="entry number"
        type="text"
        inputMode="decimal"
        aria-label={name}
        autocomplete="off"
        maxLength={40}
        value={value}
        onInput={(event) => onInput(event.currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key !== 'Enter' || event.ctrlKey || event.metaKey) return;
          event.preventDefault();
          nextCell(event.currentTarget);
        }}
      />
    </td>
  );
}

/** In the order in which one reads; behind the last cell there is none. */
function nextCell(from: HTMLInputElement): void {
  const cells = [...(from.closest('table')?.querySelectorAll<HTMLInputElement>('input') ?? [])];
  cells[cells.indexOf(from) + 1]?.focus();
}

export interface LineCellsProps {
  readonly line: WorksheetLine;
  readonly place: number;
  /** What the reference applies: force, displacement. */
  readonly applied: string;
  readonly runNames: readonly string[];
  readonly onChange: (change: Partial<WorksheetLine>) => void;
}

/** What was applied, indicated in each run, and on the way down. */
export function LineCells({ line, place, applied, runNames, onChange }: LineCellsProps) {
  const text = words.value.instruments.sheet;
  const named = (what: string): string => text.cell(what, String(place + 1));
  return (
    <>
      <Cell name={named(applied)} value={line.applied} onInput={(typed) => onChange({ applied: typed })} />
      {runNames.map((name, run) => (
        <Cell
          key={name}
          name={named(name)}
          value={line.runs[run] ?? ''}
          onInput={(typed) => onChange({ runs: line.runs.map((one, i) => (i === run ? typed : one)) })}
        />
      ))}
      <Cell name={named(text.down)} value={line.down} onInput={(down) => onChange({ down })} />
    </>
  );
}
