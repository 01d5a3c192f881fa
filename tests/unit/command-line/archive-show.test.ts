/** `gaugemark archive show`: what stands beside the readings is told, lines that gave none among it. */
import { join } from 'node:path';
import { expect, it } from 'vitest';
import {
  END,
  SPECIMEN,
  batch,
  batchesOfLines,
  newPull,
  openArchive,
  scratchFolder,
} from '../archive/made-archive.ts';
import { ran } from './in-process.ts';

it('counts the lines that gave no reading by their reason', async () => {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  for (const misfitCount of [{ 'too-long': 1, layout: 6, ignored: 0 }, {}]) {
    const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
    for (const its of batchesOfLines(pullId, 5, 20)) archive.appendBatch(its);
    archive.closePull(batch(pullId, { firstSeq: 100 }), { ...END, misfitCount });
  }
  archive.close();
  const { code, out } = await ran('archive', 'show', '1', '--archive', path);
  expect(code).toBe(0);
  expect(out).toContain('7 lines gave no reading and are kept raw: too long 1, layout 6.');
  expect((await ran('archive', 'show', '2', '--archive', path)).out).not.toContain('gave no reading');
});

it('tells what was noted while it was recorded, but not the steps of a person, which are marks', async () => {
  const path = join(scratchFolder(), 'a.gaugemark');
  const archive = openArchive(path);
  const pullId = archive.beginPull(newPull(archive.saveSpecimen({ specimen: SPECIMEN })));
  for (const its of batchesOfLines(pullId, 5, 20)) archive.appendBatch(its);
  const noted = (kind: string, words: string, by: string | null = null) => ({
    kind,
    elapsedUs: 1_250_000,
    wallMs: 0,
    by,
    words,
  });
  const acts = [
    noted('range-passed', 'The load has passed the range of the frame A.'),
    noted('calibration-known', 'Known before the start.', 'OP2'),
    noted('start', 'started by hand'),
  ];
  archive.closePull(batch(pullId, { firstSeq: 100, acts }), END);
  archive.close();
  const { out } = await ran('archive', 'show', '1', '--archive', path);
  expect(out).toContain('1.250 s  range-passed: The load has passed the range of the frame A.');
  expect(out).toContain('calibration-known: Known before the start. (OP2)');
  expect(out).not.toContain('start: started by hand');
});
