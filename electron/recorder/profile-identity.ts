/** Which readout a profile is of, whatever it is called: how to talk, where lines and fields are, what they mean. */
import { createHash } from 'node:crypto';
import type { ReadoutProfile } from '../../core/contract/readout-profile.ts';

const HEX_DIGITS = 16;

/** The same for a profile that was only renamed or annotated, or whose rate was measured again. */
export function profileIdentity({
  serial,
  controlLines,
  mode,
  framing,
  check,
  format,
  decimalSign,
  groupSign,
  minusInParentheses,
  channels,
}: ReadoutProfile): string {
  const numbers = [decimalSign, groupSign, ...(minusInParentheses === true ? [minusInParentheses] : [])];
  const speech = [serial, controlLines, mode, framing, check, format, ...numbers, channels];
  return createHash('sha256').update(JSON.stringify(speech)).digest('hex').slice(0, HEX_DIGITS);
}
