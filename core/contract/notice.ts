/** Notices: what people must know now, each with a stable code, so that a window can show one of each. */
import { z } from 'zod';
import { fault, wallMs } from './message.ts';

export const notice = z.strictObject({
  severity: z.enum(['note', 'warning', 'alarm']),
  code: fault.shape.code,
  sentence: fault.shape.sentence,
  since: wallMs,
  /** True when the trouble of this code is over. */
  over: z.boolean(),
  /** What would help, to be offered beside it: learning the lines of the readout, or of the second instrument. */
  remedy: z.enum(['learn-lines', 'learn-second-lines']).optional(),
});
export type Notice = z.infer<typeof notice>;
