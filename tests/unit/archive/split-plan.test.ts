/** Which pulls go into the file of which year. What is asked here is only the plan; the splitting has its own test. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import type { Archive } from '../../../core/archive/archive.ts';
import { joinSet } from '../../../core/archive/member-store.ts';
import { saveSet } from '../../../core/archive/set-store.ts';
import { planSplit } from '../../../core/archive/split-archive.ts';
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
