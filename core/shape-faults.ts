/** What is wrong with the shape of a file that people write, from a zod check, in plain sentences: where, what, what to do. */
import type { z } from 'zod';

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
}

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** More than this many faults help nobody; the rest shows after the first are mended. */
const FAULTS_MAX = 50;
const SHOWN_CHARACTERS_MAX = 40;
/** Longer lists of what is possible (all units) are no longer read. */
const OPTIONS_SHOWN_MAX = 20;

/** `input` is what was checked: it tells a missing field from a wrong one. Never empty for issues that are not. */
export function shapeFaults(issues: readonly Issue[], input: unknown, words: ShapeWords): ShapeFault[] {
  return issues.slice(0, FAULTS_MAX).flatMap((issue) => faultsOf(issue, [], input, words));
}

/** "geometry.width[1]". */
export function shapePath(path: Path): string {
  return path.reduce<string>((text, part) => {
    if (typeof part === 'number') return `${text}[${String(part)}]`;
    return text === '' ? String(part) : `${text}.${String(part)}`;
  }, '');
}

function faultsOf(issue: Issue, above: Path, input: unknown, words: ShapeWords): ShapeFault[] {
  const path = [...above, ...issue.path];
  const field = shapePath(path);
  const value = valueAt(input, path);
  const fault = (what: string, at = field): ShapeFault => ({
    field: at,
    sentence: `${at === '' ? words.whole : at}: ${what.replace(/\.$/, '')}.`,
  });
  const like = example(field, words);
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) =>
        fault('there is no such field here; remove it or correct its spelling', shapePath([...path, key])),
      );
    case 'invalid_union': {
      const options = 'options' in issue && Array.isArray(issue.options) ? issue.options : [];
      if (options.length > 0) return [fault(oneOf(value, options))];
      return unionFaults(issue.errors, path, input, words) ?? [fault(wrongKind(value, 'string', like))];
    }
    case 'invalid_type':
      return [fault(wrongKind(value, issue.expected, like))];
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
      // Our own schemas bring their own words; the library's ("Invalid string …") name patterns.
      return [
        fault(
          issue.message.startsWith('Invalid')
            ? `${shown(value)} is not written as it must be${like}`
            : issue.message,
        ),
      ];
  }
}

/** The alternative that came nearest: the one whose faults lie deepest, or that is of the right kind at all. */
function unionFaults(
  alternatives: readonly (readonly Issue[])[],
  path: Path,
  input: unknown,
  words: ShapeWords,
): ShapeFault[] | null {
  const isOfKind = (issues: readonly Issue[]): boolean =>
    issues.length > 0 && !issues.some((issue) => issue.code === 'invalid_type' && issue.path.length === 0);
  const nearest = alternatives.find(isOfKind);
  return nearest === undefined ? null : nearest.flatMap((issue) => faultsOf(issue, path, input, words));
}

function wrongKind(value: unknown, expected: string, like: string): string {
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
  const list = options.map((option) => (typeof option === 'string' ? `"${option}"` : String(option)));
  const rest = list.length - OPTIONS_SHOWN_MAX;
  const named = list.slice(0, OPTIONS_SHOWN_MAX).join(', ') + (rest > 0 ? ` or ${String(rest)} others` : '');
  const must = list.length === 1 ? named : `one of ${named}`;
  return value === undefined
    ? `this is missing; it must be ${must}`
    : `${shown(value)} is not known here; it must be ${must}`;
}

function example(field: string, words: ShapeWords): string {
  const text = words.example?.(field) ?? null;
  return text === null ? '' : `, for example ${text}`;
}

/** The value in words short enough for a sentence. */
function shown(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (value === null) return 'null';
  if (typeof value === 'object') return 'an object';
  const text = JSON.stringify(value) as string | undefined;
  if (text === undefined) return 'nothing';
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
