/** Troubles with a file that is written beside the archive's own: an export, a backup. The archive is untouched by them. */
import { ArchiveFault, ArchiveRefusal, archiveFaultOf } from './archive-fault.ts';
import { DISK_TROUBLES, targetSentence, troubleWhenBegun } from './disk-trouble.ts';

/**
 * The fault that an error means for the file at `path`, `what` being "export" or "backup"; the error itself where it
 * speaks of something else. `isBegun`: something was written there already, so that what is missing has gone since.
 */
export function targetFaultOf(error: unknown, path: string, what: string, isBegun = false): unknown {
  if (error instanceof ArchiveRefusal || error instanceof ArchiveFault) return error;
  const code = archiveFaultOf(error, path)?.code;
  const trouble = DISK_TROUBLES.find((one) => code === `archive-${one}`);
  if (trouble === undefined) return error;
  const found = isBegun ? troubleWhenBegun(trouble) : trouble;
  return new ArchiveFault(
    found === 'gone' ? 'archive-unreadable' : `archive-${found}`,
    targetSentence(found, path, what),
    error instanceof Error ? error.message : undefined,
  );
}
