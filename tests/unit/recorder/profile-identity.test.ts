import { expect, it } from 'vitest';
import { profileIdentity } from '../../../electron/recorder/profile-identity.ts';
import { PROFILE } from '../archive/made-archive.ts';

it('is that of the readout, whatever its profile is called; another unit, line setting or field makes another', () => {
  const own = profileIdentity(PROFILE);
  expect(profileIdentity({ ...PROFILE, name: 'renamed', notes: 'cable mended', rateHz: 11 })).toBe(own);
  const [load, extension] = PROFILE.channels;
  if (load === undefined || extension === undefined) throw new Error('two channels');
  const others = [
    { ...PROFILE, channels: [{ ...load, unit: { kind: 'fixed' as const, unit: 'kN' as const } }, extension] },
    { ...PROFILE, channels: [{ ...load, scale: '1.001' }, extension] },
    { ...PROFILE, controlLines: { dtr: false } },
  ].map(profileIdentity);
  expect(new Set([own, ...others]).size).toBe(4);
});
