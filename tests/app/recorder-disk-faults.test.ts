/** What the disk and the archive can do: a full disk in the middle of a pull, files that can't be used, two recorders. */
import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { BY_HAND, RecorderProcess, lineOf, makeReadout, scratch } from './recorder-process.ts';
import { expectAllKept } from './support/all-kept.ts';
import { damagedArchive } from './support/damaged-archive.ts';
import { RECORDER_PROGRAM } from './support/recorder-program.ts';
import { SMALL_DISK_MIB, fill, smallDisk } from './support/small-disk.ts';
import { until } from './support/until.ts';

describe('a disk that is full in the middle of a pull', () => {
  it('is told loudly; recording goes on, and everything is in the archive once there is room (D3)', async (context) => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const disk = smallDisk(folder);
    if ('skip' in disk) return context.skip(disk.skip);
    const recorder = await RecorderProcess.start(join(disk.path, 'a.gaugemark'));
    const pullId = await recorder.ready(readout.port, BY_HAND);
    await new Promise((done) => setTimeout(done, 100));
    readout.run(5);
    await recorder.untilReadings(30);
    fill(disk.path);
    await until(
      () => recorder.notices.some((n) => n.code === 'archive-not-written' && !n.over),
      'the trouble is told',
    );
    const atTrouble = (await recorder.ask('session.get', {})).pull;
    await recorder.untilReadings((atTrouble?.readingCount ?? 0) + 100);
    const during = (await recorder.ask('session.get', {})).pull;
    expect(during?.savedThroughSeq).toBeLessThan(during?.readingCount ?? 0);
    rmSync(join(disk.path, 'filler'));
    await until(
      () => recorder.notices.some((n) => n.code === 'archive-not-written' && n.over),
      'the trouble is over',
    );
    await readout.pause();
    await recorder.untilReadings(readout.sent());
    await recorder.ask('pull.close', {});
    await expectAllKept(recorder, pullId, readout.sent());
    expect((await recorder.ask('archive.check', {})).sound).toBe(true);
  });

  it('and a recorder that is killed then: what the spool holds is taken up when there is room again (D4)', async (context) => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const disk = smallDisk(folder);
    if ('skip' in disk) return context.skip(disk.skip);
    const archivePath = join(disk.path, 'a.gaugemark');
    const recorder = await RecorderProcess.start(archivePath);
    const pullId = await recorder.ready(readout.port, BY_HAND);
    await new Promise((done) => setTimeout(done, 100));
    readout.run(5);
    await recorder.untilReadings(30);
    fill(disk.path);
    await until(() => recorder.notices.some((n) => n.code === 'archive-not-written'), 'the trouble is told');
    await recorder.untilReadings(150);
    await readout.pause();
    await recorder.untilReadings(readout.sent());
    await recorder.kill();
    const read = readout.sent();
    const full = await RecorderProcess.start(archivePath);
    expect((await full.ask('program.info', {})).archiveFault?.code).toBe('archive-disk-full');
    expect(await full.faultOf('pull.list', { limit: 1 })).toBe('archive-disk-full');
    rmSync(join(disk.path, 'filler'));
    await full.ask('archive.retry', {});
    expect((await full.ask('session.get', {})).pull?.pullId).toBe(pullId);
    await full.ask('pull.close', {});
    // All of it had been shown, so all of it was in the spool.
    await expectAllKept(full, pullId, read);
  });
});

describe('a disk without room for the spool', () => {
  it('is told in a sentence and is no fault of the program; with room again recording can begin (D4)', async (context) => {
    const disk = smallDisk(scratch());
    if ('skip' in disk) return context.skip(disk.skip);
    const filler = join(disk.path, 'filler');
    // Room for the archive itself, and for less than one segment of the spool.
    writeFileSync(filler, Buffer.alloc((SMALL_DISK_MIB - 4) * 1_048_576));
    const recorder = await RecorderProcess.start(join(disk.path, 'a.gaugemark'));
    const { archiveFault } = await recorder.ask('program.info', {});
    expect(archiveFault).toMatchObject({
      code: 'archive-disk-full',
      sentence: expect.stringContaining('free some space') as string,
    });
    rmSync(filler);
    await recorder.ask('archive.retry', {});
    expect((await recorder.ask('program.info', {})).archiveFault).toBeNull();
  });
});

describe('an archive that can not be used', () => {
  it('is shown with its sentence by a recorder that stays up, and every request for it gets the same', async () => {
    const archivePath = join(scratch(), 'a.gaugemark');
    writeFileSync(archivePath, 'not a database at all, but a letter of some length '.repeat(9));
    const recorder = await RecorderProcess.start(archivePath);
    const info = await recorder.ask('program.info', {});
    expect(info.archiveFault?.code).toBe('archive-not-a-database');
    expect((await recorder.ask('session.get', {})).archive.fault?.sentence).toContain(archivePath);
    expect(await recorder.faultOf('specimen.list', { limit: 1 })).toBe('archive-not-a-database');
    expect(await recorder.faultOf('archive.set-aside', { confirmed: true })).toBe('archive-sound');
    expect(readFileSync(archivePath, 'latin1').startsWith('not a database')).toBe(true);
  });

  it('is set aside when it is damaged and a person asks for it, and a fresh one is begun', async () => {
    const folder = scratch();
    const archivePath = join(folder, 'a.gaugemark');
    const bytes = await damagedArchive(archivePath);
    const recorder = await RecorderProcess.start(archivePath);
    expect((await recorder.ask('program.info', {})).archiveFault?.code).toBe('archive-damaged');
    const { setAsideTo } = await recorder.ask('archive.set-aside', { confirmed: true });
    expect(readFileSync(setAsideTo).equals(bytes)).toBe(true);
    expect((await recorder.ask('archive.info', {})).specimenCount).toBe(0);
  });

  it('is left byte for byte as it was when it is newer', async () => {
    const folder = scratch();
    const archivePath = join(folder, 'a.gaugemark');
    await (await RecorderProcess.start(archivePath)).stop();
    const database = new Database(archivePath);
    database.pragma('user_version = 99');
    database.close();
    const before = readFileSync(archivePath);
    const recorder = await RecorderProcess.start(archivePath);
    expect((await recorder.ask('program.info', {})).archiveFault?.sentence).toMatch(/99/);
    await recorder.stop();
    expect(readFileSync(archivePath).equals(before)).toBe(true);
    expect(existsSync(`${archivePath}-spool-a`) && existsSync(`${archivePath}-wal`)).toBe(false);
  });
});

describe('two recorders', () => {
  it('on one archive: the second ends by itself and the first goes on (D10)', async () => {
    const archivePath = join(scratch(), 'a.gaugemark');
    const first = await RecorderProcess.start(archivePath);
    const second = spawnSync(process.execPath, [RECORDER_PROGRAM, '--archive', archivePath], {
      timeout: 30_000,
    });
    expect([second.status, second.stderr.toString()]).toEqual([
      0,
      expect.stringContaining('another recorder answers'),
    ]);
    expect((await first.ask('archive.info', {})).path).toBe(archivePath);
  });

  it('do not take up the open record of a copy: the archive knows its own spool', async () => {
    const folder = scratch();
    const readout = await makeReadout(folder);
    const archivePath = join(folder, 'a.gaugemark');
    const recorder = await RecorderProcess.start(archivePath);
    await recorder.ready(readout.port, BY_HAND);
    await new Promise((done) => setTimeout(done, 100));
    await readout.pty.write(lineOf(0));
    await recorder.untilReadings(1);
    await recorder.kill();
    // Another archive that finds this one's spool beside it.
    const other = join(folder, 'b.gaugemark');
    copyFileSync(`${archivePath}-spool-a`, `${other}-spool-a`);
    const second = await RecorderProcess.start(other);
    expect((await second.ask('session.get', {})).pull).toBeNull();
    expect((await second.ask('archive.info', {})).pullCount).toBe(0);
  });
});
