/** Troubles with a file that is written beside the archive's own: an export, a backup. The archive is untouched by them. */
import { rmSync } from 'node:fs';
import { ArchiveFault, ArchiveRefusal, archiveFaultOf } from './archive-fault.ts';

/**
 * The fault that an error means for the file at `path`, `what` being "export" or "backup"; the error itself where it
 * speaks of something else. `isBegun`: something was written there already, so that what is missing has gone since.
 */
export function targetFaultOf(error: unknown, path: string, what: string, isBegun = false): unknown {
  if (error instanceof ArchiveRefusal || error instanceof ArchiveFault) return error;
  const code = archiveFaultOf(error, path)?.code;
  if (isBegun && (code === 'archive-folder-missing' || code === 'archive-not-made'))
    return new ArchiveFault(
      'archive-unreadable',
      `What was written of the ${what} is gone again from ${path}: its medium was pulled, or its folder taken away. Put it back, or choose another place, and do it again. The archive is untouched.`,
      error instanceof Error ? error.message : undefined,
    );
  const words: Partial<Record<ArchiveFault['code'], string>> = {
    'archive-disk-full': `The disk that holds ${path} is full, so the ${what} was not written; free some space or choose another disk. The archive is untouched.`,
    'archive-read-only': `The file ${path} can't be written (no permission, or a read-only medium); choose another place. The archive is untouched.`,
    'archive-folder-missing': `The folder of ${path} does not exist or can't be entered; make it first or choose another one.`,
    'archive-not-made': `No file can be made at ${path}: its folder is there and takes none; choose another one. The archive is untouched.`,
    'archive-unreadable': `The medium that holds ${path} gave an error, so the ${what} was not written; choose another one. The archive is untouched.`,
  };
  const sentence = code === undefined ? undefined : words[code];
  if (code === undefined || sentence === undefined) return error;
  return new ArchiveFault(code, sentence, error instanceof Error ? error.message : undefined);
}

/** Takes away what was written in part, where that can be done: a medium that has gone would hide why it is done. */
export function discardPart(...paths: readonly string[]): void {
  for (const path of paths)
    try {
      rmSync(path, { force: true });
    } catch {
      // What went wrong first is told; the part bears a name that nothing takes for the whole.
    }
}
