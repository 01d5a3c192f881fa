/** Results of a search as a table: a row per pull, columns chosen. Data only; text and workbook are made from it. */
import type { FoundPull } from '../../contract/search-requests.ts';
import { type UnitSymbol, convert } from '../../quantity/units.ts';
import { reportedValue } from '../../results/reported-in.ts';
import type { Result, Withheld } from '../../results/result.ts';
import type { PullFact } from './asked-columns.ts';
import { type ColumnChoice, TABLE_COLUMNS_MAX } from './table-columns.ts';

/** What the table needs of one pull. Texts are those that the page shows. */
export interface TabledPull {
  /** The file that it is in, where pulls of several stand together: numbers of pulls are those of that file. */
  readonly archive?: string;
  readonly pullId: number;
  readonly specimenName: string;
  readonly startedWallMs: number;
  /** Null where the offset of the place was not kept. */
  readonly utcOffsetMinutes: number | null;
  /** The day that a person stated of an imported pull. */
  readonly pulledOn?: string | null;
  readonly operator?: string | null;
  readonly set?: string | null;
  /** Of the set: name of the rule pack, base metals and their heats, class and lot of the filler, welder. */
  readonly rulePack?: string | null;
  readonly baseMetal?: string | null;
  readonly filler?: string | null;
  readonly heat?: string | null;
  readonly fillerLot?: string | null;
  readonly welder?: string | null;
  /** Why it counts no more. */
  readonly voidReason?: string | null;
  /** Kind of the source: serial, simulated, typed, imported … */
  readonly source?: string | null;
  readonly verdict?: string | null;
  readonly fracture?: string | null;
  readonly notes?: string | null;
  readonly readingCount: number;
  readonly gapCount: number;
  readonly interrupted: boolean;
  readonly results: readonly Result[];
  readonly withheld: readonly Withheld[];
}

/** Of a line that a search gives, and what only the pull itself says. */
export const tabledPull = (
  line: FoundPull,
  said: Pick<TabledPull, 'archive' | 'utcOffsetMinutes' | 'notes' | 'gapCount' | 'results' | 'withheld'>,
): TabledPull => ({
  ...said,
  pullId: line.pullId,
  specimenName: line.specimenName,
  startedWallMs: line.startedWallMs,
  pulledOn: line.pulledOn,
  operator: line.operator,
  set: line.setName,
  rulePack: line.rulePackName,
  baseMetal: line.baseMetal,
  filler: line.filler,
  heat: line.heat,
  fillerLot: line.fillerLot,
  welder: line.welder,
  voidReason: line.voidReason,
  source: line.origin,
  verdict: line.verdict,
  fracture: line.place,
  readingCount: line.readingCount,
  interrupted: line.interrupted,
});

export type TableCell =
  | { readonly kind: 'blank' }
  | { readonly kind: 'text'; readonly text: string }
  /** `text`: the digits that a rounding rule leaves ("28.0"), where there are such. */
  | { readonly kind: 'number'; readonly value: number; readonly text?: string | undefined }
  | { readonly kind: 'moment'; readonly wallMs: number; readonly utcOffsetMinutes: number | null };

export interface ResultsTable {
  /** "Rm (MPa)", "specimen", … */
  readonly titles: readonly string[];
  readonly rows: readonly (readonly TableCell[])[];
}

/** Throws a RangeError for more than TABLE_COLUMNS_MAX columns. A result that a pull doesn't have is a blank cell. */
export function resultsTable(pulls: readonly TabledPull[], choices: readonly ColumnChoice[]): ResultsTable {
  if (choices.length > TABLE_COLUMNS_MAX)
    throw new RangeError(
      `${String(choices.length)} columns, at most ${String(TABLE_COLUMNS_MAX)} are written`,
    );
  const units = choices.map((choice) => (choice.kind === 'result' ? unitOf(pulls, choice) : null));
  return {
    titles: choices.map((choice, i) => titleOf(choice, units[i] ?? null)),
    rows: pulls.map((pull) => choices.map((choice, i) => cellOf(pull, choice, units[i] ?? null))),
  };
}

type ResultChoice = Extract<ColumnChoice, { kind: 'result' }>;

/** One unit for the whole column: the one asked for, else that of the first pull that has the result. */
function unitOf(pulls: readonly TabledPull[], { symbol, unit, form }: ResultChoice): UnitSymbol | null {
  if (unit !== undefined) return unit;
  for (const pull of pulls) {
    const result = pull.results.find((r) => r.symbol === symbol);
    if (result === undefined) continue;
    if (form === 'unrounded') return result.unit;
    const reported = reportedValue(result);
    if (reported !== null) return reported.unit;
  }
  return null;
}

function titleOf(choice: ColumnChoice, unit: UnitSymbol | null): string {
  if (choice.kind === 'fact') return choice.fact.replaceAll('-', ' ');
  const name = choice.form === 'rounded' ? `${choice.symbol} rounded` : choice.symbol;
  return unit === null || unit === '1' ? name : `${name} (${unit})`;
}

function cellOf(pull: TabledPull, choice: ColumnChoice, unit: UnitSymbol | null): TableCell {
  if (choice.kind === 'fact') return factCell(pull, choice.fact);
  const result = pull.results.find((r) => r.symbol === choice.symbol);
  if (result === undefined || unit === null) return { kind: 'blank' };
  if (choice.form === 'unrounded') return { kind: 'number', value: convert(result.value, result.unit, unit) };
  const rounded = reportedValue(result);
  return rounded?.unit !== unit
    ? { kind: 'blank' }
    : { kind: 'number', value: rounded.value, text: rounded.text };
}

function factCell(pull: TabledPull, fact: PullFact): TableCell {
  const text = (value: string | null | undefined): TableCell =>
    value === null || value === undefined || value === '' ? { kind: 'blank' } : { kind: 'text', text: value };
  switch (fact) {
    case 'pull':
      return { kind: 'number', value: pull.pullId };
    case 'specimen':
      return text(pull.specimenName);
    case 'started':
      return { kind: 'moment', wallMs: pull.startedWallMs, utcOffsetMinutes: pull.utcOffsetMinutes };
    case 'pulled-on':
      return text(pull.pulledOn);
    case 'archive':
    case 'operator':
    case 'set':
    case 'verdict':
    case 'fracture':
    case 'notes':
    case 'filler':
    case 'heat':
    case 'welder':
    case 'source':
      return text(pull[fact]);
    case 'rule-pack':
      return text(pull.rulePack);
    case 'base-metal':
      return text(pull.baseMetal);
    case 'filler-lot':
      return text(pull.fillerLot);
    case 'void':
      return text(pull.voidReason);
    case 'readings':
      return { kind: 'number', value: pull.readingCount };
    case 'gaps':
      return { kind: 'number', value: pull.gapCount };
    case 'interrupted':
      return text(pull.interrupted ? 'interrupted' : null);
    case 'withheld':
      return text(pull.withheld.map((w) => `${w.symbol}: ${w.reason}`).join(' '));
    case 'remarks':
      return text(
        pull.results.flatMap((r) => (r.remarks ?? []).map((remark) => `${r.symbol}: ${remark}`)).join(' '),
      );
  }
}

/** Titles of columns in which nothing stands. */
export const blankColumns = ({ titles, rows }: ResultsTable): string[] =>
  titles.filter((_, at) => rows.every((row) => (row[at] ?? { kind: 'blank' }).kind === 'blank'));
