/** When an old backup is called to mind away from the archive's table: never in a pull, and once a day at most. */

/** Pulls of the first day are no archive yet that somebody could have forgotten. */
export const UNSAVED_MS_MIN = 86_400_000;
/** After “not today”. */
export const AGAIN_AFTER_MS = 86_400_000;

export interface BackupFacts {
  /** By the rule of the window: a week without a good one, or none at all. */
  readonly isOld: boolean;
  /** When the first pull was begun; null where there is none. */
  readonly firstPullWallMs: number | null;
  /** When somebody last said that it is not to be today; null where nobody did. */
  readonly putOffWallMs: number | null;
  readonly wallMs: number;
}

export function isBackupCalledFor({ isOld, firstPullWallMs, putOffWallMs, wallMs }: BackupFacts): boolean {
  if (!isOld || firstPullWallMs === null) return false;
  // A clock that was put back does not silence it for longer.
  const isPutOff = putOffWallMs !== null && Math.abs(wallMs - putOffWallMs) < AGAIN_AFTER_MS;
  return !isPutOff && wallMs - firstPullWallMs >= UNSAVED_MS_MIN;
}
