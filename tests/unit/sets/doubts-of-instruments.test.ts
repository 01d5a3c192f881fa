/** Doubts that the instruments of a pull raise by themselves, from what was kept at its start. */
import { describe, expect, it } from 'vitest';
import type { PullInstruments, UsedInstrument } from '../../../core/instruments/pull-instruments.ts';
import { builtInPacks } from '../../../core/acceptance/packs.ts';
import { readRulePack } from '../../../core/acceptance/read-rule-pack.ts';
import { doubtsOfInstruments } from '../../../core/sets/doubts-of-instruments.ts';

const CHANNEL: UsedInstrument = {
  kind: 'force-channel',
  instrumentId: 1,
  name: 'LC-20',
  serialNumber: '4711',
  class: null,
  calibrationId: 3,
  certificateNumber: 'K-17',
  calibratedOn: '2025-01-31',
  dueOn: '2026-01-31',
  verifiedRange: { from: '20 kN', to: '100 kN' },
  state: 'valid',
};
const kept = (over: Partial<PullInstruments> = {}): PullInstruments => ({
  used: [CHANNEL],
  factors: 'set',
  concerns: [],
  confirmed: 'nothing-to-confirm',
  ...over,
});
const doubts = (instruments: PullInstruments | null, maximumForce = 50_000, calibrationAskedFor = false) =>
  doubtsOfInstruments({ instruments, maximumForce, calibrationAskedFor });

describe('the instruments of a pull', () => {
  it('raise nothing where the calibration covers the day and the force', () => {
    expect(doubts(kept())).toEqual([]);
  });

  it('make it questionable where a calibration was overdue, with instrument, certificate and due date', () => {
    const overdue = kept({
      used: [{ ...CHANNEL, state: 'overdue' }],
      concerns: [{ code: 'calibration-overdue', instrumentId: 1 }],
      confirmed: 'person',
    });
    expect(doubts(overdue)).toEqual([
      {
        code: 'calibration-overdue',
        detail: 'force channel LC-20, no. 4711, certificate K-17, due 2026-01-31',
      },
    ]);
  });

  it('make it questionable where one was named that has no calibration, not where none was named', () => {
    const none = { ...CHANNEL, state: 'none', calibrationId: null, verifiedRange: null } as const;
    const concerns = [{ code: 'no-calibration', instrumentId: 1 }] as const;
    expect(doubts(kept({ used: [none], concerns: [...concerns] }))).toMatchObject([
      { code: 'calibration-unknown' },
    ]);
    const unnamed = kept({
      used: [],
      concerns: [{ code: 'force-instrument-not-named', instrumentId: null }],
    });
    expect(doubts(unnamed)).toEqual([]);
    expect(doubts(null)).toEqual([]);
  });

  it('of a pull that names none are missed where the rules ask for a calibration', () => {
    expect(doubts(null, 1, true)).toMatchObject([{ code: 'calibration-unknown' }]);
    expect(doubts(kept(), 50_000, true)).toEqual([]);
  });

  // ASTM E8/E8M-16a 5.1: forces used for the results lie inside the verified range.
  it.each([
    [20_000, 0],
    [100_000, 0],
    [19_999.99, 1],
    [100_000.01, 1],
  ])('with a maximum of %d N raise %d doubts about the verified range from 20 to 100 kN', (force, count) => {
    expect(doubts(kept(), force).filter(({ code }) => code === 'force-outside-verified-range')).toHaveLength(
      count,
    );
  });
});

describe('a rule pack', () => {
  const [pack] = builtInPacks();
  it('may ask for a calibration, by saying so', () => {
    const asking = readRulePack({ ...pack?.file, asksForCalibration: true });
    expect(asking.ok && asking.pack.file.asksForCalibration).toBe(true);
    expect(readRulePack({ ...pack?.file, asksForCalibration: 'yes' }).ok).toBe(false);
  });

  it('of the program asks for none: the codes at hand leave it to the test method', () => {
    expect(builtInPacks().filter(({ file }) => file.asksForCalibration === true)).toEqual([]);
  });
});
