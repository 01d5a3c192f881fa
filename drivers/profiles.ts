/** The readout profiles that ship: those of the simulated frame and one of each kind of invented readout. */
import { type ReadoutProfile, readoutProfile } from '../core/contract/readout-profile.ts';
import simulatedFrameSi from '../fixtures/readouts/simulated-frame-si.json' with { type: 'json' };
import simulatedFrameUs from '../fixtures/readouts/simulated-frame-us.json' with { type: 'json' };

/** Checked when the program starts: a shipped profile that is not valid is a bug. */
export const SHIPPED_PROFILES: readonly ReadoutProfile[] = [simulatedFrameSi, simulatedFrameUs].map((file) =>
  readoutProfile.parse(file),
);

/** The profile that ships under a name; null where none does. */
export function shippedProfile(name: string): ReadoutProfile | null {
  return SHIPPED_PROFILES.find((profile) => profile.name === name) ?? null;
}
