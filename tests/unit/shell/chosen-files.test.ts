/** Files that a person chose: the page has signs and names, and no way to anything else. */
import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { noteBackup } from '../../../electron/exports/noted-backup.ts';
import { BACKUP_OLD_MS, Backups } from '../../../electron/main/backups.ts';
import { ChosenFiles, withoutFolders } from '../../../electron/main/chosen-files.ts';
import { SettingsFile } from '../../../electron/main/settings.ts';

/** As a backup is: not in log mode (SQLite database file format, section 1.3.3). */
const BACKUP = readFileSync(new URL('../../../fixtures/archives/form-1.gaugemark', import.meta.url)).fill(
  1,
  18,
  20,
);

describe('a request about a chosen file', () => {
  it('gets the path in the place of the sign, and nothing else in that place is let through', () => {
    const chosen = new ChosenFiles();
    const { sign, name } = chosen.keep('/home/somebody/curves/a.csv');
    expect(name).toBe('a.csv');
    expect(sign).not.toContain('home');
    expect(chosen.withPath('archive.import', { file: sign, specimen: 1 })).toEqual({
      ok: true,
      value: { file: '/home/somebody/curves/a.csv', specimen: 1 },
    });
    for (const file of ['/etc/passwd', '/home/somebody/curves/a.csv', 'chosen:99', ''])
      for (const [request, field] of [
        ['archive.import', 'file'],
        ['archive.preview-import', 'file'],
        ['archive.merge', 'from'],
        ['archive.plan-restore', 'backup'],
        ['archive.restore', 'backup'],
        ['archive.export-results', 'to'],
        ['archive.backup-into', 'folder'],
        ['archive.search-elsewhere', 'file'],
        ['archive.read-elsewhere', 'file'],
      ] as const)
        expect(chosen.withPath(request, { [field]: file }), `${request} ${file}`).toMatchObject({
          ok: false,
          fault: { code: 'path-not-chosen', field },
        });
    expect(chosen.withPath('pull.get', { pullId: 1 })).toEqual({ ok: true, value: { pullId: 1 } });
  });

  it('is answered without folders', () => {
    const answer = {
      ok: true,
      value: { backup: { path: '/a/b/c.gaugemark', pullCount: 2 }, setAsideTo: '/a/old', onlyHere: [1] },
    } as const;
    expect(withoutFolders('archive.plan-restore', answer)).toEqual({
      ok: true,
      value: { backup: { path: 'c.gaugemark', pullCount: 2 }, setAsideTo: 'old', onlyHere: [1] },
    });
  });
});

describe('the last good backup', () => {
  it('is called to mind when it is old or none is known, and one that lies in the folder counts', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
    const into = join(folder, 'backups');
    mkdirSync(into);
    let now = Date.UTC(2026, 2, 10);
    const backups = new Backups({
      settings: new SettingsFile(join(folder, 'settings.json')),
      archivePath: () => join(folder, 'pulls.gaugemark'),
      chooseFolder: () => Promise.resolve(into),
      ask: () => Promise.resolve({ ok: true, value: { path: join(into, 'x'), bytes: 1, dropped: ['y'] } }),
      wallMs: () => now,
      notesFolder: join(folder, 'notes'),
    });
    expect(backups.state()).toEqual({ folderName: null, lastWallMs: null, isOld: true });
    expect(await backups.backUp('same')).toEqual({
      ok: true,
      value: { written: { name: 'x', folderName: 'backups', dropped: 1 } },
    });
    writeFileSync(join(into, 'pulls-2026-03-10T00-00-00Z.gaugemark'), BACKUP);
    expect(backups.state()).toEqual({ folderName: 'backups', lastWallMs: now, isOld: false });
    now += BACKUP_OLD_MS + 1;
    expect(backups.state().isOld).toBe(true);
    writeFileSync(join(into, 'pulls-2026-03-16T08-00-00Z.gaugemark'), BACKUP);
    expect(backups.state()).toMatchObject({ lastWallMs: Date.UTC(2026, 2, 16, 8), isOld: false });
    // Newer, and none: cut short, another kind of file, another archive's.
    writeFileSync(join(into, 'pulls-2026-03-17T08-00-00Z.gaugemark'), BACKUP.subarray(0, -1));
    writeFileSync(join(into, 'pulls-2026-03-17T09-00-00Z.gaugemark'), 'a note');
    writeFileSync(join(into, 'others-2026-03-17T10-00-00Z.gaugemark'), BACKUP);
    expect(backups.state()).toMatchObject({ lastWallMs: Date.UTC(2026, 2, 16, 8) });
  });

  it('is none once it lies no longer where it was put; a folder that is away says nothing of it', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
    const into = join(folder, 'backups');
    const path = join(into, 'pulls-2026-03-10T08-00-00Z.gaugemark');
    mkdirSync(into);
    const now = Date.UTC(2026, 2, 10, 8);
    const backups = new Backups({
      settings: new SettingsFile(join(folder, 'settings.json')),
      archivePath: () => join(folder, 'pulls.gaugemark'),
      chooseFolder: () => Promise.resolve(into),
      ask: () => {
        writeFileSync(path, BACKUP);
        return Promise.resolve({ ok: true, value: { path, bytes: 1, dropped: [] } });
      },
      wallMs: () => now,
      notesFolder: join(folder, 'notes'),
    });
    await backups.backUp('ask');
    expect(backups.state()).toMatchObject({ lastWallMs: now, isOld: false });
    renameSync(into, `${into}-unplugged`);
    expect(backups.state()).toMatchObject({ lastWallMs: now, isOld: false });
    renameSync(`${into}-unplugged`, into);
    rmSync(path);
    expect(backups.state()).toMatchObject({ lastWallMs: null, isOld: true });
    // By hand, to a place that is not known here.
    backups.written();
    expect(backups.state()).toMatchObject({ lastWallMs: now, isOld: false });
  });

  it('counts too where the command line made it, while it lies there or its folder is away', () => {
    const folder = mkdtempSync(join(tmpdir(), 'gaugemark-test-'));
    const [into, notes, archive] = ['stick', 'notes', 'pulls.gaugemark'].map((name) =>
      join(folder, name),
    ) as [string, string, string];
    mkdirSync(into);
    writeFileSync(archive, BACKUP);
    const now = Date.UTC(2026, 2, 10, 8);
    const state = (archivePath = archive) =>
      new Backups({
        settings: new SettingsFile(join(folder, 'settings.json')),
        archivePath: () => archivePath,
        chooseFolder: () => Promise.resolve(null),
        ask: () => Promise.reject(new Error('not asked')),
        wallMs: () => now,
        notesFolder: notes,
      }).state();
    const path = join(into, 'by hand.gaugemark');
    writeFileSync(path, BACKUP);
    noteBackup(notes, { archive, path, wallMs: now - 5_000 });
    expect(state()).toEqual({ folderName: null, lastWallMs: now - 5_000, isOld: false });
    // By another way to the same archive, and not of another.
    symlinkSync(archive, join(folder, 'link.gaugemark'));
    expect(state(join(folder, 'link.gaugemark')).lastWallMs).toBe(now - 5_000);
    expect(state(join(folder, 'others.gaugemark')).lastWallMs).toBeNull();
    renameSync(into, `${into}-unplugged`);
    expect(state().isOld).toBe(false);
    renameSync(`${into}-unplugged`, into);
    writeFileSync(path, BACKUP.subarray(0, -1));
    expect(state()).toMatchObject({ lastWallMs: null, isOld: true });
    // A dated one beside it, which a timer made.
    writeFileSync(join(into, 'pulls-2026-03-09T08-00-00Z.gaugemark'), BACKUP);
    expect(state().lastWallMs).toBe(Date.UTC(2026, 2, 9, 8));
    for (const name of readdirSync(notes)) writeFileSync(join(notes, name), '{');
    expect(state().lastWallMs).toBeNull();
    // A note that can't be written makes the backup no worse.
    expect(() => noteBackup(join(path, 'no folder'), { archive, path, wallMs: now })).not.toThrow();
  });
});
