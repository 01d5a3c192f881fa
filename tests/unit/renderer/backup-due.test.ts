/** An old backup is called to mind away from the archive's table: not on the first day, and once a day at most. */
import { expect, it } from 'vitest';
import { type BackupFacts, isBackupCalledFor } from '../../../renderer/exchange/backup-due.ts';

const HOUR_MS = 3_600_000;
const NOW_MS = Date.UTC(2026, 5, 1, 9);
const called = (facts: Partial<BackupFacts>): boolean =>
  isBackupCalledFor({
    ...{ isOld: true, firstPullWallMs: NOW_MS - 48 * HOUR_MS, putOffWallMs: null, wallMs: NOW_MS },
    ...facts,
  });

it('is called for where the last one is old or there is none, from the second day on', () => {
  expect(called({})).toBe(true);
  expect(called({ isOld: false })).toBe(false);
  expect(called({ firstPullWallMs: null })).toBe(false);
  expect(called({ firstPullWallMs: NOW_MS - 23 * HOUR_MS })).toBe(false);
  expect(called({ firstPullWallMs: NOW_MS - 24 * HOUR_MS })).toBe(true);
});

it('is put off for a day, also by a clock that was put back meanwhile', () => {
  expect(called({ putOffWallMs: NOW_MS - HOUR_MS })).toBe(false);
  expect(called({ putOffWallMs: NOW_MS - 24 * HOUR_MS })).toBe(true);
  expect(called({ putOffWallMs: NOW_MS + HOUR_MS })).toBe(false);
  expect(called({ putOffWallMs: NOW_MS + 30 * 24 * HOUR_MS })).toBe(true);
});
