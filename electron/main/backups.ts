/** Backups of the open archive by age, and when the last good one was made. */
import { existsSync, readdirSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { looksWhole } from '../../core/archive/file-head.ts';
import { USUAL_AGES, backupMoment } from '../../core/exchange/backup-ages.ts';
import type { PageReplyOf } from '../../core/contract/bridge.ts';
import { type RequestOf, contract } from '../../core/contract/index.ts';
import type { Answer } from '../../core/contract/message.ts';
import { type NotedBackup, notedBackup } from '../exports/noted-backup.ts';
import type { SettingsFile } from './settings.ts';

/** A backup that is older is called to mind: a working week. */
export const BACKUP_OLD_MS = 7 * 86_400_000;
/** Archives of which the settings remember backups; those that were backed up longest ago are forgotten first. */
const REMEMBERED_MAX = 50;

export interface BackupMeans {
  readonly settings: SettingsFile;
  readonly archivePath: () => string;
  readonly chooseFolder: () => Promise<string | null>;
  readonly ask: (request: RequestOf<'archive.backup-into'>) => Promise<Answer<unknown>>;
  readonly wallMs: () => number;
  /** Where the command line notes the backups that it makes. */
  readonly notesFolder: string;
}

export class Backups {
  readonly #its: BackupMeans;

  constructor(means: BackupMeans) {
    this.#its = means;
  }

  state(): PageReplyOf<'window.backup-state'> {
    const { settings, archivePath, wallMs } = this.#its;
    const known = settings.now.backups[archivePath()];
    const folder = known?.folder ?? null;
    const lying = folder === null ? null : newestIn(folder, archivePath());
    // One that went into the folder and no longer lies there whole is none; a folder that is away says nothing of it.
    const isCounted = known !== undefined && !(known.lastInFolder && lying !== null);
    const noted = notedBackup(this.#its.notesFolder, archivePath());
    const last = Math.max(
      isCounted ? known.lastWallMs : 0,
      lying ?? 0,
      noted === null ? 0 : newestNoted(noted, archivePath()),
    );
    return {
      folderName: folder === null ? null : basename(folder),
      lastWallMs: last === 0 ? null : last,
      isOld: wallMs() - last > BACKUP_OLD_MS,
    };
  }

  /** One was written elsewhere, by hand. */
  written(): void {
    this.#remember(this.#its.settings.now.backups[this.#its.archivePath()]?.folder ?? null, false);
  }

  async backUp(which: 'same' | 'ask'): Promise<Answer<PageReplyOf<'window.back-up'>>> {
    const { settings, archivePath, chooseFolder, ask } = this.#its;
    const before = settings.now.backups[archivePath()]?.folder ?? null;
    const folder = which === 'same' && before !== null ? before : await chooseFolder();
    if (folder === null) return { ok: true, value: { written: null } };
    const answer = await ask({ folder, ages: USUAL_AGES });
    if (!answer.ok) return answer;
    this.#remember(folder, true);
    const { path, dropped } = contract['archive.backup-into'].reply.parse(answer.value);
    return {
      ok: true,
      value: {
        written: { name: basename(path), folderName: basename(folder), dropped: dropped.length },
      },
    };
  }

  #remember(folder: string | null, lastInFolder: boolean): void {
    const { settings, archivePath, wallMs } = this.#its;
    const all = { ...settings.now.backups, [archivePath()]: { folder, lastWallMs: wallMs(), lastInFolder } };
    const newest = Object.entries(all)
      .toSorted(([, a], [, b]) => b.lastWallMs - a.lastWallMs)
      .slice(0, REMEMBERED_MAX);
    settings.change({ backups: Object.fromEntries(newest) });
  }
}

/** The one that was noted, while it lies there or its folder is away; or a newer one beside it. 0 where there is none. */
function newestNoted({ path, wallMs }: NotedBackup, archivePath: string): number {
  const lying = newestIn(dirname(path), archivePath);
  const isThere = lying === null || (existsSync(path) && looksWhole(path));
  return Math.max(lying ?? 0, isThere ? wallMs : 0);
}

/** When the newest was made that lies there whole, 0 where there is none; null where the folder is not there now. */
function newestIn(folder: string, archivePath: string): number | null {
  let names: string[];
  try {
    names = readdirSync(folder);
  } catch {
    return null;
  }
  const dated = names.flatMap((name) => {
    const wallMs = backupMoment(basename(archivePath), name);
    return wallMs === null ? [] : [{ name, wallMs }];
  });
  const newestFirst = dated.toSorted((a, b) => b.wallMs - a.wallMs);
  return newestFirst.find(({ name }) => looksWhole(join(folder, name)))?.wallMs ?? 0;
}
