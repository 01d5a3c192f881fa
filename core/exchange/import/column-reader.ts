/** One column of an imported table: cells to numbers in the core's unit, exactly where the unit is a power of ten away. */
import { exactFromDecimal } from '../../quantity/exact.ts';
import { type UnitSymbol, UNITS, factorToCore } from '../../quantity/units.ts';
import { clockSeconds, dateTimeSeconds, isAbsent, plainNumberText } from './cell-number.ts';
import { counted } from '../../words/counted.ts';
import { shown } from './import-fault.ts';
import type { ImportColumn, ImportPlan, ImportQuantity } from './import-plan.ts';
import { unitBehindNumber } from './unit-behind-number.ts';

/** Why a row doesn't fit, as the end of a sentence "line 12 has …". */
export type MisfitReason = string;

const ROOM_AT_FIRST = 4_096;

export class ColumnReader {
  readonly quantity: ImportQuantity;
  /** Rows in which the column held no value. */
  absent = 0;
  readonly #column: ImportColumn;
  readonly #plan: ImportPlan;
  readonly #factor: number;
  /** "e3" for kN: appended to the digits, the nearest double is taken in one step. Null for other factors. */
  readonly #power: string | null;
  #values = new Float64Array(ROOM_AT_FIRST);
  #pending = Number.NaN;
  #beginning: { whole: number; fraction: number } | null = null;
  #last = -Infinity;
  #fallsBack = 0;
  #firstFallAt = 0;

  constructor(column: ImportColumn, plan: ImportPlan) {
    this.quantity = column.quantity;
    this.#column = column;
    this.#plan = plan;
    this.#factor = factorToCore(column.unit);
    this.#power = powerOfTen(column.unit);
  }

  /** Reads this column's cell of a row; the value is kept only when the whole row fits. */
  read(cells: readonly string[]): MisfitReason | null {
    const cell = cells[this.#column.cell] ?? '';
    if (this.#column.written === 'decimal') {
      const plain = plainNumberText(cell, this.#plan);
      if (plain !== null) return this.#readNumber(cell, plain);
    }
    if (isAbsent(cell)) {
      this.#pending = Number.NaN;
      return null;
    }
    return this.#column.written === 'decimal' ? this.#readWithUnit(cell) : this.#readTime(cell);
  }

  /** Keeps the value read last as that of reading `index`. */
  keep(index: number): void {
    if (index === this.#values.length) {
      const longer = new Float64Array(this.#values.length * 2);
      longer.set(this.#values);
      this.#values = longer;
    }
    const value = this.#pending;
    this.#values[index] = value;
    if (Number.isNaN(value)) this.absent++;
    else if (this.quantity === 'time') {
      if (value < this.#last) {
        if (this.#fallsBack === 0) this.#firstFallAt = index + 1;
        this.#fallsBack++;
      }
      this.#last = value;
    }
  }

  values(length: number): Float64Array {
    return this.#values.slice(0, length);
  }

  notes(): string[] {
    const notes: string[] = [];
    if (this.absent > 0)
      notes.push(
        `${this.#name()} is missing in ${counted(this.absent, 'row')}; those readings are kept without it.`,
      );
    if (this.#fallsBack > 0)
      notes.push(
        `Time runs backwards ${this.#fallsBack === 1 ? 'once' : `${String(this.#fallsBack)} times`}, first at reading ${String(this.#firstFallAt)}; the order of the file is kept.`,
      );
    return notes;
  }

  #toCore(plain: string): number {
    if (this.#power === null || /[eE]/.test(plain)) return Number(plain) * this.#factor;
    return Number(plain + this.#power);
  }

  #readWithUnit(cell: string): MisfitReason | null {
    const found = unitBehindNumber(cell, this.#plan);
    if (found === null) return this.#reason(cell, 'which is not a number');
    if (found.unit !== this.#column.unit)
      return this.#reason(cell, `but the column is in ${this.#column.unit}`);
    return this.#readNumber(cell, found.number);
  }

  #readNumber(cell: string, text: string): MisfitReason | null {
    this.#pending = this.#toCore(text);
    return Number.isFinite(this.#pending) ? null : this.#reason(cell, 'which is out of range');
  }

  #readTime(cell: string): MisfitReason | null {
    if (this.#column.written === 'clock') {
      const seconds = clockSeconds(cell);
      if (seconds === null) return this.#reason(cell, 'which is no clock reading like 00:12:30.5');
      this.#pending = seconds;
      return null;
    }
    const moment = dateTimeSeconds(cell);
    if (moment === null) return this.#reason(cell, 'which is no date and time like 2024-05-17 09:12:30.5');
    this.#beginning ??= moment;
    this.#pending = moment.whole - this.#beginning.whole + (moment.fraction - this.#beginning.fraction);
    return null;
  }

  #reason(cell: string, why: string): MisfitReason {
    return `${shown(cell, 30)} in the column ${this.#name()}, ${why}`;
  }

  #name(): string {
    return this.#column.name === '' ? this.quantity : this.#column.name;
  }
}

/** The exponent that turns the unit into the core's, "e3" for kN, where the factor is a power of ten. */
function powerOfTen(unit: UnitSymbol): string | null {
  for (let power = -9; power <= 9; power++) {
    const factor = exactFromDecimal(`1e${String(power)}`);
    if (factor !== null && UNITS[unit].toCore.equals(factor)) return power === 0 ? '' : `e${String(power)}`;
  }
  return null;
}
