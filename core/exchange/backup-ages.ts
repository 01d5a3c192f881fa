/** Which backups of a folder are kept: the newest of each of the last hours, days and months that have one. */

import type { KeptAges } from '../contract/exchange-requests.ts';

/** A working day by the hour, a month by the day, two years by the month. */
export const USUAL_AGES: KeptAges = { hours: 24, days: 31, months: 24 };

export interface DatedBackup {
  readonly path: string;
  readonly wallMs: number;
}

const isoOf = ({ wallMs }: DatedBackup): string => new Date(wallMs).toISOString();
/** Of a moment in ISO 8601, up to its hour, day and month. */
const [HOUR, DAY, MONTH] = [13, 10, 7];
const PERIOD_LENGTHS = [HOUR, DAY, MONTH];

/** Months and days in UTC. The newest is kept in any case. */
export function backupsToDrop(backups: readonly DatedBackup[], ages: KeptAges): DatedBackup[] {
  const newestFirst = backups.toSorted((a, b) => b.wallMs - a.wallMs);
  const kept = new Set(newestFirst.slice(0, 1));
  const keepNewestOf = (count: number, length: number): void => {
    const seen = new Set<string>();
    for (const backup of newestFirst) {
      const period = isoOf(backup).slice(0, length);
      if (seen.has(period)) continue;
      if (seen.size >= count) return;
      seen.add(period);
      kept.add(backup);
    }
  };
  keepNewestOf(ages.hours, HOUR);
  keepNewestOf(ages.days, DAY);
  keepNewestOf(ages.months, MONTH);
  return newestFirst.filter((backup) => !kept.has(backup));
}

/**
 * The backups because of which this one is dropped: the newest kept ones of its hour, its day and its month. Whoever drops
 * it relies on them.
 */
export function standIns(dropped: DatedBackup, kept: readonly DatedBackup[]): DatedBackup[] {
  const newestFirst = kept.toSorted((a, b) => b.wallMs - a.wallMs);
  const found = PERIOD_LENGTHS.flatMap((length) => {
    const period = isoOf(dropped).slice(0, length);
    return newestFirst.find((one) => isoOf(one).startsWith(period)) ?? [];
  });
  return [...new Set(found)];
}

const STAMP = /-(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)Z\.gaugemark$/;

/** "pulls-2026-03-04T09-30-00Z.gaugemark" of the archive "pulls.gaugemark". */
export const backupName = (archiveName: string, wallMs: number): string =>
  `${nameWithoutEnding(archiveName)}-${new Date(wallMs).toISOString().slice(0, 19).replaceAll(':', '-')}Z.gaugemark`;

/** When a backup of this archive was made, by its name; null where the name is another file's. */
export function backupMoment(archiveName: string, fileName: string): number | null {
  const found = STAMP.exec(fileName);
  if (found === null || fileName.slice(0, found.index) !== nameWithoutEnding(archiveName)) return null;
  const [, day = '', hours = '', minutes = '', seconds = ''] = found;
  const wallMs = Date.parse(`${day}T${hours}:${minutes}:${seconds}Z`);
  return Number.isNaN(wallMs) ? null : wallMs;
}

/** Of a file: what others that are made of it are named after. */
export const nameWithoutEnding = (name: string): string => name.replace(/\.[^.]*$/, '');
