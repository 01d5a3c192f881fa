/** The one table that each measurement prints: Markdown, so that it can stand in DEVELOPERS.md as it is. */
import { machineLine } from './machine.ts';
import { ratioOf, ratios, short, spreadText } from './statistics.ts';

export interface Row {
  readonly what: string;
  readonly floor: string;
  readonly measured: string;
  readonly ratio: string;
  /** "≤ 1.5 ×", with whether it was reached; blank where there is none. */
  readonly goal: string;
  readonly spread: string;
}

const HEADINGS: Row = {
  what: 'what',
  floor: 'floor in the same run',
  measured: 'measured',
  ratio: 'ratio',
  goal: 'goal',
  spread: 'spread of the ratio',
};
const COLUMNS = ['what', 'floor', 'measured', 'ratio', 'goal', 'spread'] as const;

/** Characters as a terminal counts them; nothing here is written with combining marks. */
const widthOf = (text: string): number => Array.from(text).length;

export function printTable(title: string, rows: readonly Row[], notes: readonly string[] = []): void {
  const widths = COLUMNS.map((column) =>
    Math.max(3, ...[HEADINGS, ...rows].map((row) => widthOf(row[column]))),
  );
  const line = (row: Row): string =>
    `| ${COLUMNS.map((column, i) => row[column] + ' '.repeat((widths[i] ?? 0) - widthOf(row[column]))).join(' | ')} |`;
  console.log(`\n**${title}**\n\n${machineLine()}\n`);
  console.log(line(HEADINGS));
  console.log(`| ${widths.map((width) => '-'.repeat(width)).join(' | ')} |`);
  for (const row of rows) console.log(line(row));
  if (notes.length > 0) console.log(`\n${notes.map((note) => `- ${note}`).join('\n')}`);
}

/** "≤ 1.5 ×: reached", "≤ 1.5 ×: MISSED". */
export function goalText(goal: string, reached: boolean): string {
  return `${goal}: ${reached ? 'reached' : 'MISSED'}`;
}

/** One row from times that were taken in turn, round by round. */
export function comparedRow({
  what,
  unit,
  floor,
  measured,
  atMost,
}: {
  readonly what: string;
  readonly unit: string;
  readonly floor: readonly number[];
  readonly measured: readonly number[];
  /** The goal for the ratio. */
  readonly atMost?: number;
}): Row {
  const ratio = ratioOf(floor, measured);
  return {
    what,
    floor: `${short(middle(floor))} ${unit}`,
    measured: `${short(middle(measured))} ${unit}`,
    ratio: `${short(ratio)} ×`,
    goal: atMost === undefined ? '' : goalText(`≤ ${short(atMost, 2)} ×`, ratio <= atMost),
    spread: spreadText(ratios(floor, measured)),
  };
}

function middle(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? Number.NaN;
}
