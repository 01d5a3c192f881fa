/**
 * An archive as it is after years: pulls by the hundred thousand, in sets, with their specimens and fracture notes. One
 * pull is recorded as any other; the rest are its rows once more, each with a specimen, a time and a peak of its own, so
 * that making them takes a minute. Only the audit's chain, which says of each who kept it, is left out.
 */
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { chunksOfLines, makePull } from './made-pull.ts';
import { PROFILE } from './pull-lines.ts';

export const SETS = 400;
export const BEGUN_MS = Date.UTC(2016, 0, 4);
const BETWEEN_MS = 3_100_000;
/** Enough for a picture of the curve. */
const READINGS = 60;
/** As many lines a batch as half a second has. */
const LINES_A_BATCH = 500;
/** What is written before the database takes its log in: of long pulls the log would else be as large as the archive. */
const READINGS_A_COMMIT = 10_000_000;
const PLACES = ['weld-metal', 'base-metal', 'heat-affected-zone', 'fusion-line'];
const GEOMETRIES = [
  { kind: 'flat', width: '19.05 mm', thickness: '6.35 mm' },
  { kind: 'round', diameter: '12.7 mm' },
  { kind: 'pipe-strip', width: '19 mm', wall: '5 mm', outerDiameter: '114.3 mm' },
];

/**
 * Rows of `pulls` pulls of `readings` each, numbered from 1, and of their sets; `makeAnew` then makes the index of the
 * search.
 */
export function makeRows(archive: Archive, pulls: number, readings = READINGS): void {
  const { connection } = archive;
  const lines = chunksOfLines(readings, 1);
  const { pullId: first } = makePull({
    archive,
    profile: PROFILE,
    chunks: lines,
    chunksPerBatch: Math.min(readings, LINES_A_BATCH),
  });
  const sets = Array.from({ length: SETS }, (_, i) => saveSetOf(archive, i));
  const again = (table: string, own: string): string => {
    const columns = connection.pragma(`table_info(${table})`) as { name: string }[];
    const taken = columns.map(({ name }) => (own.includes(`:${name}`) ? `:${name}` : name)).join(', ');
    return `INSERT INTO ${table} SELECT ${taken} FROM ${table} WHERE pull_id = ${String(first)}`;
  };
  const specimen = connection.prepare(
    "INSERT INTO specimen (name, form_json, saved_wall_ms, program_version) VALUES (?, ?, 0, 'bench')",
  );
  const pull = connection.prepare(again('pull', ':pull_id :specimen_id :operator :started_wall_ms'));
  const blocks = ['raw_block', 'reading_block'].map((table) => connection.prepare(again(table, ':pull_id')));
  const end = connection.prepare(again('pull_end', ':pull_id :ended_wall_ms :peak_force_n'));
  const note = connection.prepare('INSERT INTO fracture_note (pull_id, note_json, wall_ms) VALUES (?, ?, 0)');
  const member = connection.prepare(
    'INSERT INTO set_member (set_id, specimen_id, joined_wall_ms) VALUES (?, ?, 0)',
  );
  const aCommit = Math.ceil(READINGS_A_COMMIT / readings);
  const between = connection.transaction((from: number, to: number) => {
    for (let i = from; i <= to; i++) {
      const form = {
        id: `T-${String(i)}`,
        geometry: GEOMETRIES[i % 3],
        notes: i % 17 === 0 ? 'undercut at the toe' : 'as welded',
      };
      const wallMs = BEGUN_MS + i * BETWEEN_MS;
      const specimenId = Number(specimen.run(form.id, JSON.stringify(form)).lastInsertRowid);
      const operator = `Operator ${String(i % 12)}`;
      pull.run({ pull_id: i, specimen_id: specimenId, operator, started_wall_ms: wallMs });
      for (const block of blocks) block.run({ pull_id: i });
      end.run({ pull_id: i, ended_wall_ms: wallMs, peak_force_n: 42_000 + ((i * 7919) % 30_000) });
      note.run(
        i,
        JSON.stringify({ place: PLACES[i % 4], appearance: i % 5 === 0 ? 'cup and cone' : 'shear' }),
      );
      if (i % 2 === 0) member.run(sets[(i * 31) % SETS] ?? 1, specimenId);
    }
  });
  for (let from = first + 1; from <= pulls; from += aCommit)
    between(from, Math.min(pulls, from + aCommit - 1));
}

function saveSetOf({ connection }: Archive, i: number): number {
  const form = {
    name: `Coupon ${String(i)} of job ${String(i % 37)}`,
    purpose: 'procedure-qualification',
    rulePackId: i % 3 === 0 ? 'shop-practice' : 'asme-ix',
    baseMetals: [
      {
        designation: i % 2 === 0 ? 'SA-36' : 'SA-516 Grade 70',
        minimum: '58 ksi',
        heat: `H${String(4000 + i)}`,
      },
    ],
    filler: { classification: i % 4 === 0 ? 'E7018' : 'ER70S-6', lot: `FL-${String(i % 60)}` },
    specimenType: 'transverse-flat',
    welder: `Welder ${String(i % 25)}`,
    documents: [{ kind: 'pqr', number: `PQR-${String(100 + i)}/2` }],
  } as const;
  return saveSet(connection, { form }, { wallMs: 0, programVersion: 'bench', packs: builtInPacks() });
}
