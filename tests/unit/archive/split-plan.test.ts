/** Which pulls go into the file of which year, and what a killed split left. The splitting itself has its own test. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { joinSet } from '../../../core/archive/member-store.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { leftParts } from '../../../core/archive/left-parts.ts';
import { planSplit, splitByYear } from '../../../core/archive/split-archive.ts';
import { END, SPECIMEN, WALL_MS, batch, newPull, openArchive, scratchFolder } from './made-archive.ts';

const pullOf = (archive: Archive, specimenId: number, year: number): number => {
  const pullId = archive.beginPull(newPull(specimenId, { startedWallMs: Date.UTC(year, 5, 1) }));
  archive.closePull(batch(pullId), END);
  return pullId;
};

it('keeps a set together when a specimen was corrected between its pull and its joining', () => {
  const archive = openArchive(join(scratchFolder(), 'a.gaugemark'));
  const setId = archive.sets((connection, keeping) =>
    saveSet(
      connection,
      {
        form: {
          name: 'Bridge post 12',
          purpose: 'procedure-qualification',
          rulePackId: 'iso-15614-1',
          baseMetals: [{ designation: 'S355' }],
          specimenType: 'transverse-flat',
        },
      },
      { ...keeping, packs: builtInPacks() },
    ),
  );
  const early = archive.saveSpecimen({ specimen: SPECIMEN });
  const inDecember = pullOf(archive, early, 2025);
  const measuredAfter = archive.saveSpecimen({
    specimen: { ...SPECIMEN, gaugeLength: '51 mm' },
    supersedes: early,
    reason: 'measured after the break',
  });
  const late = archive.saveSpecimen({ specimen: { ...SPECIMEN, id: 'T-2' } });
  const inJanuary = pullOf(archive, late, 2026);
  const alone = pullOf(archive, archive.saveSpecimen({ specimen: { ...SPECIMEN, id: 'T-3' } }), 2026);
  for (const specimenId of [measuredAfter, late])
    archive.sets((connection) => joinSet(connection, { setId, specimenId }, WALL_MS));

  const { parts } = planSplit(archive.connection);
  expect(parts.map(({ year, pullIds }) => ({ year, pullIds }))).toEqual([
    { year: 2025, pullIds: [inDecember, inJanuary] },
    { year: 2026, pullIds: [alone] },
  ]);
});

it('takes away what a killed split left, and no file of any other name or of a process that is there', () => {
  const folder = scratchFolder();
  const path = join(folder, 'shop (1).gaugemark');
  const archive = openArchive(path);
  pullOf(archive, archive.saveSpecimen({ specimen: SPECIMEN }), 2026);
  // A process that has ended, and one that is there.
  const gone = spawnSync(process.execPath, ['--version']).pid;
  const alive = process.ppid;
  const part = 'shop (1)-2025.gaugemark';
  const own = [
    ...['', '-wal', '-journal', '-shm'].map((suffix) => `${part}.part-${String(gone)}${suffix}`),
    `shop (1).gaugemark.copy-${String(gone)}`,
    `shop (1).gaugemark.copy-${String(gone)}.part-${String(gone)}`,
  ];
  const others = [
    `${part}.part-${String(alive)}`,
    `shop (1).gaugemark.copy-${String(alive)}`,
    `shop 1-2025.gaugemark.part-${String(gone)}`,
    `other-2025.gaugemark.part-${String(gone)}`,
    `${part}.part-${String(gone)}.txt`,
    `${part}.part-`,
    `x${part}.part-${String(gone)}`,
    part,
  ];
  for (const name of [...own, ...others]) writeFileSync(join(folder, name), 'x');
  mkdirSync(join(folder, `shop (1)-2024.gaugemark.part-${String(gone)}`));
  expect(
    leftParts(folder, path)
      .map((one) => basename(one))
      .toSorted(),
  ).toEqual(own.toSorted());
  const told: string[] = [];
  const [made] = splitByYear(archive, folder, {
    programVersion: '9.9.9',
    wallMs: () => WALL_MS,
    checkOf: () => ({}),
    onLeft: (paths) => told.push(...paths.map((one) => basename(one))),
  });
  expect(told.toSorted()).toEqual(own.toSorted());
  const names = readdirSync(folder);
  expect(names.filter((name) => own.includes(name))).toEqual([]);
  expect(names).toEqual(expect.arrayContaining([...others, basename(made?.path ?? '')]));
  expect(names).toContain(`shop (1)-2024.gaugemark.part-${String(gone)}`);
});
