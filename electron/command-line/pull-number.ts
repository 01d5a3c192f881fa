/** The number of a pull as it is typed. */
import { InputError } from './verb.ts';

/** `field`: the option that it was given with. Throws an InputError. */
export function pullNumber(text: string | undefined, field = 'pull'): number {
  if (text === undefined)
    throw new InputError(
      'argument-missing',
      `--${field} ID is missing: the number of the pull; "gaugemark archive list" shows them.`,
      field,
    );
  const id = Number(text);
  if (!/^\d+$/.test(text) || !Number.isSafeInteger(id) || id < 1)
    throw new InputError(
      'pull-number-wrong',
      `"${text.slice(0, 40)}" is no number of a pull; "gaugemark archive list" shows them.`,
      field,
    );
  return id;
}
