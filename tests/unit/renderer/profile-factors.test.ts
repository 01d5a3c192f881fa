import { expect, it } from 'vitest';
import { readoutProfile } from '../../../core/contract/readout-profile.ts';
import { forceFactorsSet } from '../../../core/instruments/pull-instruments.ts';
import {
  factorsDraft,
  factorsOf,
  profileWithFactors,
} from '../../../renderer/stations/readout/profile-factors.ts';
import { profileWords } from '../../../renderer/stations/readout/readout-choice.ts';

const profile = readoutProfile.parse({
  schema: 'gaugemark.readout-profile/1',
  name: 'Load and clip',
  format: { kind: 'delimited', delimiter: ';', fields: ['load', 'clip', 'count'] },
  channels: [
    { field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'kN' } },
    { field: 'clip', quantity: 'extension', unit: { kind: 'fixed', unit: 'mm' }, scale: '0.5' },
    { field: 'count', quantity: 'other', unit: { kind: 'fixed', unit: '1' } },
  ],
});
const BUILT_IN = ['Load and clip'];
const draft = factorsDraft(profile);

it('asks for scale and offset of what is measured, the offset in the unit of its value', () => {
  expect(factorsOf(profile)).toEqual([
    { field: 'load', quantity: 'force', unit: 'kN', scale: '1', offset: '0' },
    { field: 'clip', quantity: 'extension', unit: 'mm', scale: '0.5', offset: '0' },
  ]);
});

it('makes a profile of a name of its own that reads the same lines with them', () => {
  const outcome = profileWithFactors(
    profile,
    { ...draft, load: { scale: ' 1,0025 ', offset: '−0.25' } },
    { name: ' Ours ', builtIn: BUILT_IN },
  );
  expect(outcome).toEqual({
    ok: true,
    profile: readoutProfile.parse({
      ...profile,
      name: 'Ours',
      channels: profile.channels.map((one) =>
        one.field === 'load' ? { ...one, scale: '1.0025', offset: '-0.25' } : one,
      ),
    }),
  });
  if (!outcome.ok) return;
  // From now on it is not told before each pull that nobody had set them.
  expect([forceFactorsSet(profile), forceFactorsSet(outcome.profile)]).toEqual([false, true]);
  expect(profileWords(outcome.profile)).toContain('kN (× 1.0025 − 0.25)');
  expect(profileWords(outcome.profile)).toContain('mm (× 0.5)');
});

it.each([
  ['1,250', 'no-number'],
  ['one', 'no-number'],
  ['', 'no-number'],
  ['1/3', 'no-number'],
  ['0.0', 'zero'],
] as const)('takes no scale %j', (scale, fault) => {
  const outcome = profileWithFactors(
    profile,
    { ...draft, load: { scale, offset: '0' } },
    { name: 'Ours', builtIn: BUILT_IN },
  );
  expect(outcome).toEqual({
    ok: false,
    faults: { entries: new Map([['load scale', fault]]), name: null },
  });
});

it('changes no profile that comes with the program, and none without a name', () => {
  const named = (name: string) => {
    const outcome = profileWithFactors(profile, draft, { name, builtIn: BUILT_IN });
    return outcome.ok ? null : outcome.faults.name;
  };
  expect([named(' Load and clip'), named(' '), named('Ours')]).toEqual(['built-in', 'missing', null]);
});
