/** What every file of a split archive needs of the original to be worked with alone: people, laboratory, instruments, readouts. */
import type { RowName } from './row-hash.ts';
import type { Connection } from './sql.ts';
import { TakenRows } from './taken-rows.ts';

/** In an order in which whatever a row names is there before it. Numbers stay: the file is fresh. */
const REGISTERS = ['person', 'laboratory', 'instrument', 'instrument_statement', 'calibration'] as const;

/** Rows are named by the entry that tells of the split. Saved searches are a convenience and in no entry. */
export function takeRegisters(original: Connection, part: Connection): RowName[] {
  const taken = new TakenRows(original, part);
  for (const table of REGISTERS)
    for (const row of taken.rowsThere(`SELECT * FROM ${table} ORDER BY ${table}_id`)) taken.put(table, row);
  for (const row of taken.rowsThere('SELECT * FROM readout_profile WHERE offered = 1 ORDER BY profile_id'))
    taken.put('readout_profile', row);
  for (const row of taken.rowsThere('SELECT * FROM saved_search')) taken.put('saved_search', row);
  return taken.named;
}
