/** What is wrong with the shape of what came from outside, from a zod check, in plain sentences: where, what, what to do. */
import type { z } from 'zod';
import { nearName } from './near-name.ts';
import { schemaKeys } from './schema-keys.ts';

export interface ShapeFault {
  /** Dotted path of the field, "geometry.width[1]"; empty for the file as a whole. */
  readonly field: string;
  /** One sentence, beginning with the field. */
  readonly sentence: string;
}

export interface ShapeWords {
  /** What the file is: "The specimen". */
  readonly whole: string;
  /** How a field is filled in, as it would stand in the file: `"12.7 mm"`; null where the shape says enough. */
  readonly example?: (field: string) => string | null;
  /** What was checked against: with it a misspelt field is told the nearest one that there is. */
  readonly schema?: z.core.$ZodType;
  /** It was typed into the fields of a form, where what is missing was left blank. */
  readonly isForm?: boolean;
}

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** More than this many faults help nobody; the rest shows after the first are mended. */
export const FAULTS_SHOWN_MAX = 50;
const SHOWN_CHARACTERS_MAX = 40;
/** Longer lists of what is possible (all units) are no longer read. */
const OPTIONS_SHOWN_MAX = 20;

/** `input` is what was checked: it tells a missing field from a wrong one. Never empty for issues that are not. */
export function shapeFaults(issues: readonly Issue[], input: unknown, words: ShapeWords): ShapeFault[] {
  const faults = issues.slice(0, FAULTS_SHOWN_MAX).flatMap((issue) => faultsOf(issue, [], input, words));
  // "widht" and a missing "width" are one mistake.
  const meant = new Set(faults.map((fault) => fault.meant));
  return faults
    .filter(({ field, isMissing }) => !isMissing || !meant.has(field))
    .map(({ field, sentence }) => ({ field, sentence }));
}

/** A fault that a check of our own found. `whole`: what the file is called where no field of it is at fault. */
export function shapeFault(field: string, what: string, whole = 'The file'): ShapeFault {
  return { field, sentence: `${field === '' ? whole : field}: ${what.replace(/\.$/, '')}.` };
}

/** "geometry.width[1]". */
export function shapePath(path: Path): string {
  return path.reduce<string>((text, part) => {
    if (typeof part === 'number') return `${text}[${String(part)}]`;
    return text === '' ? String(part) : `${text}.${String(part)}`;
  }, '');
}

interface FoundFault extends ShapeFault {
  /** The field that an unknown one was probably meant to be. */
  readonly meant?: string;
  readonly isMissing?: boolean;
}

function faultsOf(issue: Issue, above: Path, input: unknown, words: ShapeWords): FoundFault[] {
  const path = [...above, ...issue.path];
  const field = shapePath(path);
  const value = valueAt(input, path);
  const fault = (what: string): FoundFault => ({
    ...shapeFault(field, what, words.whole),
    isMissing: value === undefined,
  });
  const like = example(field, words);
  if (issue.code !== 'unrecognized_keys' && issue.code !== 'invalid_union' && isOwn(issue.message))
    return [fault(issue.message)];
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => unknownField(key, path, input, words));
    case 'invalid_union': {
      const options = 'options' in issue && Array.isArray(issue.options) ? issue.options : [];
      if (options.length > 0) return [fault(oneOf(value, options))];
      return (
        unionFaults(issue.errors, path, input, words) ?? [fault(wrongKind(value, 'string', like, words))]
      );
    }
    case 'invalid_type':
      return [fault(wrongKind(value, issue.expected, like, words))];
    case 'invalid_value':
      return [fault(oneOf(value, issue.values))];
    case 'too_small':
    case 'too_big':
      return [fault(wrongSize(issue, value, like))];
    case 'not_multiple_of':
      return [fault(`${shown(value)} is no multiple of ${String(issue.divisor)}; correct it`)];
    case 'invalid_key':
    case 'invalid_element':
      return [fault(`one of the entries is wrong; correct it${like}`)];
    case 'invalid_format':
    case 'custom':
      return [fault(`${shown(value)} is not written as it must be${like}`)];
  }
}

/** Our own schemas bring their own words; the library's name types and patterns. */
const isOwn = (message: string): boolean => !/^(?:Invalid|Too (?:big|small)|Unrecognized)/.test(message);

function unknownField(key: string, path: Path, input: unknown, words: ShapeWords): FoundFault {
  const field = shapePath([...path, key]);
  const known = words.schema === undefined ? [] : schemaKeys(words.schema, path, input);
  const free = known.filter((name) => valueAt(input, [...path, name]) === undefined);
  const near = nearName(key, free);
  if (near !== null)
    return {
      ...shapeFault(field, `there is no such field here; write "${near}" if that is meant, or remove it`),
      meant: shapePath([...path, near]),
    };
  const named =
    known.length === 0 || known.length > OPTIONS_SHOWN_MAX
      ? 'correct its spelling'
      : `correct its spelling (there can be ${listed(known, 'and')})`;
  return shapeFault(field, `there is no such field here; remove it or ${named}`);
}

/** The alternative that came nearest: the one whose faults lie deepest, or that is of the right kind at all. */
function unionFaults(
  alternatives: readonly (readonly Issue[])[],
  path: Path,
  input: unknown,
  words: ShapeWords,
): FoundFault[] | null {
  const isOfKind = (issues: readonly Issue[]): boolean =>
    issues.length > 0 && !issues.some((issue) => issue.code === 'invalid_type' && issue.path.length === 0);
  const nearest = alternatives.find(isOfKind);
  return nearest === undefined ? null : nearest.flatMap((issue) => faultsOf(issue, path, input, words));
}

function wrongKind(value: unknown, expected: string, like: string, { isForm }: ShapeWords): string {
  if (value === undefined && isForm === true) return `this is empty; fill it in${like}`;
  const must = KIND_WORDS[expected] ?? `a ${expected}`;
  if (value === undefined) return `this is missing; add it as ${must}${like}`;
  if (expected === 'string' && typeof value === 'number') {
    const unsized = / in|mm|psi|MPa/.test(like);
    const zero = unsized && value <= 0 ? 'is not greater than zero and ' : '';
    return unsized
      ? `${shown(value)} ${zero}has no unit; write the value read with its unit in quotation marks${like}`
      : `${shown(value)} is a number; write it in quotation marks${like}`;
  }
  return `${shown(value)} stands here; it must be ${must}${like}`;
}

function wrongSize(
  issue: Extract<Issue, { code: 'too_small' | 'too_big' }>,
  value: unknown,
  like: string,
): string {
  const small = issue.code === 'too_small';
  const bound = String(small ? issue.minimum : issue.maximum);
  if (issue.origin === 'string')
    return small ? `this is empty; fill it in${like}` : `this is longer than ${bound} characters; shorten it`;
  if (issue.origin === 'array')
    return small
      ? `this list is ${bound === '1' ? 'empty' : 'too short'}; give at least ${bound}${like}`
      : `this list is longer than ${bound}; shorten it`;
  return small
    ? `${shown(value)} is too small; give ${issue.inclusive === false ? 'more than' : 'at least'} ${bound}`
    : `${shown(value)} is too large; give ${issue.inclusive === false ? 'less than' : 'at most'} ${bound}`;
}

function oneOf(value: unknown, options: readonly unknown[]): string {
  const must = options.length <= 2 ? listed(options, 'or') : `one of ${listed(options, 'or')}`;
  return value === undefined
    ? `this is missing; it must be ${must}`
    : `${shown(value)} is not known here; it must be ${must}`;
}

/** `"a", "b" or "c"`; of long lists the first. */
function listed(options: readonly unknown[], word: 'and' | 'or'): string {
  const list = options.map((option) => (typeof option === 'string' ? `"${option}"` : String(option)));
  const rest = list.length - OPTIONS_SHOWN_MAX;
  const shownOnes = rest > 0 ? [...list.slice(0, OPTIONS_SHOWN_MAX), `${String(rest)} others`] : list;
  return [shownOnes.slice(0, -1).join(', '), ...shownOnes.slice(-1)]
    .filter((t) => t !== '')
    .join(` ${word} `);
}

function example(field: string, words: ShapeWords): string {
  const text = words.example?.(field) ?? null;
  return text === null ? '' : `, for example ${text}`;
}

/** Undefined for what has no form in JSON, which its own type doesn't say. */
const toJson: (value: unknown) => string | undefined = JSON.stringify;

/** The value in words short enough for a sentence. */
function shown(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (value === null) return 'null';
  if (typeof value === 'object') return 'an object';
  if (typeof value === 'number' && !Number.isFinite(value)) return 'what is no finite number';
  // What has no form in JSON (a bigint, a symbol, a function) never comes from a file, but from a page it might.
  const text = typeof value === 'bigint' ? undefined : toJson(value);
  if (text === undefined) return value === undefined ? 'nothing' : `a ${typeof value}`;
  return text.length > SHOWN_CHARACTERS_MAX ? `${text.slice(0, SHOWN_CHARACTERS_MAX)}…` : text;
}

const KIND_WORDS: Readonly<Record<string, string>> = {
  array: 'a list in square brackets',
  object: 'an object with named fields',
  string: 'text in quotation marks',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
};

function valueAt(input: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (value, part) =>
      typeof value === 'object' && value !== null && Object.hasOwn(value, part)
        ? (value as Record<PropertyKey, unknown>)[part]
        : undefined,
    input,
  );
}
