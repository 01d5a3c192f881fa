/** From a profile to the parser of one opening. */
import type { ReadoutProfile } from '../core/contract/readout-profile.ts';
import type { ReadoutParser } from './reading.ts';

/** A new parser; never reused for a second opening, so that two halves can't be glued into a wrong number. */
export function createParser(profile: ReadoutProfile): ReadoutParser {
  throw new Error(`no parser yet for ${profile.format.kind}`);
}
