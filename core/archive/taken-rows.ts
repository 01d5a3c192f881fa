/** Rows of one archive that become rows of another. */
import { z } from 'zod';
import { type RowName, WITNESSED, type Witnessed } from './row-hash.ts';
import { type Connection, allRows, insert, sqlBlob } from './sql.ts';

export type Cell = string | number | Uint8Array | null;
export type Row = Readonly<Record<string, Cell>>;
const row = z.record(z.string(), z.union([z.string(), z.number(), z.null(), sqlBlob]));

/** What was put in is named for the audit chain. */
export class TakenRows {
  readonly named: RowName[] = [];
  readonly #from: Connection;
  readonly here: Connection;

  constructor(from: Connection, here: Connection) {
    this.#from = from;
    this.here = here;
  }

  rowsThere(sql: string, ...values: Cell[]): Row[] {
    return allRows(this.#from, row, sql, ...values);
  }

  rowsHere(sql: string, ...values: Cell[]): Row[] {
    return allRows(this.here, row, sql, ...values);
  }

  /** One after the other: blocks of a long pull don't fit into memory together. */
  *eachThere(sql: string, ...values: Cell[]): Generator<Row> {
    for (const one of this.#from.prepare(sql).iterate(...values)) yield row.parse(one);
  }

  /** `changed` takes the place of columns; a number that is null is given anew. Its number here. */
  put(table: string, given: Row, changed: Row = {}): number {
    const id = insert(this.here, table, { ...given, ...changed });
    const witnessed: Witnessed | undefined = WITNESSED.find((one) => one === table);
    if (witnessed !== undefined) this.named.push({ table: witnessed, id });
    return id;
  }
}
