/** What a person says with an act: who, and why. */
import type { VerbArguments } from './arguments.ts';
import { InputError } from './verb.ts';

export const SAID_OPTIONS = { operator: { type: 'string' }, reason: { type: 'string' } } as const;

/** `--operator NAME` as requests have it; nothing where it isn't given. */
export function saidBy(given: VerbArguments): { readonly by?: string } {
  const name = given.text('operator')?.trim() ?? '';
  return name === '' ? {} : { by: name };
}

/** `--reason TEXT` where it is given. */
export function saidWhy(given: VerbArguments): { readonly reason?: string } {
  const reason = given.text('reason')?.trim() ?? '';
  return reason === '' ? {} : { reason };
}

/** Throws an InputError that says what the text is for. */
export function neededText(given: VerbArguments, option: 'operator' | 'reason', what: string): string {
  const text = given.text(option)?.trim() ?? '';
  if (text === '')
    throw new InputError(
      `${option}-missing`,
      `--${option} ${option === 'operator' ? 'NAME' : 'TEXT'} is missing: ${what}.`,
      option,
    );
  return text;
}
