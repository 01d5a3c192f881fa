/** What the readout station offers when the lines of a port have been learned. */
import { describe, expect, it } from 'vitest';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { readoutProfile } from '../../../core/contract/readout-profile.ts';
import { choiceLearnt } from '../../../renderer/stations/readout/readout-choice.ts';

const gives = (quantity: 'force' | 'extension', name: string, unit: string): ReadoutProfile =>
  readoutProfile.parse({
    schema: 'gaugemark.readout-profile/1',
    name,
    format: { kind: 'delimited', delimiter: ',', fields: ['a'] },
    channels: [{ field: 'a', quantity, unit: { kind: 'fixed', unit } }],
  });
const clip = gives('extension', 'Clip', 'mm');
const display = gives('force', 'Display', 'kN');
const port = (path: string) => ({ kind: 'serial', path }) as const;

const before = {
  source: port('/dev/ttyUSB0'),
  profileNames: { lines: 'Bench display', registers: null },
  second: { path: '/dev/ttyUSB1', profileName: 'of another' },
};

describe('what is chosen next after learning', () => {
  it('leaves the first instrument alone where the second one’s port was learned', () => {
    expect(choiceLearnt(before, port('/dev/ttyUSB1'), clip)).toEqual({
      ...before,
      second: { path: '/dev/ttyUSB1', profileName: 'Clip' },
    });
    const server = { ...before, second: { path: 'tcp:10.0.0.7:4001', profileName: null } };
    expect(choiceLearnt(server, { kind: 'tcp', host: '10.0.0.7', port: 4001 }, clip)).toEqual({
      ...server,
      second: { path: 'tcp:10.0.0.7:4001', profileName: 'Clip' },
    });
  });

  it('is the first instrument for every other port, and for what gives the load', () => {
    const first = { ...before, profileNames: { lines: 'Clip', registers: null } };
    expect(choiceLearnt(before, port('/dev/ttyUSB0'), clip)).toEqual(first);
    expect(choiceLearnt(before, port('/dev/ttyUSB2'), clip)).toEqual({
      ...first,
      source: port('/dev/ttyUSB2'),
    });
    expect(choiceLearnt(before, port('/dev/ttyUSB1'), display)).toEqual({
      ...before,
      source: port('/dev/ttyUSB1'),
      profileNames: { lines: 'Display', registers: null },
    });
    const same = { ...before, second: { path: '/dev/ttyUSB0', profileName: null } };
    expect(choiceLearnt(same, port('/dev/ttyUSB0'), clip)).toMatchObject({ profileNames: { lines: 'Clip' } });
  });

  it('keeps the port that was chosen where the bytes came from a file', () => {
    expect(choiceLearnt(before, null, display)).toEqual({
      ...before,
      profileNames: { lines: 'Display', registers: null },
    });
  });
});
