/** Which backups of a folder are kept: the newest of each of the last hours, days and months that have one. */

import type { KeptAges } from '../contract/exchange-requests.ts';

/** A working day by the hour, a month by the day, two years by the month. */
export const USUAL_AGES: KeptAges = { hours: 24, days: 31, months: 24 };

export interface DatedBackup {
  readonly path: string;
  readonly wallMs: number;
}

/** Months and days in UTC. The newest is kept in any case. */
export function backupsToDrop(backups: readonly DatedBackup[], ages: KeptAges): DatedBackup[] {
  const newestFirst = backups.toSorted((a, b) => b.wallMs - a.wallMs);
  const kept = new Set(newestFirst.slice(0, 1));
  const keepNewestOf = (count: number, periodOf: (iso: string) => string): void => {
    const seen = new Set<string>();
    for (const backup of newestFirst) {
      const period = periodOf(new Date(backup.wallMs).toISOString());
      if (seen.has(period)) continue;
      if (seen.size >= count) return;
      seen.add(period);
      kept.add(backup);
    }
  };
  keepNewestOf(ages.hours, (iso) => iso.slice(0, 13));
  keepNewestOf(ages.days, (iso) => iso.slice(0, 10));
  keepNewestOf(ages.months, (iso) => iso.slice(0, 7));
  return newestFirst.filter((backup) => !kept.has(backup));
}

const STAMP = /-(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)Z\.gaugemark$/;

/** "pulls-2026-03-04T09-30-00Z.gaugemark" of the archive "pulls.gaugemark". */
export const backupName = (archiveName: string, wallMs: number): string =>
  `${stemOf(archiveName)}-${new Date(wallMs).toISOString().slice(0, 19).replaceAll(':', '-')}Z.gaugemark`;

/** When a backup of this archive was made, by its name; null where the name is another file's. */
export function backupMoment(archiveName: string, fileName: string): number | null {
  const found = STAMP.exec(fileName);
  if (found === null || fileName.slice(0, found.index) !== stemOf(archiveName)) return null;
  const [, day = '', hours = '', minutes = '', seconds = ''] = found;
  const wallMs = Date.parse(`${day}T${hours}:${minutes}:${seconds}Z`);
  return Number.isNaN(wallMs) ? null : wallMs;
}

const stemOf = (name: string): string => name.replace(/\.[^.]*$/, '');
