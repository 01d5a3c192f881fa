/** Faults of requests themselves: asked in a wrong form, or failed because of a bug. */
import type { z } from 'zod';
import type { Fault } from '../../core/contract/message.ts';

const WORDS_MAX = 300;

export function malformed(name: string, error: z.ZodError): Fault {
  const [issue] = error.issues;
  const field = issue?.path.map(String).join('.') ?? '';
  const what = `${field === '' ? '' : `${field}: `}${issue?.message ?? ''}`.slice(0, WORDS_MAX);
  return {
    code: 'request-malformed',
    sentence: `"${name}" was asked for in a wrong form: ${what}. Nothing was done.`,
    ...(field === '' ? {} : { field }),
  };
}

export function programFault(name: string, error: unknown): Fault {
  const what = error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error);
  return {
    code: 'program-fault',
    sentence: `"${name}" failed because of a fault in the program (${what.slice(0, WORDS_MAX)}). What is recorded is safe.`,
  };
}
