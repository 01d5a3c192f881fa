/** A restore and the export of one pull tell how far they are, and stopped they leave everything as it was. */
import { existsSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { copyBeside, putInPlace } from '../../../core/archive/restore-backup.ts';
import type { ExchangeProgress } from '../../../core/contract/exchange-requests.ts';
import { exportCsv } from '../../../electron/recorder/export-csv.ts';
import { longWork } from '../../../electron/recorder/long-work.ts';
import type { Recorder } from '../../../electron/recorder/recorder.ts';
import { WALL_MS, keptPull, openArchive, scratchFolder } from '../archive/made-archive.ts';
import { begunRecorder } from './begun-recorder.ts';

const READING = { programVersion: '9.9.9', wallMs: () => WALL_MS };
/** Two pieces and a bit of a third. */
const LONG_BYTES = 9_000_000;

/** The present state of a recorder's archive as a backup elsewhere. */
async function withBackup() {
  const begun = await begunRecorder();
  const { path } = await begun.ask('archive.info', {});
  const backup = join(scratchFolder(), 'backup.gaugemark');
  await begun.ask('archive.backup', { to: backup });
  return { ...begun, path, backup };
}
function heard(recorder: Recorder, onProgress: (progress: ExchangeProgress) => void): void {
  recorder.listen({
    onEvent: (name, event) => {
      if (name === 'exchange-progress') onProgress(event as ExchangeProgress);
    },
    onReadings: () => undefined,
  });
}
const parts = (path: string): string[] =>
  readdirSync(dirname(path)).filter((name) => /part|before-restore/.test(name));

it('a restore tells how far its copy is, and puts it in place', async () => {
  const { recorder, ask, path, backup } = await withBackup();
  const told: ExchangeProgress[] = [];
  heard(recorder, (progress) => told.push(progress));
  await ask('specimen.save', { specimen: { id: 'LATER', geometry: { kind: 'round', diameter: '10 mm' } } });
  const { setAsideTo } = await ask('archive.restore', { backup, confirmed: true });
  expect(setAsideTo).toMatch(/before-restore/);
  expect(told.map(({ work }) => work)).toEqual(told.map(() => 'restore'));
  expect(told.at(0)).toMatchObject({ done: 0 });
  expect(told.at(-1)?.done).toBe(told.at(-1)?.of);
  const { items } = await ask('specimen.list', { limit: 10 });
  expect(items.map(({ specimen }) => specimen.id)).not.toContain('LATER');
  expect(existsSync(path)).toBe(true);
});

it('a restore that is stopped says so, and the archive goes on as it was', async () => {
  const { recorder, ask, answered, path, backup } = await withBackup();
  await ask('specimen.save', { specimen: { id: 'LATER', geometry: { kind: 'round', diameter: '10 mm' } } });
  heard(recorder, () => void answered('archive.stop', {}));
  const answer = await answered('archive.restore', { backup, confirmed: true });
  expect(answer).toMatchObject({
    ok: false,
    fault: { code: 'stopped', sentence: 'Restoring was stopped; the archive is as it was.' },
  });
  expect(parts(path)).toEqual([]);
  const { items } = await ask('specimen.list', { limit: 10 });
  expect(items.map(({ specimen }) => specimen.id)).toContain('LATER');
});

it('the copy is the backup byte for byte, piece by piece; an error between two pieces leaves nothing', async () => {
  const folder = scratchFolder();
  const [path, backup] = [join(folder, 'a.gaugemark'), join(folder, 'b.gaugemark')];
  writeFileSync(path, 'the archive');
  writeFileSync(backup, Buffer.alloc(LONG_BYTES, 'gaugemark'));
  const done: number[] = [];
  const copy = await copyBeside(backup, path, READING, (bytes) => done.push(bytes));
  expect(done).toEqual([0, 4_194_304, 8_388_608, LONG_BYTES]);
  expect(readFileSync(copy).equals(readFileSync(backup))).toBe(true);
  expect(readFileSync(path, 'utf8')).toBe('the archive');
  rmSync(copy);

  const before = readdirSync(folder);
  const stopped = copyBeside(backup, path, READING, (bytes) => {
    if (bytes > 0) throw new Error('enough');
  });
  await expect(stopped).rejects.toThrow('enough');
  expect(readdirSync(folder)).toEqual(before);

  rmSync(backup);
  openArchive(backup).close();
  const whole = await copyBeside(backup, path, READING, () => undefined);
  const aside = putInPlace(whole, path, WALL_MS);
  expect(readFileSync(aside ?? '', 'utf8')).toBe('the archive');
  expect(existsSync(whole)).toBe(false);
});

it('the export of one pull tells how far it is, and stopped in the middle leaves no file', () => {
  const folder = scratchFolder();
  const archive = openArchive(join(folder, 'a.gaugemark'));
  const pullId = keptPull(archive, 2, 26_000);
  const to = join(folder, 'p.csv');
  const told: ExchangeProgress[] = [];
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const whole = exportCsv(archive, { pullId, to, form: 'plain' }, undefined, {
    ...longWork(stop, () => undefined),
    step: (work, done, of) => told.push({ work, done, of }),
  });
  expect(whole.readingCount).toBe(52_000);
  expect(told).toEqual([0, 50_000].map((done) => ({ work: 'export', done, of: 52_000 })));

  const second = join(folder, 'q.csv');
  const work = longWork(stop, () => Atomics.store(stop, 0, 1));
  expect(() => exportCsv(archive, { pullId, to: second, form: 'plain' }, undefined, work)).toThrow(
    'It was stopped; no file was written.',
  );
  expect(readdirSync(folder).filter((name) => name.startsWith('q'))).toEqual([]);
  expect(existsSync(to)).toBe(true);
  archive.close();
});
