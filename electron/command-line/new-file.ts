/** Writes a file that is not there yet, whole or not at all; whatever is in the way becomes one sentence. */
import { ArchiveFault, ArchiveRefusal } from '../../core/archive/archive-fault.ts';
import { FileNotWritten, type WrittenThing, writeWholeBytes } from '../exports/whole-bytes.ts';
import { writeWholeText } from '../exports/whole-text.ts';
import { fileExists } from './existing-file.ts';
import { type InputError, JobError } from './verb.ts';

/** The option that names the file. */
export type FileOption = 'out' | 'table-out' | 'svg' | 'pdf' | 'pdf-out';

/** Gives the bytes written. Throws an InputError where there is a file already, a JobError where it can't be written. */
export function writeNewFile(path: string, text: string, option: FileOption): number {
  try {
    return writeWholeText([text], path).bytes;
  } catch (error) {
    throw asTold(error, path, option);
  }
}

/** Throws as `writeNewFile` does. */
export async function writeNewBytes(
  path: string,
  bytes: Uint8Array,
  { what, option }: { readonly what: WrittenThing; readonly option: FileOption },
): Promise<void> {
  try {
    await writeWholeBytes({ path, bytes, what });
  } catch (error) {
    throw asTold(error, path, option);
  }
}

function asTold(error: unknown, path: string, option: FileOption): InputError | JobError {
  if (error instanceof ArchiveRefusal || (error instanceof FileNotWritten && error.trouble === 'exists'))
    return fileExists(path, option);
  if (error instanceof ArchiveFault || error instanceof FileNotWritten)
    return new JobError('file-not-written', error.message, error.detail);
  return new JobError(
    'file-not-written',
    `${path} can't be written; check folder, permissions and free space.`,
    error instanceof Error ? error.message : undefined,
  );
}
