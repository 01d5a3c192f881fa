/** What stands in the place of source, readout profile and rules where a pull was typed from the frame's display. */
import { READOUT_PROFILE_SCHEMA, type ReadoutProfile, readoutProfile } from '../contract/readout-profile.ts';
import type { PullRules } from './pull-state.ts';

export const TYPED_WORDS = 'typed from the display of the frame; nothing was recorded';

/**
 * A profile like any other, so that everything that names the readout says that a person stood in its place. Read when it is
 * asked for: a start types no pull.
 */
export const typedProfile = (): ReadoutProfile =>
  readoutProfile.parse({
    schema: READOUT_PROFILE_SCHEMA,
    name: 'typed from the frame’s display',
    notes: 'No readout was connected. A person read the display of the frame and typed the values.',
    mode: { kind: 'print-key' },
    format: { kind: 'delimited', delimiter: ',', fields: ['load'] },
    channels: [{ field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'N' }, peak: true }],
  });

export const TYPED_RULES: PullRules = {
  trigger: { kind: 'by-hand' },
  breakRule: { kind: 'by-hand' },
  tailS: null,
  heldOpenS: null,
};
