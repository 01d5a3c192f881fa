/** Troubles with a file that is written beside the archive's own: an export, a backup. The archive is untouched by them. */
import { ArchiveFault, ArchiveRefusal, archiveFaultOf } from './archive-fault.ts';

/**
 * The fault that an error means for the file at `path`, `what` being "export" or "backup"; the error itself where it
 * speaks of something else.
 */
export function targetFaultOf(error: unknown, path: string, what: string): unknown {
  if (error instanceof ArchiveRefusal || error instanceof ArchiveFault) return error;
  const code = archiveFaultOf(error, path)?.code;
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
