/** What people said of a pull after its record, in another archive: all of it for a pull that comes, else what follows. */
import { EVALUATIONS_PER_PULL_MAX, PHOTOS_PER_PULL_MAX } from '../limits.ts';
import { type Additions, NOTHING, allOf, historyAddition } from './merge-additions.ts';
import { onceSaid } from './merge-sets.ts';
import type { SpecimenNumbers } from './merge-specimens.ts';
import { contentHash } from './row-hash.ts';
import type { Cell, Row, TakenRows } from './taken-rows.ts';

export interface PullInBoth {
  readonly there: number;
  /** Null until it is put in: then nothing is said of it here. */
  readonly here: number | null;
  /** Known when rows are put in. */
  readonly numberHere: () => number;
}

export function planStatements(
  taken: TakenRows,
  pull: PullInBoth,
  specimens: SpecimenNumbers | null,
): Additions {
  return allOf([
    planHistory(taken, pull, {
      name: 'fractures',
      table: 'fracture_note',
      changed: () => ({}),
      max: Infinity,
    }),
    // An evaluation rests on a specimen record: where the chains differ it has nothing to rest on here.
    specimens === null
      ? planWithoutSpecimen(taken, pull)
      : planHistory(taken, pull, {
          name: 'evaluations',
          table: 'evaluation',
          changed: (own) => ({ specimen_id: specimens.of(own.specimen_id) }),
          max: EVALUATIONS_PER_PULL_MAX,
        }),
    planPhotos(taken, pull),
    planHistory(taken, pull, {
      name: 'stated days',
      table: 'stated_day',
      changed: () => ({}),
      max: Infinity,
    }),
    onceSaid(
      'voidings',
      said(taken, pull.here, 'SELECT * FROM pull_void WHERE pull_id = ?'),
      taken.rowsThere('SELECT * FROM pull_void WHERE pull_id = ?', pull.there),
      (own) => taken.put('pull_void', own, { pull_id: pull.numberHere() }),
    ),
  ]);
}

const said = (taken: TakenRows, here: number | null, sql: string): Row[] =>
  here === null ? [] : taken.rowsHere(sql, here);

interface History {
  readonly name: string;
  readonly table: 'fracture_note' | 'evaluation' | 'stated_day';
  readonly changed: (own: Row) => Row;
  /** Of a pull. */
  readonly max: number;
}

/** Rows of which each takes the place of the one before. */
function planHistory(taken: TakenRows, pull: PullInBoth, { name, table, changed, max }: History): Additions {
  const key = `${table}_id`;
  const sql = `SELECT * FROM ${table} WHERE pull_id = ? ORDER BY ${key}`;
  const here = said(taken, pull.here, sql);
  const there = taken.rowsThere(sql, pull.there);
  if (there.length > max) return { take: [], conflicts: [name] };
  return historyAddition(name, here, there, (rows) => {
    let supersedes = here.at(-1)?.[key] ?? null;
    for (const own of rows)
      supersedes = taken.put(table, own, {
        [key]: null,
        pull_id: pull.numberHere(),
        supersedes,
        ...changed(own),
      });
  });
}

function planWithoutSpecimen(taken: TakenRows, pull: PullInBoth): Additions {
  const sql = 'SELECT * FROM evaluation WHERE pull_id = ? ORDER BY evaluation_id';
  const planned = historyAddition(
    'evaluations',
    said(taken, pull.here, sql),
    taken.rowsThere(sql, pull.there),
    () => undefined,
  );
  return planned.take.length === 0 ? planned : { take: [], conflicts: ['evaluations'] };
}

/** Everything of a photo but its bytes, which its hash stands for. */
const PHOTOS = `SELECT photo_id, pull_id, media_type, width_px, height_px, byte_count, sha256, file_name, caption, added_by,
  wall_ms, supersedes, reason FROM photo WHERE pull_id = ? ORDER BY photo_id`;
const WITHDRAWN = 'SELECT w.* FROM photo_withdrawal w JOIN photo USING (photo_id) WHERE pull_id = ?';

/** Photos stand beside each other; only one that takes the place of another must find it as it was. */
function planPhotos(taken: TakenRows, pull: PullInBoth): Additions {
  const here = said(taken, pull.here, PHOTOS);
  const withdrawnHere = said(taken, pull.here, WITHDRAWN);
  const numbers = new Map<number, number>();
  const free = [...here];
  // The very same photo that somebody added here too.
  const isHere = (own: Row): Row | undefined =>
    here.find((one) => hex(one.sha256) === hex(own.sha256) && !isGoneHere(one));
  const isGoneHere = (one: Row): boolean =>
    here.some(({ supersedes }) => supersedes === one.photo_id) ||
    withdrawnHere.some(({ photo_id: id }) => id === one.photo_id);
  const coming: Row[] = [];
  for (const own of taken.rowsThere(PHOTOS, pull.there)) {
    const at = free.findIndex((one) => contentHash(one) === contentHash(own));
    const same = isHere(own);
    if (at < 0 && same !== undefined) numbers.set(Number(own.photo_id), Number(same.photo_id));
    else if (at < 0) coming.push(own);
    else numbers.set(Number(own.photo_id), Number(free.splice(at, 1)[0]?.photo_id));
  }
  const isGone = (idThere: Cell | undefined): boolean => {
    const known = here.find((one) => one.photo_id === numbers.get(Number(idThere)));
    return known !== undefined && isGoneHere(known);
  };
  const comes = (idThere: Cell | undefined): boolean => coming.some((own) => own.photo_id === idThere);
  const withdrawals = taken.rowsThere(WITHDRAWN, pull.there).map((own) => {
    const id = numbers.get(Number(own.photo_id));
    const known = withdrawnHere.find((one) => one.photo_id === id);
    if (known !== undefined)
      return contentHash(known) === contentHash(own)
        ? NOTHING
        : { take: [], conflicts: ['withdrawn photos'] };
    if (isGone(own.photo_id)) return { take: [], conflicts: ['withdrawn photos'] };
    return {
      take: [
        {
          name: 'withdrawn photos',
          count: 1,
          put: () =>
            void taken.put('photo_withdrawal', own, { photo_id: numbers.get(Number(own.photo_id)) ?? null }),
        },
      ],
      conflicts: [],
    };
  });
  if (
    here.length + coming.length > PHOTOS_PER_PULL_MAX ||
    coming.some(({ supersedes }) => supersedes !== null && !comes(supersedes) && isGone(supersedes))
  )
    return { take: [], conflicts: ['photos'] };
  const photos = coming.map((own) => ({
    name: 'photos',
    count: 1,
    put: () => {
      const [whole = own] = taken.rowsThere('SELECT * FROM photo WHERE photo_id = ?', own.photo_id ?? null);
      const supersedes = own.supersedes === null ? null : (numbers.get(Number(own.supersedes)) ?? null);
      numbers.set(
        Number(own.photo_id),
        taken.put('photo', whole, { photo_id: null, pull_id: pull.numberHere(), supersedes }),
      );
    },
  }));
  return allOf([{ take: photos, conflicts: [] }, ...withdrawals]);
}

const hex = (cell: Cell | undefined): string =>
  cell instanceof Uint8Array ? Buffer.from(cell).toString('hex') : String(cell);
