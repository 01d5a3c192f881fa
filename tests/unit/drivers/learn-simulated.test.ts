/** The simulated readouts as a stranger would meet them: what is learned from their lines alone, and what a person adds. */
import { describe, expect, it } from 'vitest';
import type { ReadoutProfile } from '../../../core/contract/readout-profile.ts';
import { channelRemarks } from '../../../drivers/learn/channel-remarks.ts';
import { type Learnt, learnLines } from '../../../drivers/learn/learn-lines.ts';
import { type ChannelName, nameChannels } from '../../../drivers/learn/name-channels.ts';
import { shippedProfiles } from '../../../drivers/profiles.ts';
import { shippedScenarios, profileOfScenario } from '../../../drivers/simulated-frame/scenarios.ts';
import type { Scenario } from '../../../drivers/simulated-frame/scenario.ts';
import { SimulatedFrame } from '../../../drivers/simulated-frame/simulated-frame.ts';

/** Some seconds from somewhere in the pull. */
function learnedFrom(
  scenario: Scenario,
  profile: ReadoutProfile,
  { fromS, seconds }: { readonly fromS: number; readonly seconds: number },
): Learnt {
  const lines = [...new SimulatedFrame(scenario, { profile }).lines()].filter(
    ({ elapsedUs }) => elapsedUs >= fromS * 1e6 && elapsedUs < (fromS + seconds) * 1e6,
  );
  const learnt = learnLines(Buffer.concat(lines.map(({ bytes }) => bytes)));
  if (learnt === null) throw new Error('nothing was learned');
  return learnt;
}

const quantities = (learnt: Learnt): (string | null)[] => learnt.channels.map(({ quantity }) => quantity);

describe.each(shippedScenarios().map((scenario) => [scenario.name, scenario] as const))(
  'the bare numbers of %s',
  (_, scenario) => {
    it.each([0, 1, 4, 8])('hold one clock at most, and nothing wrong, from second %d on', (fromS) => {
      const profile = profileOfScenario(scenario);
      const learnt = learnedFrom(scenario, profile, { fromS, seconds: 5 });
      expect(learnt.channels).toHaveLength(profile.channels.length);
      expect(quantities(learnt).filter((quantity) => quantity === 'time')).toHaveLength(1);
      profile.channels.forEach(({ quantity }, index) => {
        expect([null, quantity]).toContain(quantities(learnt)[index]);
      });
      // What stays open is said.
      expect(learnt.remarks.join(' ')).toMatch(/does not say the unit/);
    });
  },
);

describe('a simulated readout that says names or units', () => {
  // Those that show the value of the moment by themselves; a peak or a register needs more than lines.
  const speaking = shippedProfiles().filter(
    ({ format, mode, channels }) =>
      mode.kind === 'continuous' &&
      format.kind !== 'registers' &&
      channels.some(({ unit }) => unit.kind === 'in-line') &&
      channels.every(({ quantity, peak }) => quantity !== 'stress' && !peak),
  );
  it('ships in more than one form', () => {
    expect(speaking.length).toBeGreaterThan(1);
  });

  describe.each(speaking.map((profile) => [profile.name, profile] as const))('%s', (_, profile) => {
    it.each(shippedScenarios().map(({ name }) => name))('is learned with force and unit from %s', (name) => {
      const scenario = shippedScenarios().find((shipped) => shipped.name === name);
      if (scenario === undefined) throw new Error('it ships');
      const learnt = learnedFrom(scenario, profile, { fromS: 0, seconds: 12 });
      const force = profile.channels.find(({ quantity }) => quantity === 'force');
      expect(learnt.profile.channels).toContainEqual(
        expect.objectContaining({
          quantity: 'force',
          unit: expect.objectContaining({
            expected: force?.unit.kind === 'in-line' ? force.unit.expected : '',
          }) as unknown,
        }),
      );
    });
  });
});

describe('a person names what the lines do not say', () => {
  const scenario = shippedScenarios().find(({ name }) => name === 'weld-strap-us');
  if (scenario === undefined) throw new Error('it ships');
  const learnt = learnedFrom(scenario, profileOfScenario(scenario), { fromS: 4, seconds: 5 });
  const [time = '', load = '', extension = ''] = learnt.channels.map(({ field }) => field);
  const names = (...entries: [string, ChannelName][]): Map<string, ChannelName> => new Map(entries);

  it('and the profile has these quantities and units', () => {
    const outcome = nameChannels(
      learnt,
      names([load, { quantity: 'force', unit: 'lbf' }], [extension, { quantity: 'extension', unit: 'in' }]),
    );
    if (!outcome.ok) throw new Error(outcome.code);
    expect(outcome.learnt.profile.channels.slice(1, 3)).toMatchObject([
      { quantity: 'force', unit: { kind: 'fixed', unit: 'lbf' } },
      { quantity: 'extension', unit: { kind: 'fixed', unit: 'in' } },
    ]);
    // Only the travel is left to be named.
    expect(outcome.learnt.channels.map(({ quantity }) => quantity)).toEqual([
      'time',
      'force',
      'extension',
      null,
    ]);
    expect(learnt.remarks).toEqual(expect.arrayContaining(channelRemarks(learnt.channels)));
    expect(outcome.learnt.remarks).toEqual([learnt.remarks[0], ...channelRemarks(outcome.learnt.channels)]);
  });

  it('and what was only guessed gives way', () => {
    const outcome = nameChannels(learnt, names([load, { quantity: 'time', unit: 's' }]));
    if (!outcome.ok) throw new Error(outcome.code);
    expect(outcome.learnt.profile.channels.filter(({ quantity }) => quantity === 'time')).toMatchObject([
      { field: load },
    ]);
  });

  it('but not without a unit, and not a field that is not there', () => {
    expect(nameChannels(learnt, names([load, { quantity: 'force', unit: null }]))).toEqual({
      ok: false,
      field: load,
      code: 'unit-missing',
    });
    expect(nameChannels(learnt, names(['99', { quantity: 'force', unit: 'N' }]))).toMatchObject({
      ok: false,
      code: 'field-unknown',
    });
    expect(nameChannels(learnt, names([time, { quantity: 'time', unit: null }])).ok).toBe(true);
  });
});
