/** A file that is made by a verb is never written over another. */
import { InputError } from './verb.ts';

export function fileExists(path: string, option = 'out'): InputError {
  return new InputError(
    'file-exists',
    `${path} is there already and is not written over; give another name to --${option}.`,
    option,
  );
}
