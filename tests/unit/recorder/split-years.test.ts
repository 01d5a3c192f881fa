/** The open archive split by year: what is told before, what goes on beside it, and what is left when it is stopped. */
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import type { ExchangeProgress } from '../../../core/contract/exchange-requests.ts';
import { ARCHIVE_LARGE_BYTES } from '../../../core/limits.ts';
import type { Recorder } from '../../../electron/recorder/recorder.ts';
import {
  END,
  PROFILE,
  SPECIMEN,
  batch,
  newPull,
  openArchive,
  scratchFolder,
} from '../archive/made-archive.ts';
import { BY_HAND, TEST_PORT, begunRecorder } from './begun-recorder.ts';

const NAMES = ['shop-2023.gaugemark', 'shop-2024.gaugemark', 'shop-2026.gaugemark'];

/** A recorder of an archive with five pulls of three years, and an empty folder. */
async function begun() {
  const path = join(scratchFolder(), 'shop.gaugemark');
  const archive = openArchive(path);
  for (const year of [2023, 2024, 2024, 2026, 2026]) {
    const specimenId = archive.saveSpecimen({ specimen: { ...SPECIMEN, id: `of ${String(year)}` } });
    const pullId = archive.beginPull(newPull(specimenId, { startedWallMs: Date.UTC(year, 5, 1) }));
    archive.closePull(batch(pullId), END);
  }
  archive.close();
  const into = join(dirname(path), 'years');
  mkdirSync(into);
  return { ...(await begunRecorder({ archivePath: path })), into };
}

function heard(recorder: Recorder, onProgress: (progress: ExchangeProgress) => void): void {
  recorder.listen({
    onEvent: (name, event) => {
      if (name === 'exchange-progress') onProgress(event as ExchangeProgress);
    },
    onReadings: () => undefined,
  });
}

it('tells what would be made, and makes it: a checked file a year, the archive as it was', async () => {
  const { ask, answered, recorder, into } = await begun();
  // Number 1 of another archive, beside number 1 of this one.
  const other = openArchive(join(scratchFolder(), 'other.gaugemark'));
  const specimenId = other.saveSpecimen({ specimen: { ...SPECIMEN, id: 'taken in' } });
  other.closePull(batch(other.beginPull(newPull(specimenId, { startedWallMs: Date.UTC(2023, 8, 1) }))), END);
  other.close();
  await ask('archive.merge', { from: other.path, write: true });
  const before = await ask('archive.info', {});
  const plan = await ask('archive.plan-split', {});
  expect(plan.parts.map(({ name, pulls }) => [name, pulls])).toEqual([
    ['shop-2023.gaugemark', 2],
    ['shop-2024.gaugemark', 2],
    ['shop-2026.gaugemark', 2],
  ]);
  expect(plan.largeBytes).toBe(ARCHIVE_LARGE_BYTES);
  // Each its share of the file, all of them not more than it; and room for a copy beside them.
  const sizes = plan.parts.map(({ bytes }) => bytes);
  expect(sizes.every((bytes) => bytes > 0)).toBe(true);
  const sum = sizes.reduce((all, bytes) => all + bytes, 0);
  expect(sum).toBeLessThanOrEqual(plan.archiveBytes);
  expect(plan.neededBytes).toBeGreaterThan(2 * sum);
  expect(readdirSync(into)).toEqual([]);

  const told: ExchangeProgress[] = [];
  heard(recorder, (progress) => told.push(progress));
  const done = await ask('archive.split', { folder: into });
  expect(done).toMatchObject({ folderName: 'years', open: 0, certificatesLeft: 0 });
  expect(done.parts.map(({ name }) => name)).toEqual(NAMES);
  expect(readdirSync(into).sort()).toEqual(NAMES);
  expect(told.some(({ work, of }) => work === 'split' && of === 12)).toBe(true);
  const { pullCount, specimenCount, readingCount } = before;
  expect(await ask('archive.info', {})).toMatchObject({ pullCount, specimenCount, readingCount });
  expect((await ask('archive.check', {})).sound).toBe(true);
  const part = new Archive(join(into, NAMES[1] ?? ''), {
    programVersion: '9.9.9',
    wallMs: Date.now,
    purpose: 'read',
  });
  expect(part.listPulls({ limit: 9 }).items.map((pull) => pull.specimenName)).toEqual(['of 2024', 'of 2024']);
  part.close();

  // Nothing is written over, and what is there stays.
  const again = await answered('archive.split', { folder: into });
  expect(again).toMatchObject({ ok: false, fault: { code: 'file-exists' } });
  expect(readdirSync(into).sort()).toEqual(NAMES);
  expect(await answered('archive.split', { folder: join(into, 'none') })).toMatchObject({
    ok: false,
    fault: { code: 'folder-missing' },
  });
});

it.each(['backup', 'backup-check', 'split'] as const)(
  'stopped in its step “%s” it leaves no file, and the archive as it was',
  async (at) => {
    const { ask, answered, recorder, into } = await begun();
    writeFileSync(join(into, 'of somebody else.txt'), 'stays');
    heard(recorder, ({ work }) => {
      if (work === at) void answered('archive.stop', {});
    });
    const answer = await answered('archive.split', { folder: into });
    expect(answer).toMatchObject({ ok: false, fault: { code: 'stopped' } });
    if (!answer.ok) expect(answer.fault.sentence).toMatch(/^Splitting was stopped; no file of it was kept/);
    expect(readdirSync(into)).toEqual(['of somebody else.txt']);
    expect((await ask('archive.check', {})).sound).toBe(true);
  },
);

it('waits while a pull is recorded, which is begun and ended beside it; statements are kept meanwhile', async () => {
  const { ask, recorder, specimenId, send, into } = await begun();
  await ask('readout.open', { source: TEST_PORT, profile: PROFILE });
  const order: string[] = [];
  const record = new Promise<void>((done, failed) => {
    let isBegun = false;
    heard(recorder, ({ work }) => {
      if (work !== 'backup-check' || isBegun) return;
      isBegun = true;
      void (async () => {
        await ask('pull.ready', { specimenId, ...BY_HAND });
        await ask('pull.start', {});
        send('1,0.1');
        await expect
          .poll(() => readdirSync(into).some((name) => /copy-\d+$/.test(name)), { timeout: 60_000 })
          .toBe(true);
        await ask('specimen.save', { specimen: { ...SPECIMEN, id: 'kept meanwhile' } });
        await ask('pull.close', {});
        order.push('record closed');
        await ask('pull.put-away', {});
      })().then(done, failed);
    });
  });
  const done = await ask('archive.split', { folder: into });
  order.push('split');
  await record;
  expect(order).toEqual(['record closed', 'split']);
  expect(done.parts.map(({ pulls }) => pulls)).toEqual([1, 2, 2]);
  expect(await ask('archive.info', {})).toMatchObject({ pullCount: 6 });
});
