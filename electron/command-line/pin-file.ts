/** A PIN from a file: on the command line itself it would stand in the list of processes and in the shell's history. */
import { readFileSync, statSync } from 'node:fs';
import { InputError } from './verb.ts';

const PIN_FILE_BYTES_MAX = 1_000;

/** The first line; undefined where no file is named. Throws an InputError. */
export function pinFromFile(path: string | undefined): string | undefined {
  if (path === undefined) return undefined;
  try {
    if (statSync(path).size <= PIN_FILE_BYTES_MAX) {
      const pin = readFileSync(path, 'utf8').split(/\r?\n/, 1)[0] ?? '';
      if (pin.length >= 4 && pin.length <= 64) return pin;
    }
  } catch {
    throw new InputError(
      'file-missing',
      `The file of the PIN, ${path.slice(0, 200)}, could not be read.`,
      'pin-file',
    );
  }
  throw new InputError(
    'pin-wrong',
    'The first line of the PIN’s file must have 4 to 64 characters.',
    'pin-file',
  );
}
