/** A file to be imported: how the program would read it, what a person says of it instead, and for which specimen. */
import { batch, signal } from '@preact/signals';
import type { PageReplyOf } from '../../core/contract/bridge.ts';
import type { ChosenFile } from '../../core/contract/file-requests.ts';
import { columnsTextOf } from '../../core/exchange/import/columns-text.ts';
import { IMPORT_DIMENSION, type ImportQuantity } from '../../core/exchange/import/import-plan.ts';
import type { ImportChoices } from '../../core/exchange/import/propose-import.ts';
import { UNITS, type UnitSymbol } from '../../core/quantity/units.ts';
import { errand } from '../store/errand.ts';
import { archiveGeneration, exchangeProgress, request } from '../store/session-store.ts';
import { chosenFile } from './chosen-file.ts';

export type ImportPreview = PageReplyOf<'archive.preview-import'>;
export type ImportAnswer = PageReplyOf<'archive.import'>;
/** What a column is; null leaves it out. */
export type ColumnSaid = { readonly quantity: ImportQuantity; readonly unit: UnitSymbol } | null;
type LayoutChoices = Omit<ImportChoices, 'columnsText'>;

export const file = signal<ChosenFile | null>(null);
export const preview = signal<ImportPreview | null>(null);
/** Null while the program's own reading of the columns stands. */
export const columns = signal<readonly ColumnSaid[] | null>(null);
export const layout = signal<LayoutChoices>({});
/** Columns in words, for a file of which no table is found without them; empty otherwise. */
export const columnsInWords = signal('');
export const specimenId = signal<number | null>(null);
export const imported = signal<ImportAnswer | null>(null);
export const importing = errand();
export const previewing = errand();
/** The import itself, not the choice of a file. */
export const isReading = signal(false);

export async function chooseFile(): Promise<void> {
  const chosen = await chosenFile(previewing, 'curve');
  if (chosen === null) return;
  batch(() => {
    file.value = chosen;
    preview.value = null;
    columns.value = null;
    layout.value = {};
    columnsInWords.value = '';
    imported.value = null;
    importing.fault.value = null;
  });
  await look();
}

/** Only what was chosen: an absent choice is the program's. */
function choices(): ImportChoices {
  const said = columns.value;
  const given = Object.entries(layout.value).filter(([, value]) => value !== undefined);
  return {
    ...(Object.fromEntries(given) as LayoutChoices),
    ...(said !== null
      ? { columnsText: columnsTextOf(said) }
      : columnsInWords.value.trim() === ''
        ? {}
        : { columnsText: columnsInWords.value.trim() }),
  };
}

let asked = 0;

/** Asks how the file would be read with what is chosen now. */
async function look(): Promise<void> {
  const own = ++asked;
  const its = file.value;
  if (its === null) return;
  const answer = await request('archive.preview-import', { file: its.sign, choices: choices() as never });
  if (own !== asked) return;
  batch(() => {
    previewing.fault.value = answer.ok ? null : answer.fault;
    // What was proposed before is not how the file would be read now.
    preview.value = answer.ok ? answer.value : null;
  });
}

/** What the columns are now, by the program or as said. */
export const columnsNow = (shown: ImportPreview): ColumnSaid[] =>
  shown.proposal.columns.map((column, i) => {
    const said = columns.value;
    if (said !== null) return said[i] ?? null;
    const { used, quantity, unit } = column;
    return used && quantity !== null && unit !== null ? { quantity, unit } : null;
  });

/** One quantity is in one column: another that had it is left out. */
export function sayColumn(shown: ImportPreview, at: number, said: ColumnSaid): void {
  columns.value = columnsNow(shown).map((column, i) =>
    i === at ? said : column !== null && column.quantity === said?.quantity ? null : column,
  );
  void look();
}

export function sayInWords(text: string): void {
  columnsInWords.value = text;
  columns.value = null;
  void look();
}

export function chooseLayout(change: LayoutChoices): void {
  layout.value = { ...layout.value, ...change };
  // Another place or delimiter makes other columns.
  if (!('decimalSign' in change) && !('groupSign' in change)) columns.value = null;
  void look();
}

/** Units that a quantity can be in, the usual ones first. */
export const unitsOf = (quantity: ImportQuantity): UnitSymbol[] =>
  (Object.keys(UNITS) as UnitSymbol[]).filter((unit) => UNITS[unit].dimension === IMPORT_DIMENSION[quantity]);

export async function importNow(operator: string): Promise<void> {
  const its = file.value;
  const specimen = specimenId.value;
  if (its === null || specimen === null) return;
  exchangeProgress.value = null;
  isReading.value = true;
  const done = await importing.run(() =>
    request('archive.import', {
      file: its.sign,
      specimen,
      choices: choices() as never,
      ...(operator.trim() === '' ? {} : { operator: operator.trim() }),
    }),
  );
  isReading.value = false;
  if (done === null) return;
  imported.value = done;
  archiveGeneration.value++;
}
