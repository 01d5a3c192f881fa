/** A file of delimited text as readings for the archive: the digits of the file in its own units, row by row. */
import type { Reading, ShownValue } from '../../contract/reading.ts';
import {
  READOUT_PROFILE_SCHEMA,
  type ReadoutProfile,
  readoutProfile,
} from '../../contract/readout-profile.ts';
import { CURVE_COLUMN, type ChannelQuantity, type Curve } from '../../curve/curve.ts';
import { CORE_UNIT } from '../../quantity/units.ts';
import { plainNumberText } from './cell-number.ts';
import type { ImportFault } from './import-fault.ts';
import { IMPORT_DIMENSION, type ImportColumn, type ImportPlan, type ImportQuantity } from './import-plan.ts';
import type { ImportReport } from './import-report.ts';
import { DelimitedReader } from './read-delimited.ts';
import { shownDecimal } from './shown-decimal.ts';
import { unitBehindNumber } from './unit-behind-number.ts';

export interface ImportedReadings {
  readonly ok: true;
  readonly curve: Curve;
  readonly report: ImportReport;
  /** In the order of the file; each given out once. */
  readonly readings: () => Generator<Reading>;
}

/** Bytes that are read between two words on how far it is. */
const PIECE_BYTES = 1_048_576;

/** Reads the whole file by a settled plan. Never throws on bad input; what `onBytes` throws ends it. */
export function importReadings(
  bytes: Uint8Array,
  plan: ImportPlan,
  onBytes: (done: number) => void = () => undefined,
): ImportedReadings | { readonly ok: false; readonly fault: ImportFault } {
  const kept = plan.columns.filter(isKeptAsShown).map((column) => new ShownColumn(column, plan));
  const reader = new DelimitedReader(plan, (cells) => {
    for (const column of kept) column.take(cells);
  });
  for (let at = 0; at < bytes.length && !reader.failed; at += PIECE_BYTES) {
    onBytes(at);
    reader.push(bytes.subarray(at, at + PIECE_BYTES));
  }
  const read = reader.end();
  if (!read.ok) return read;
  const shown = plan.columns.map(
    (column) => kept.find((one) => one.column === column) ?? computedColumn(column, read.curve),
  );
  return {
    ok: true,
    curve: read.curve,
    report: read.report,
    *readings() {
      for (let i = 0; i < read.curve.length; i++)
        yield { chunkSeq: 0, lineIndex: i, status: 'ok', channels: shown.map((column) => column.at(i)) };
    },
  };
}

/** A profile like any other, so that whatever names the readout says that a file stood in its place. */
export function profileOfImport(plan: ImportPlan): ReadoutProfile {
  const fields = plan.columns.map((column) => quantityOf(column.quantity));
  return readoutProfile.parse({
    schema: READOUT_PROFILE_SCHEMA,
    name: 'imported from a file',
    notes: 'No readout was connected. The readings are the rows of a file; its bytes are kept with them.',
    mode: { kind: 'print-key' },
    format: { kind: 'delimited', delimiter: ',', fields },
    channels: plan.columns.map((column) => ({
      field: quantityOf(column.quantity),
      quantity: quantityOf(column.quantity),
      unit: { kind: 'fixed', unit: isKeptAsShown(column) ? column.unit : coreUnit(column) },
    })),
  });
}

/** True values become engineering values on the way in, clocks become seconds: they are kept as what they become. */
const isKeptAsShown = ({ quantity, written }: ImportColumn): boolean =>
  written === 'decimal' && !quantity.startsWith('true-');

const coreUnit = ({ quantity }: ImportColumn) => CORE_UNIT[IMPORT_DIMENSION[quantity]];

const quantityOf = (quantity: ImportQuantity): ChannelQuantity =>
  quantity === 'true-stress' ? 'stress' : quantity === 'true-strain' ? 'strain' : quantity;

interface Column {
  readonly at: (row: number) => ShownValue;
}

/** What stands in the cells of one column. */
class ShownColumn implements Column {
  readonly column: ImportColumn;
  readonly #plan: ImportPlan;
  readonly #mantissas: number[] = [];
  readonly #exponents: number[] = [];
  readonly #exact = new Map<number, string>();

  constructor(column: ImportColumn, plan: ImportPlan) {
    this.column = column;
    this.#plan = plan;
  }

  take(cells: readonly string[]): void {
    const cell = cells[this.column.cell] ?? '';
    const plain = plainNumberText(cell, this.#plan) ?? unitBehindNumber(cell, this.#plan)?.number;
    const { mantissa, exponent, exact } =
      plain === undefined ? { mantissa: Number.NaN, exponent: 0, exact: undefined } : shownDecimal(plain);
    if (exact !== undefined) this.#exact.set(this.#mantissas.length, exact);
    this.#mantissas.push(mantissa ?? Number.NaN);
    this.#exponents.push(exponent);
  }

  at(row: number): ShownValue {
    const mantissa = this.#mantissas[row] ?? Number.NaN;
    const { unit } = this.column;
    if (Number.isNaN(mantissa)) return { mantissa: null, exponent: 0, unit, status: 'blank' };
    const exact = this.#exact.get(row);
    return {
      mantissa,
      exponent: this.#exponents[row] ?? 0,
      unit,
      status: 'ok',
      ...(exact === undefined ? {} : { exact }),
    };
  }
}

function computedColumn(column: ImportColumn, curve: Curve): Column {
  const values = curve[CURVE_COLUMN[quantityOf(column.quantity)]];
  const unit = coreUnit(column);
  return {
    at: (row) => {
      const value = values?.[row] ?? Number.NaN;
      return Number.isFinite(value)
        ? { ...shownDecimal(String(value)), unit, status: 'ok' }
        : { mantissa: null, exponent: 0, unit, status: 'blank' };
    },
  };
}
