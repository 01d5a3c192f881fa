/**
 * The archive: bytes on disk for each reading of a closed pull, and reading a long curve back. The bytes are counted
 * in whole pages of the database, the room that a page leaves unused with them.
 */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { Archive } from '../../core/archive/archive.ts';
import { readingBlocks } from '../../core/archive/read-blocks.ts';
import { SimulatedFrame } from '../../drivers/simulated-frame/simulated-frame.ts';
import { shippedScenarios, profileOfScenario } from '../../drivers/simulated-frame/scenarios.ts';
import { benchFolder } from './support/bench-recorder.ts';
import { type MadePull, chunksOfLines, makePull } from './support/made-pull.ts';
import { PROFILE, extensionOf, loadOf } from './support/pull-lines.ts';
import { alternate, milliseconds } from './support/rounds.ts';
import { short } from './support/statistics.ts';
import { type Row, comparedRow, goalText, printTable } from './support/table.ts';

const LONG_READINGS = 1_000_000;
const SIZED_READINGS = 240_000;
const ROUNDS = 5;
const BYTES_OF_TWO_DOUBLES = 16;

const folder = benchFolder();

function openArchive(name: string): Archive {
  return new Archive(join(folder, name), { programVersion: 'bench', wallMs: Date.now });
}

const sum = z.object({ bytes: z.number().nullable() });

/** Whole pages of a table and its indexes. */
function pageBytes(archive: Archive, table: string): number {
  const row = archive.connection
    .prepare(
      `SELECT sum(pgsize) AS bytes FROM dbstat
       WHERE name IN (SELECT name FROM sqlite_schema WHERE tbl_name = ?)`,
    )
    .get(table);
  return sum.parse(row).bytes ?? 0;
}

function sizeRows(what: string, archive: Archive, made: MadePull): Row[] {
  let decoded = 0;
  for (const block of readingBlocks(archive.connection, made.pullId)) decoded += block.readings.length;
  if (decoded !== made.readings) throw new Error(`${decoded} readings came back of ${made.readings}`);
  const readings = pageBytes(archive, 'reading_block');
  const both = readings + pageBytes(archive, 'raw_block');
  const aReading = readings / made.readings;
  const rawALine = made.rawBytes / made.readings;
  return [
    {
      what: `${what}: readings, bytes each`,
      floor: `${BYTES_OF_TWO_DOUBLES} (two doubles)`,
      measured: short(aReading),
      ratio: `${short(aReading / BYTES_OF_TWO_DOUBLES)} ×`,
      goal: goalText('≤ 3.2 bytes', aReading <= 3.2),
      spread: `${made.readings} readings`,
    },
    {
      what: `${what}: readings against the raw text that they came from`,
      floor: `${short(rawALine)} (the text)`,
      measured: short(aReading),
      ratio: `${short(aReading / rawALine)} ×`,
      goal: '',
      spread: '',
    },
    {
      what: `${what}: raw text, its times and readings together`,
      floor: `${short(rawALine)} (the text)`,
      measured: short(both / made.readings),
      ratio: `${short(both / made.rawBytes)} ×`,
      goal: goalText('≤ 0.5 ×', both <= made.rawBytes / 2),
      spread: '',
    },
  ];
}

/** A row a reading, the fastest way that this library has to read them. */
function rowFile(): { readonly read: () => number; readonly close: () => void } {
  const database = new Database(join(folder, 'rows.db'));
  database.pragma('journal_mode = WAL');
  database.exec(
    'CREATE TABLE reading (seq INTEGER PRIMARY KEY, elapsed_us INTEGER NOT NULL, load_n REAL NOT NULL, extension_mm REAL NOT NULL) STRICT',
  );
  const insert = database.prepare('INSERT INTO reading VALUES (?, ?, ?, ?)');
  database.transaction(() => {
    for (let i = 0; i < LONG_READINGS; i++)
      insert.run(i, i * 1000, Math.round(loadOf(i) * 10) / 10, Math.round(extensionOf(i) * 1e4) / 1e4);
  })();
  const select = database.prepare('SELECT elapsed_us, load_n, extension_mm FROM reading ORDER BY seq').raw();
  return {
    read: () => {
      const timeS = new Float64Array(LONG_READINGS);
      const loadN = new Float64Array(LONG_READINGS);
      const extensionMm = new Float64Array(LONG_READINGS);
      let i = 0;
      for (const row of select.iterate() as Iterable<[number, number, number]>) {
        timeS[i] = row[0] / 1e6;
        loadN[i] = row[1];
        extensionMm[i] = row[2];
        i++;
      }
      return i;
    },
    close: () => database.close(),
  };
}

const sized = openArchive('sized.gaugemark');
const rows = sizeRows(
  'lines of 24 bytes, one a chunk',
  sized,
  makePull({
    archive: sized,
    profile: PROFILE,
    chunks: chunksOfLines(SIZED_READINGS, 1),
    chunksPerBatch: 50,
  }),
);
sized.close();
for (const scenario of shippedScenarios().slice(0, 2)) {
  const archive = openArchive(`${scenario.name}.gaugemark`);
  const profile = profileOfScenario(scenario);
  const frame = new SimulatedFrame({ ...scenario, rateHz: 1_000 }, { profile });
  const made = makePull({ archive, profile, chunks: frame.lines(), chunksPerBatch: 50 });
  rows.push(...sizeRows(`simulated frame, ${scenario.name} at 1 000/s`, archive, made));
  archive.close();
}

const long = openArchive('long.gaugemark');
const made = makePull({
  archive: long,
  profile: PROFILE,
  chunks: chunksOfLines(LONG_READINGS, 16),
  chunksPerBatch: 64,
});
const rowsOfReadings = rowFile();
const once = {
  floor: () => milliseconds(() => rowsOfReadings.read()),
  measured: () => milliseconds(() => long.curve(made.pullId)),
};
await alternate(3, once);
const { floor, measured } = await alternate(ROUNDS, once);
rows.push(
  comparedRow({ what: 'a curve of 10⁶ readings back, exact', unit: 'ms', floor, measured, atMost: 0.1 }),
);
printTable('Archive: size and reading back', rows);
rowsOfReadings.close();
long.close();
