/** Writes a text file that is not there yet, whole or not at all; whatever is in the way becomes one sentence. */
import { ArchiveFault, ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import { writeWholeText } from '../exports/whole-text.ts';
import { fileExists } from './existing-file.ts';
import { JobError } from './verb.ts';

/**
 * `option` is the one that names the file; gives the bytes written. Throws an InputError where there is a file already,
 * a JobError where it can't be written.
 */
export function writeNewFile(path: string, text: string, option: 'table-out' | 'svg'): number {
  try {
    return writeWholeText([text], path).bytes;
  } catch (error) {
    if (error instanceof ArchiveRefusal) throw fileExists(path, option);
    throw error instanceof ArchiveFault
      ? new JobError('file-not-written', error.message, error.detail)
      : new JobError(
          'file-not-written',
          `${path} can't be written; check folder, permissions and free space.`,
          error instanceof Error ? error.message : undefined,
        );
  }
}
