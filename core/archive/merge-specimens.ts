/** The specimen of a pull that comes from another archive, with every correction of it. */
import { z } from 'zod';
import { type Additions, historyAddition } from './merge-additions.ts';
import { specimenChain } from './specimen-chain.ts';
import { insert, oneRow, sqlInteger } from './sql.ts';
import type { Cell, Row, TakenRows } from './taken-rows.ts';

/** Numbers of specimens there, and what they are here once everything is put in. */
export class SpecimenNumbers {
  readonly #here = new Map<number, number>();
  readonly there: readonly number[];

  constructor(there: readonly Row[]) {
    this.there = there.map((row) => Number(row.specimen_id));
  }

  set(there: Cell | undefined, here: number): void {
    this.#here.set(Number(there), here);
  }

  /** Null while it is not here. */
  find(there: Cell | undefined): number | null {
    return this.#here.get(Number(there)) ?? null;
  }

  of(there: Cell | undefined): number {
    const here = this.find(there);
    if (here === null) throw new Error(`specimen ${String(there)} is in no chain of corrections`);
    return here;
  }
}

export const CORRECTED_DIMENSIONS = 'corrected dimensions';

/**
 * The chain of corrections there, against the one here.
 *
 * @param here the specimen of the pull here; null for a pull that is not here: its specimen may have come with another
 */
export function planSpecimens(
  taken: TakenRows,
  there: number,
  here: number | null,
): Additions & { readonly numbers: SpecimenNumbers } {
  const chainThere = taken.rowsThere(specimenChain('s.*'), there);
  const known = here ?? chainThere.map((own) => specimenHere(taken, own)).find((id) => id !== null) ?? null;
  const chainHere = known === null ? [] : taken.rowsHere(specimenChain('s.*'), known);
  const numbers = new SpecimenNumbers(chainThere);
  const planned = historyAddition(CORRECTED_DIMENSIONS, chainHere, chainThere, (rows) => {
    for (const own of rows) {
      const supersedes = own.supersedes === null ? null : numbers.of(own.supersedes);
      const id = taken.put('specimen', own, { specimen_id: null, supersedes });
      numbers.set(own.specimen_id, id);
      for (const measured of taken.rowsThere(
        'SELECT * FROM measurement WHERE specimen_id = ?',
        own.specimen_id ?? null,
      ))
        insert(taken.here, 'measurement', { ...measured, specimen_id: id });
    }
  });
  if (planned.conflicts.length === 0)
    for (const [place, own] of chainThere.entries()) {
      const same = chainHere[place];
      if (same !== undefined) numbers.set(own.specimen_id, Number(same.specimen_id));
    }
  return { ...planned, numbers };
}

/** The same specimen of an earlier merge: word for word, kept at the same moment. */
export function specimenHere(taken: TakenRows, own: Row): number | null {
  return (
    oneRow(
      taken.here,
      z.object({ specimen_id: sqlInteger }),
      'SELECT specimen_id FROM specimen WHERE name = ? AND saved_wall_ms = ? AND form_json = ? LIMIT 1',
      own.name ?? null,
      own.saved_wall_ms ?? null,
      own.form_json ?? null,
    )?.specimen_id ?? null
  );
}
