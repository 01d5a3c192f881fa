/** A request that was asked for in a wrong form: told the same way by everybody who checks one. */
import type { z } from 'zod';
import { shapeFaults } from '../shape-faults.ts';
import type { Fault } from './message.ts';

/** A request that is wrong in more ways is wrong in the first. */
const FAULTS_SHOWN_MAX = 3;
const FAULT_CHARACTERS_MAX = 300;
const FIELD_CHARACTERS_MAX = 200;

/** `schema` is the request's, `payload` what it refused. */
export function malformedRequest(
  name: string,
  error: z.ZodError,
  schema: z.ZodType,
  payload: unknown,
): Fault {
  const faults = shapeFaults(error.issues, payload, { whole: 'the request', schema }).slice(
    0,
    FAULTS_SHOWN_MAX,
  );
  const words = faults.map(({ sentence }) => sentence.replace(/\.$/, '').slice(0, FAULT_CHARACTERS_MAX));
  const field = faults[0]?.field.slice(0, FIELD_CHARACTERS_MAX) ?? '';
  return {
    code: 'request-malformed',
    sentence: `"${name}" was asked for in a wrong form (${words.join('; ')}). Nothing was done.`,
    ...(field === '' ? {} : { field }),
  };
}
