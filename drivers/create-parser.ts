/** From a profile to the parser of one opening. */
import type { ReadoutProfile } from '../core/contract/readout-profile.ts';
import { LineParser, type OpeningFacts } from './lines/line-parser.ts';
import { RegisterParser } from './modbus/register-parser.ts';
import type { ReadoutParser } from './reading.ts';

/**
 * A new parser; never reused for a second opening, so that two halves can't be glued into a wrong number.
 * Give `openedUs` (on the clock of the chunks) for a source that may be in the middle of a line when it is
 * opened: a port, a socket. Without it the first byte counts as the beginning of a line: a replay, a simulation.
 */
export function createParser(profile: ReadoutProfile, opening: OpeningFacts = {}): ReadoutParser {
  const { format } = profile;
  return format.kind === 'registers'
    ? new RegisterParser({ ...profile, format })
    : new LineParser({ ...profile, format }, opening);
}
