/** What a person says of columns as text and back, and long work that is stopped. */
import { chmodSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import fc from 'fast-check';
import { expect, it, vi } from 'vitest';
import { ArchiveRefusal } from '../../../core/archive/archive-fault.ts';
import { migrate } from '../../../core/archive/migrate.ts';
import { MIGRATIONS } from '../../../core/archive/migrations/index.ts';
import type { ExchangeProgress } from '../../../core/contract/exchange-requests.ts';
import { columnsFromText, columnsTextOf } from '../../../core/exchange/import/columns-text.ts';
import { IMPORT_DIMENSION, IMPORT_QUANTITIES } from '../../../core/exchange/import/import-plan.ts';
import { UNITS, type UnitSymbol } from '../../../core/quantity/units.ts';
import { importFile } from '../../../electron/recorder/import-file.ts';
import { longWork } from '../../../electron/recorder/long-work.ts';
import { mergeFrom } from '../../../electron/recorder/merge-from.ts';
import { SPECIMEN, WALL_MS, keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';

it('columns said in the window are read as what was said, whatever the units', () => {
  const column = fc
    .constantFrom(...IMPORT_QUANTITIES)
    .chain((quantity) =>
      fc
        .constantFrom(
          ...(Object.keys(UNITS) as UnitSymbol[]).filter(
            (unit) => UNITS[unit].dimension === IMPORT_DIMENSION[quantity],
          ),
        )
        .map((unit) => ({ quantity, unit })),
    );
  fc.assert(
    fc.property(
      fc.uniqueArray(column, { minLength: 1, selector: ({ quantity }) => quantity }),
      fc.nat(3),
      (said, before) => {
        const columns = [...Array.from({ length: before }, () => null), ...said];
        const read = columnsFromText(columnsTextOf(columns));
        if (!read.ok) throw new Error(read.fault.sentence);
        expect(read.columns.map(({ cell, quantity, unit }) => ({ cell, quantity, unit }))).toEqual(
          said.map((one, i) => ({ cell: before + i, ...one })),
        );
      },
    ),
  );
});

it('an import that is stopped keeps nothing, a merge what it has taken whole', () => {
  const folder = scratchFolder();
  const archive = openArchive(join(folder, 'a.gaugemark'));
  const file = join(folder, 'curve.csv');
  writeFileSync(
    file,
    `time_s,force_kN\n${Array.from({ length: 30_000 }, (_, i) => `${String(i)},${String(i % 50)}`).join('\n')}\n`,
  );
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const told: number[] = [];
  const work = longWork(stop, ({ done }) => {
    told.push(done);
    // Somebody presses as soon as it is told for the first time.
    Atomics.store(stop, 0, 1);
  });
  expect(() => importFile(archive, { file, specimen: SPECIMEN }, work)).toThrow(ArchiveRefusal);
  expect(told).toHaveLength(1);
  expect(archive.info()).toMatchObject({ pullCount: 0, specimenCount: 0, readingCount: 0 });

  const other = openArchive(join(folder, 'b.gaugemark'));
  for (let i = 0; i < 3; i++) keptPull(other);
  other.close();
  Atomics.store(stop, 0, 0);
  const merging = longWork(stop, () => undefined);
  const merged = mergeFrom(archive, join(folder, 'b.gaugemark'), true, {
    ...merging,
    step: () => void Atomics.store(stop, 0, 1),
  });
  expect(merged).toMatchObject({ stopped: true, taken: 2, hereAlready: 0 });
  expect(archive.check({}).lines.filter(({ ok }) => !ok)).toEqual([]);
});

it('a merge is stopped while the other archive, which can’t be read in place, is copied; no copy is left', () => {
  const folder = scratchFolder();
  const archive = openArchive(join(folder, 'a.gaugemark'));
  const path = join(folder, 'b.gaugemark');
  const other = openArchive(path);
  keptPull(other);
  // More than one part of the copy.
  other.connection.exec('CREATE TABLE filler (bytes BLOB)');
  other.connection.prepare('INSERT INTO filler VALUES (zeroblob(20000000))').run();
  other.connection.exec('DROP TABLE filler');
  other.close();
  chmodSync(path, 0o400);
  const temporary = join(folder, 'temporary');
  mkdirSync(temporary);
  vi.stubEnv('TMPDIR', temporary);
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const told: ExchangeProgress[] = [];
  const work = longWork(stop, (progress) => {
    told.push(progress);
    Atomics.store(stop, 0, 1);
  });
  expect(() => mergeFrom(archive, path, true, work)).toThrow('It was stopped; nothing of it was kept.');
  expect(told).toMatchObject([{ work: 'copy' }]);
  expect(archive.info().pullCount).toBe(0);
  expect(readdirSync(temporary)).toEqual([]);
  vi.unstubAllEnvs();
});

it.each([
  ['between two steps of its form', () => true],
  ['while its rows are hashed', ({ done }: ExchangeProgress) => done > 0],
])(
  'a merge is stopped while the copy of an older archive is brought to the present form, %s; no copy is left',
  (_when, presses) => {
    const folder = scratchFolder();
    const archive = openArchive(join(folder, 'a.gaugemark'));
    const path = join(folder, 'old.gaugemark');
    const old = new Database(path);
    migrate(old, path, { programVersion: '0.0.1', wallMs: () => WALL_MS }, MIGRATIONS.slice(0, 5));
    const specimen = old.prepare(
      "INSERT INTO specimen (name, form_json, saved_wall_ms, program_version) VALUES ('T', ?, 0, '0.0.1')",
    );
    for (let i = 0; i < 500; i++) specimen.run(JSON.stringify(SPECIMEN));
    old.close();
    const before = readFileSync(path);
    const temporary = join(folder, 'temporary');
    mkdirSync(temporary);
    vi.stubEnv('TMPDIR', temporary);
    const stop = new Int32Array(new SharedArrayBuffer(4));
    const { isStopped, step } = longWork(stop, () => undefined);
    const told: ExchangeProgress[] = [];
    const work = {
      isStopped,
      step: (...[doing, done, of]: Parameters<typeof step>) => {
        step(doing, done, of);
        told.push({ work: doing, done, of });
        if (doing === 'bring-up' && presses({ work: doing, done, of })) Atomics.store(stop, 0, 1);
      },
    };
    expect(() => mergeFrom(archive, path, true, work)).toThrow('It was stopped; nothing of it was kept.');
    expect(told.at(-1)).toMatchObject({ work: 'bring-up' });
    expect(readdirSync(temporary)).toEqual([]);
    expect(readFileSync(path).equals(before)).toBe(true);
    vi.unstubAllEnvs();
  },
);
