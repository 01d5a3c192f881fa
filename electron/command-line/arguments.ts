/** Arguments of a verb: options checked by name, faults as one sentence. */
import { type ParseArgsOptionsConfig, parseArgs } from 'node:util';
import { InputError } from './verb.ts';

export interface VerbArguments {
  readonly positionals: readonly string[];
  readonly has: (option: string) => boolean;
  /** The last value given; undefined where the option is absent. */
  readonly text: (option: string) => string | undefined;
  /** Every value of an option that may be given several times. */
  readonly texts: (option: string) => readonly string[];
}

/**
 * Takes the arguments apart by an option table (node:util parseArgs). Throws an InputError for an unknown option,
 * a missing value, too few or too many positionals.
 */
export function takeArguments(
  args: readonly string[],
  options: ParseArgsOptionsConfig,
  positionals: readonly string[],
  verb: string,
): VerbArguments {
  let parsed;
  try {
    parsed = parseArgs({ args: [...args], options, allowPositionals: true, strict: true });
  } catch (error) {
    const text = error instanceof Error ? error.message : '';
    throw new InputError('arguments-wrong', `${wordsOf(text)}; "gaugemark help ${verb}" lists the options.`);
  }
  const { values, positionals: given } = parsed;
  if (given.length < positionals.length)
    throw new InputError(
      'argument-missing',
      `${positionals[given.length] ?? 'An argument'} is missing; "gaugemark help ${verb}" shows an example.`,
    );
  if (given.length > positionals.length)
    throw new InputError(
      'argument-too-many',
      `"${String(given[positionals.length]).slice(0, 80)}" is one argument too many; "gaugemark help ${verb}" shows an example.`,
    );
  const empty = Object.keys(values).find((option) => [values[option]].flat().includes(''));
  if (empty !== undefined)
    throw new InputError(
      'option-value-missing',
      `--${empty} has an empty value; give one, or leave the option away.`,
      empty,
    );
  const texts = (option: string): string[] => {
    const value = values[option];
    const list = Array.isArray(value) ? value : [value];
    return list.filter((v) => typeof v === 'string');
  };
  return {
    positionals: given,
    has: (option) => values[option] === true,
    text: (option) => texts(option).at(-1),
    texts,
  };
}

/** What node:util says, in one clause; a value that begins with a dash is told how it is written. */
function wordsOf(message: string): string {
  const dashed = /^Option '(?:-\w, )?(--[\w-]+)[^']*' argument is ambiguous/.exec(message)?.[1];
  if (dashed !== undefined)
    return `${dashed} is followed by another option or by a value that begins with a dash; the value is missing, or is written ${dashed}=-1`;
  return (message.split(/\. |\n/, 1)[0] ?? '').replace(/\.$/, '');
}

/** The option's value if it is one of the words; throws an InputError that lists them. */
export function oneOf<T extends string>(
  option: string,
  value: string | undefined,
  words: readonly T[],
): T | undefined {
  if (value === undefined) return undefined;
  const word = words.find((w) => w === value);
  if (word === undefined)
    throw new InputError(
      'option-value-unknown',
      `--${option} "${value.slice(0, 40)}" is not known; use one of ${words.join(', ')}.`,
      option,
    );
  return word;
}

/** The option's value as a finite number within bounds; throws an InputError otherwise. */
export function numberOption(
  option: string,
  value: string | undefined,
  { above, max }: { readonly above: number; readonly max: number },
): number | undefined {
  if (value === undefined) return undefined;
  const number = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/.test(value.trim())
    ? Number(value)
    : Number.NaN;
  if (!Number.isFinite(number) || number <= above || number > max)
    throw new InputError(
      'option-value-wrong',
      `--${option} "${value.slice(0, 40)}" must be a number above ${String(above)} and at most ${String(max)}.`,
      option,
    );
  return number;
}
