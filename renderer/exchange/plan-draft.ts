/** How a file of readings is to be read: as the program proposes, or as a person says of columns and layout instead. */
import { batch, computed, signal } from '@preact/signals';
import type { PageReplyOf } from '../../core/contract/bridge.ts';
import type { Answer, Fault } from '../../core/contract/message.ts';
import { type SaidChoices, choicesOfPlan } from '../../core/exchange/import/choices-of-plan.ts';
import { columnsTextOf } from '../../core/exchange/import/columns-text.ts';
import {
  IMPORT_DIMENSION,
  type ImportPlan,
  type ImportQuantity,
} from '../../core/exchange/import/import-plan.ts';
import type { ImportChoices } from '../../core/exchange/import/propose-import.ts';
import { UNITS, type UnitSymbol } from '../../core/quantity/units.ts';

export type ImportPreview = PageReplyOf<'archive.preview-import'>;
/** What a column is; null leaves it out. */
export type ColumnSaid = { readonly quantity: ImportQuantity; readonly unit: UnitSymbol } | null;
type LayoutChoices = Omit<ImportChoices, 'columnsText'>;

export class PlanDraft {
  readonly preview = signal<ImportPreview | null>(null);
  /** Why it can't be read so. */
  readonly fault = signal<Fault | null>(null);
  /** Null while the program's own reading of the columns stands. */
  readonly columns = signal<readonly ColumnSaid[] | null>(null);
  readonly layout = signal<LayoutChoices>({});
  /** Columns in words, for a file of which no table is found without them; empty otherwise. */
  readonly columnsInWords = signal('');
  /** The plan that is settled now; null where a person has to say what the columns are first. */
  readonly plan = computed<ImportPlan | null>(() => {
    const proposal = this.preview.value?.proposal;
    if (proposal === undefined) return null;
    return proposal.readyWithoutAsking || this.columns.value !== null ? proposal.plan : null;
  });
  readonly #ask: (choices: SaidChoices) => Promise<Answer<ImportPreview>>;
  #asked = 0;

  constructor(ask: (choices: SaidChoices) => Promise<Answer<ImportPreview>>) {
    this.#ask = ask;
  }

  /** Nothing said yet, of another file. */
  clear(): void {
    this.#asked++;
    batch(() => {
      this.preview.value = null;
      this.fault.value = null;
      this.columns.value = null;
      this.layout.value = {};
      this.columnsInWords.value = '';
    });
  }

  /** What this plan says, to go on from. */
  async startFrom(plan: ImportPlan): Promise<void> {
    this.clear();
    const { encoding, delimiter, decimalSign, groupSign, firstRowLine } = choicesOfPlan(plan);
    batch(() => {
      this.layout.value = { encoding, delimiter, decimalSign, groupSign, firstRowLine };
      this.columns.value = Array.from(
        { length: plan.cells },
        (_cell, at) => plan.columns.find(({ cell }) => cell === at) ?? null,
      );
    });
    await this.look();
  }

  get choices(): SaidChoices {
    const said = this.columns.value;
    const inWords = this.columnsInWords.value.trim();
    const given = Object.entries(this.layout.value).filter(([, value]) => value !== undefined);
    return {
      ...(Object.fromEntries(given) as SaidChoices),
      ...(said !== null
        ? { columnsText: columnsTextOf(said) }
        : inWords === ''
          ? {}
          : { columnsText: inWords }),
    };
  }

  /** Asks how the file would be read with what is said now. */
  async look(): Promise<void> {
    const own = ++this.#asked;
    const answer = await this.#ask(this.choices);
    if (own !== this.#asked) return;
    batch(() => {
      this.fault.value = answer.ok ? null : answer.fault;
      // What was proposed before is not how the file would be read now.
      this.preview.value = answer.ok ? answer.value : null;
    });
  }

  /** What the columns are now, by the program or as said. */
  columnsNow(shown: ImportPreview): ColumnSaid[] {
    return shown.proposal.columns.map((column, i) => {
      const said = this.columns.value;
      if (said !== null) return said[i] ?? null;
      const { used, quantity, unit } = column;
      return used && quantity !== null && unit !== null ? { quantity, unit } : null;
    });
  }

  /** One quantity is in one column: another that had it is left out. */
  sayColumn(shown: ImportPreview, at: number, said: ColumnSaid): void {
    this.columns.value = this.columnsNow(shown).map((column, i) =>
      i === at ? said : column !== null && column.quantity === said?.quantity ? null : column,
    );
    void this.look();
  }

  sayInWords(text: string): void {
    batch(() => {
      this.columnsInWords.value = text;
      this.columns.value = null;
    });
    void this.look();
  }

  chooseLayout(change: LayoutChoices): void {
    const { groupSign, ...layout } = { ...this.layout.value, ...change };
    batch(() => {
      // What stood between thousands may be the decimal sign now.
      this.layout.value =
        groupSign === undefined || groupSign === layout.decimalSign ? layout : { ...layout, groupSign };
      // Another place or delimiter makes other columns.
      if (!('decimalSign' in change) && !('groupSign' in change)) this.columns.value = null;
    });
    void this.look();
  }
}

/** Units that a quantity can be in, the usual ones first. */
export const unitsOf = (quantity: ImportQuantity): UnitSymbol[] =>
  (Object.keys(UNITS) as UnitSymbol[]).filter((unit) => UNITS[unit].dimension === IMPORT_DIMENSION[quantity]);
