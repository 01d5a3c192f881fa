/** Faults of the disk and of the process beside it, each named by what happens. See `rows.ts`. */
import { spawn, spawnSync } from 'node:child_process';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  statSync,
  truncateSync,
  watch,
} from 'node:fs';
import { delimiter, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { describe, expect, it, onTestFinished } from 'vitest';
import { Archive } from '../../../core/archive/archive.ts';
import { SCHEMA_VERSION } from '../../../core/archive/migrations/index.ts';
import { exportCsv } from '../../../electron/recorder/export-csv.ts';
import { keptPull } from '../../unit/archive/made-archive.ts';
import { seededRandom } from '../recorder-random.ts';
import { BY_HAND, RecorderProcess, makeReadout, scratch } from '../recorder-process.ts';
import { expectAllKept } from '../support/all-kept.ts';
import { gaugemark } from '../support/gaugemark-command.ts';
import { RECORDER_PROGRAM } from '../support/recorder-program.ts';
import { fill, smallDisk } from '../support/small-disk.ts';
import { until } from '../support/until.ts';

const FIRST_FORM = new URL('../../../fixtures/archives/form-1.gaugemark', import.meta.url);
const SEED = Number(process.env['GAUGEMARK_TEST_SEED'] ?? Date.now() % 1_000_000);
process.stderr.write(`storage-faults: seed ${SEED}\n`);
const random = seededRandom(SEED);

/** A pull being recorded in which at least so many lines have come; all that was sent has been read. */
async function pullOf(readings: number) {
  const folder = scratch();
  const archivePath = join(folder, 'a.gaugemark');
  const readout = await makeReadout(folder);
  const recorder = await RecorderProcess.start(archivePath);
  const pullId = await recorder.ready(readout.port, BY_HAND);
  await pause(100);
  readout.run(4);
  await recorder.untilReadings(readings);
  await readout.pause();
  await recorder.untilReadings(readout.sent());
  return { archivePath, readout, recorder, pullId };
}

describe('D2: the recorder is killed and the tail of the log is torn', () => {
  it('readings and raw bytes come back from the spool, in order, none twice', async () => {
    const { archivePath, readout, recorder: first, pullId } = await pullOf(60);
    await first.kill();
    const log = `${archivePath}-wal`;
    const { size } = statSync(log);
    expect(size).toBeGreaterThan(0);
    // The log's room is taken ahead as zeros; the tear goes through what was written last.
    const bytes = readFileSync(log);
    const end = bytes.findLastIndex((byte) => byte !== 0);
    truncateSync(log, Math.max(32, end - 1 - Math.floor(random() * 3_000)));
    const second = await RecorderProcess.start(archivePath);
    expect((await second.ask('session.get', {})).pull?.pullId).toBe(pullId);
    await second.ask('pull.close', {});
    await expectAllKept(second, pullId, readout.sent());
    expect((await second.ask('archive.check', {})).sound).toBe(true);
  });
});

describe('D5: a compiled library takes the process down', () => {
  const endOf = (node: string, ...args: string[]) =>
    spawnSync(node, [...args, RECORDER_PROGRAM, '--archive', join(scratch(), 'a')], {
      encoding: 'utf8',
      timeout: 60_000,
    });

  it('an older Node gets a sentence instead of a crash without a word', () => {
    const older = "data:text/javascript,Object.defineProperty(process.versions,'napi',{value:'9'})";
    const run = endOf(process.execPath, '--import', older);
    expect(run.status).toBe(1);
    expect(run.stderr).toContain('needs Node-API 10');
  });

  it('so does a real older Node, where this machine has one', (context) => {
    const older = olderNode();
    if (older === null) return context.skip('no Node with a Node-API below 10 is in the PATH');
    const run = endOf(older);
    expect([run.status, run.signal]).toEqual([1, null]);
    expect(run.stderr).toContain('needs Node-API 10');
  });

  it('SIGSEGV in the middle of a pull loses nothing that had been shown (P4)', async () => {
    const { archivePath, readout, recorder: first, pullId } = await pullOf(30);
    first.child.kill('SIGSEGV');
    await until(() => first.child.signalCode !== null, 'the recorder has crashed');
    const second = await RecorderProcess.start(archivePath);
    await second.ask('pull.close', {});
    await expectAllKept(second, pullId, readout.sent());
  });
});

describe('D9: the disk needs more than a second for every sync', () => {
  it('holds up neither the port nor the figures, is told while it lasts, and everything is in the archive in the end', async (context) => {
    if (spawnSync('strace', ['-V']).status !== 0)
      return context.skip('strace is not here to delay the calls');
    const folder = scratch();
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(join(folder, 'a.gaugemark'));
    const pullId = await recorder.ready(readout.port, BY_HAND);
    const slow = spawn(
      'strace',
      [
        '-f',
        '-q',
        '-o',
        '/dev/null',
        ...['-e', 'trace=fsync,fdatasync', '-e', 'inject=fsync,fdatasync:delay_enter=1500000'],
        ...['-p', String(recorder.child.pid)],
      ],
      { stdio: 'ignore' },
    );
    try {
      await pause(500);
      if (slow.exitCode !== null) return context.skip('strace may not attach here');
      readout.run(4);
      await recorder.untilReadings(100);
      const { pull } = await recorder.ask('session.get', {});
      // Shown, and by far not committed yet.
      expect(pull?.savedThroughSeq).toBeLessThan((pull?.readingCount ?? 0) - 20);
      // A power cut would cost more than is promised, and a person is told while that is so.
      const isTold = (over: boolean): boolean =>
        recorder.notices.some(
          (n) => n.code === 'archive-disk-slow' && n.severity === 'alarm' && n.over === over,
        );
      await until(() => isTold(false), 'that the disk is slow is told');
      slow.kill('SIGINT');
      await until(() => isTold(true), 'the disk is in time again');
      await readout.pause();
    } finally {
      slow.kill('SIGINT');
    }
    await recorder.untilReadings(readout.sent());
    await recorder.ask('pull.close', {});
    await expectAllKept(recorder, pullId, readout.sent());
  });
});

/** One on which the compiled library ends the process with a signal as soon as it is loaded. */
function olderNode(): string | null {
  const nodes = (process.env['PATH'] ?? '').split(delimiter).map((folder) => join(folder, 'node'));
  const napiOf = (node: string): number =>
    Number(spawnSync(node, ['-p', 'process.versions.napi'], { encoding: 'utf8' }).stdout);
  return nodes.find((node) => existsSync(node) && napiOf(node) < 10) ?? null;
}

const D13_KILLS = 3;
/** Kills at most until one has fallen before the end of the migration. */
const D13_KILLS_MAX = 12;

/** Which form a start would find, seen in a copy, so that nothing is brought to order by looking. */
function formLeft(path: string): number {
  const copy = `${path}-seen`;
  for (const end of ['', '-wal']) if (existsSync(path + end)) copyFileSync(path + end, copy + end);
  const database = new Database(copy);
  const form = Number(database.pragma('user_version', { simple: true }));
  database.close();
  return form;
}

describe('D13: the program is killed while it brings an archive to its form', () => {
  it('is opened by the next start as if nothing had been: brought to the present form, every row there', async () => {
    const folder = scratch();
    let leftOld = 0;
    for (let kill = 0; kill < D13_KILLS || (leftOld === 0 && kill < D13_KILLS_MAX); kill++) {
      const path = join(folder, `${kill}.gaugemark`);
      copyFileSync(FIRST_FORM, path);
      const program = spawn(process.execPath, [RECORDER_PROGRAM, '--archive', path], { stdio: 'ignore' });
      await untilBegun(() => existsSync(`${path}-wal`) || program.exitCode !== null);
      await pause((random() * 120) / (kill + 1));
      program.kill('SIGKILL');
      await until(() => program.signalCode !== null || program.exitCode !== null, 'it has ended');
      if (formLeft(path) < SCHEMA_VERSION) leftOld++;
      const archive = new Archive(path, { programVersion: 'test', wallMs: Date.now });
      expect(archive.getPull(1).readingCount).toBe(20);
      expect(archive.check({}).sound).toBe(true);
      expect(archive.info().schemaVersion).toBe(SCHEMA_VERSION);
      archive.close();
    }
    process.stderr.write(`storage-faults: ${leftOld} of the kills left the old form\n`);
    expect(leftOld).toBeGreaterThan(0);
  });
});

/** Looks again at once: the migration takes less than `until` waits between two looks. */
async function untilBegun(hasBegun: () => boolean): Promise<void> {
  const endMs = performance.now() + 60_000;
  while (!hasBegun()) {
    if (performance.now() > endMs) throw new Error('The archive is not being opened.');
    await pause(1);
  }
}

describe('D14: a folder with an odd name', () => {
  it('holds an archive like any other: accents, quotes, blanks, a name of two hundred characters', async () => {
    const folder = join(scratch(), 'Prüfung "à côté" d\'été 100%?', 'n'.repeat(200));
    mkdirSync(folder, { recursive: true });
    const recorder = await RecorderProcess.start(join(folder, 'Zug #1 – Ä.gaugemark'));
    expect((await recorder.ask('archive.check', {})).sound).toBe(true);
    expect(await recorder.stop()).toBe(0);
  });
});

describe('D10: two processes write', () => {
  it('is a sentence for the second one, in the middle of a pull too; the first goes on, and the second has changed nothing', async () => {
    const folder = scratch();
    const archivePath = join(folder, 'a.gaugemark');
    const readout = await makeReadout(folder);
    const recorder = await RecorderProcess.start(archivePath);
    const before = statSync(archivePath).mtimeMs;
    expect(() => new Archive(archivePath, { programVersion: 'test', wallMs: Date.now })).toThrow(/open/i);
    expect(statSync(archivePath).mtimeMs).toBe(before);
    const pullId = await recorder.ready(readout.port, BY_HAND);
    await pause(100);
    readout.run(4);
    // Whoever asks for the write lock again and again gets it at no moment of the recording.
    const second = new Database(archivePath, { timeout: 0 });
    onTestFinished(() => void second.close());
    for (let tries = 0; tries < 20; tries++) {
      await recorder.untilReadings(5 * (tries + 1));
      expect(() => second.exec('BEGIN IMMEDIATE')).toThrow(/locked/);
    }
    await readout.pause();
    await recorder.untilReadings(readout.sent());
    await recorder.ask('pull.close', {});
    expect(recorder.notices.map(({ code }) => code)).not.toContain('archive-not-written');
    await expectAllKept(recorder, pullId, readout.sent());
  });
});

describe('the folder of the archive is taken away while it is open', () => {
  it('is an alarm until it is back, begins no record, and a backup has what was said meanwhile', async (context) => {
    // There a file that is open can't be taken away.
    if (process.platform === 'win32') return context.skip('an open file stays where it is');
    const folder = scratch();
    const [place, elsewhere] = [join(folder, 'place'), join(folder, 'elsewhere')];
    mkdirSync(place);
    const recorder = await RecorderProcess.start(join(place, 'a.gaugemark'));
    const specimen = { id: 'T-1', geometry: { kind: 'round', diameter: '10 mm' } } as const;
    await recorder.ask('specimen.save', { specimen });
    const isGone = async (): Promise<boolean> =>
      (await recorder.ask('session.get', {})).notices.some(
        ({ code, severity }) => code === 'archive-gone' && severity === 'alarm',
      );
    expect(await isGone()).toBe(false);
    renameSync(place, elsewhere);
    await until(isGone, 'the alarm');
    const { specimenId } = await recorder.ask('specimen.save', { specimen: { ...specimen, id: 'T-2' } });
    const refused = recorder.ask('pull.ready', { specimenId, ...BY_HAND });
    await expect(refused).rejects.toThrow(/no longer at .* make a backup/);
    const backup = join(folder, 'backup.gaugemark');
    await recorder.ask('archive.backup', { to: backup });
    const kept = new Archive(backup, { programVersion: 'test', wallMs: Date.now, purpose: 'read' });
    expect(kept.getSpecimen(specimenId)).toMatchObject({ specimen: { id: 'T-2' } });
    kept.close();
    renameSync(elsewhere, place);
    await until(async () => !(await isGone()), 'the end of the alarm');
  });
});

/** Share of an export that finds room. It is written a megabyte at a time. */
const ROOM_FOR = 0.75;

describe('X3: the disk is full while a pull is exported', () => {
  it('is said with the code of a failure, and no file is left that looks whole', async (context) => {
    const folder = scratch();
    const disk = smallDisk(folder);
    if ('skip' in disk) return context.skip(disk.skip);
    const archive = join(folder, 'a.gaugemark');
    copyFileSync(FIRST_FORM, archive);
    fill(disk.path);
    const out = join(disk.path, 'curve.csv');
    const run = gaugemark('archive', 'export', '1', '--archive', archive, '--out', out);
    expect(await run.ended()).not.toBe(0);
    expect(run.err()).toMatch(/full|space/i);
    expect(readdirSync(disk.path)).toEqual(['filler']);
  });

  it('and by then part of it was written: that goes away, and with room again the same export is whole', async (context) => {
    const folder = scratch();
    const disk = smallDisk(folder);
    if ('skip' in disk) return context.skip(disk.skip);
    const archive = join(folder, 'a.gaugemark');
    const made = new Archive(archive, { programVersion: 'test', wallMs: Date.now });
    const pullId = keptPull(made, 30, 1_000);
    const whole = exportCsv(made, { pullId, to: join(folder, 'whole.csv'), form: 'plain' });
    made.close();
    fill(disk.path);
    const filler = join(disk.path, 'filler');
    truncateSync(filler, statSync(filler).size - Math.floor(whole.bytes * ROOM_FOR));
    const written = new Set<string>();
    const watcher = watch(disk.path, (event, name) => {
      if (event === 'change' && name !== null) written.add(name);
    });
    onTestFinished(() => watcher.close());
    const out = join(disk.path, 'curve.csv');
    const order = ['archive', 'export', String(pullId), '--archive', archive, '--out', out];
    const run = gaugemark(...order);
    expect(await run.ended()).not.toBe(0);
    expect(run.err()).toMatch(/full|space/i);
    expect(readdirSync(disk.path)).toEqual(['filler']);
    // Something was written before there was no room left, under a name that nobody takes for the file.
    expect([...written]).toEqual([expect.stringMatching(/^curve\.csv.+/)]);
    truncateSync(filler, 0);
    expect(await gaugemark(...order).ended()).toBe(0);
    expect(readFileSync(out).equals(readFileSync(whole.path))).toBe(true);
  });
});
