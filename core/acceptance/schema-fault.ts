/** A fault in a file: where it is, what is wrong, what to do. */
import type { z } from 'zod';

export interface FileFault {
  /** Dotted path of the field, "rules[2].clause"; empty for the file as a whole. */
  readonly field: string;
  /** One sentence, beginning with the field. */
  readonly sentence: string;
}

/** More than this many faults help nobody; the rest shows after the first are mended. */
export const FAULTS_SHOWN_MAX = 50;

export function fileFault(field: string, what: string): FileFault {
  return { field, sentence: `${field === '' ? 'The file' : field}: ${what.replace(/\.$/, '')}.` };
}

export function fieldPath(path: readonly PropertyKey[]): string {
  return path.reduce<string>((joined, part) => {
    if (typeof part === 'number') return `${joined}[${String(part)}]`;
    return joined === '' ? String(part) : `${joined}.${String(part)}`;
  }, '');
}

/** The issues of a zod check in our own words. */
export function faultsOfIssues(issues: readonly z.core.$ZodIssue[]): FileFault[] {
  return issues.slice(0, FAULTS_SHOWN_MAX).flatMap((issue) => {
    const field = fieldPath(issue.path);
    switch (issue.code) {
      case 'unrecognized_keys':
        return issue.keys.map((key) =>
          fileFault(
            field === '' ? key : `${field}.${key}`,
            `there is no such field here; remove it or correct its spelling`,
          ),
        );
      case 'invalid_value':
        return [
          fileFault(
            field,
            issue.message.startsWith('Invalid')
              ? `this must be ${issue.values.map((value) => JSON.stringify(value)).join(' or ')}`
              : issue.message,
          ),
        ];
      case 'invalid_type':
        return [
          fileFault(
            field,
            !issue.message.startsWith('Invalid')
              ? issue.message
              : issue.input === undefined && issue.message.endsWith('received undefined')
                ? `this is missing; it must be ${withArticle(issue.expected)}`
                : `this must be ${withArticle(issue.expected)}`,
          ),
        ];
      case 'too_big':
        return [fileFault(field, `this is longer or larger than ${String(issue.maximum)}; shorten it`)];
      case 'too_small':
        return [fileFault(field, `this must not be empty or below ${String(issue.minimum)}`)];
      case 'custom':
      case 'invalid_format':
      case 'invalid_union':
      case 'invalid_key':
      case 'invalid_element':
      case 'not_multiple_of':
        return [fileFault(field, issue.message)];
    }
  });
}

function withArticle(expected: string): string {
  const words: Readonly<Record<string, string>> = {
    array: 'a list',
    object: 'an object with named fields',
    string: 'a text in quotation marks',
    number: 'a number',
    int: 'a whole number',
  };
  return words[expected] ?? `a ${expected}`;
}
