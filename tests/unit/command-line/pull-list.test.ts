/** The list of pulls as text: local time, the units asked for, what was simulated, who pulled, which verdict. */
import { expect, it } from 'vitest';
import { type ListedPull, pullListText } from '../../../electron/command-line/pull-list.ts';

const PULL: ListedPull = {
  pullId: 7,
  specimenId: 1,
  specimenName: 'T-1',
  startedWallMs: Date.UTC(2026, 2, 4, 9, 30),
  startedLocally: '2026-03-04T11:30:00.000+02:00',
  state: 'ended',
  readingCount: 812,
  peakForceN: 44_482.216152605,
  broke: true,
  voided: null,
  typed: null,
  pulledOn: null,
  gapCount: 1,
  operator: 'bench 2',
  simulated: true,
  readings: 'simulated',
  peakOverAreaMpa: 6.894757293168361 * 60,
  measuredIn: 'si',
  verdict: { setId: 3, setName: 'WPS 12', outcome: 'accept' },
};

it('shows the clock of the place, and what stands beside the readings', () => {
  const [, line = ''] = pullListText([PULL], undefined).split('\n');
  expect(line).toMatch(
    /^\s*7 {2}2026-03-04 11:30 \+02:00 {2}T-1 {2,}44482 N {2}413\.7 MPa {2}SIMULATED, ACCEPT in set 3/,
  );
  expect(line).toMatch(/812 readings, ended, 1 gap, by bench 2$/);
});

it('marks readings that were given out again from a file as well', () => {
  const replayed: ListedPull = { ...PULL, simulated: false, readings: 'replay' };
  expect(pullListText([replayed], undefined)).toMatch(/ REPLAYED, ACCEPT in set 3/);
  const { readings, ...recorded } = PULL;
  expect(readings).toBe('simulated');
  expect(pullListText([{ ...recorded, simulated: false }], undefined)).not.toMatch(/SIMULATED|REPLAYED/);
});

it('honours the units asked for, and else those in which the specimen was measured', () => {
  for (const text of [pullListText([PULL], 'us'), pullListText([{ ...PULL, measuredIn: 'us' }], undefined)])
    expect(text).toMatch(/ 10000 lbf {2}60000 psi /);
});

it('says UTC where the offset was not kept, and a dash where there is no peak', () => {
  const bare = {
    ...PULL,
    startedLocally: '2026-03-04T09:30:00.000Z',
    peakForceN: null,
    peakOverAreaMpa: null,
  };
  expect(pullListText([bare], 'si')).toMatch(/2026-03-04 09:30 UTC {2}T-1 {2,}– {2,}– {2}/);
});
