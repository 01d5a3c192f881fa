/** Instruments, their calibrations, and what a pull must know of them before it starts. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CalibrationForm,
  calibrationFaults,
  calibrationForm,
  calibrationOn,
  calibrationState,
  correctionPoints,
} from '../../../core/instruments/calibration.ts';
import { instrumentFacts } from '../../../core/instruments/instrument-facts.ts';
import { instrumentForm, rangeInCore } from '../../../core/instruments/instrument.ts';
import {
  type ChosenInstrument,
  concernSentence,
  instrumentsBeforeStart,
  pullInstruments,
} from '../../../core/instruments/pull-instruments.ts';
import { toNumber } from '../../../core/quantity/exact.ts';
import { SPANISH_PAPER } from '../../../core/words/es/spanish-paper.ts';
import { checkedCalibration } from '../../../renderer/instruments/calibration-fields.tsx';
import { PROFILE } from '../archive/made-archive.ts';

const CALIBRATION: CalibrationForm = {
  certificateNumber: 'K-2026-017',
  calibratedOn: '2026-01-31',
  dueOn: '2027-01-31',
};
const chosen = (
  instrumentId: number,
  form: ChosenInstrument['form'],
  ...calibrations: CalibrationForm[]
): ChosenInstrument => ({
  instrumentId,
  form,
  calibrations: calibrations.map((one, place) => ({ calibrationId: 10 * instrumentId + place, form: one })),
});
const FRAME = { kind: 'frame', name: 'Frame A' } as const;
const CHANNEL = { kind: 'force-channel', name: 'LC-20', serialNumber: '4711' } as const;
const CLIP = { kind: 'extensometer', name: 'clip 50' } as const;
const before = (over: Partial<Parameters<typeof instrumentsBeforeStart>[0]> = {}) =>
  instrumentsBeforeStart({
    chosen: [],
    on: '2026-03-04',
    source: { kind: 'serial', path: '/dev/ttyX' },
    profile: PROFILE,
    ...over,
  });
const codes = (over: Parameters<typeof before>[0]) => before(over).concerns.map(({ code }) => code);

describe('an instrument', () => {
  it('has a range in the unit of what it measures, as on its plate; a zero needs no unit', () => {
    const form = instrumentForm.parse({
      ...CHANNEL,
      range: { from: '0', to: '200 kN' },
      resolution: '0.01 kN',
    });
    expect(toNumber(rangeInCore(form.range ?? { from: '', to: '' }, 'force').to)).toBe(200_000);
    const fault = (over: object) =>
      instrumentForm.safeParse({ ...CHANNEL, ...over }).error?.issues[0]?.message;
    expect(fault({ range: { from: '0', to: '200' } })).toContain('has no unit');
    expect(fault({ range: { from: '0', to: '20 mm' } })).toContain('a force is needed');
    expect(fault({ range: { from: '5 kN', to: '5000 N' } })).toContain('does not lie above');
    expect(fault({ resolution: '0 kN' })).toContain('not greater than zero');
  });
});

describe('a calibration', () => {
  it('counts up to and with its due date, the newest of those made until the day', () => {
    const next = {
      ...CALIBRATION,
      certificateNumber: 'K-2027-004',
      calibratedOn: '2027-01-20',
      dueOn: '2028-01-20',
    };
    const on = (day: string) => calibrationOn([next, CALIBRATION], day);
    expect(on('2026-01-30')).toBeNull();
    expect(on('2026-12-01')?.certificateNumber).toBe('K-2026-017');
    expect(on('2027-01-20')?.certificateNumber).toBe('K-2027-004');
    expect(
      ['2026-01-31', '2027-01-31', '2027-02-01'].map((day) => calibrationState(CALIBRATION, day)),
    ).toEqual(['valid', 'valid', 'overdue']);
    expect(calibrationState(null, '2026-01-01')).toBe('none');
  });

  it('is due on a day after it', () => {
    expect(
      calibrationForm.safeParse({ ...CALIBRATION, dueOn: '2026-01-31' }).error?.issues[0]?.message,
    ).toContain('after the day');
  });

  it('carries a table that grows, and gives it exactly in N or mm', () => {
    const correction = {
      unit: 'lbf',
      points: [
        { shown: '0', actual: '0' },
        { shown: '1000', actual: '1002.5' },
      ],
    };
    const form = calibrationForm.parse({ ...CALIBRATION, correction });
    // 1 lbf is 4.448 221 615 260 5 N (NIST SP 811, appendix B).
    expect(correctionPoints(form.correction ?? { unit: 'N', points: [] })[1]).toEqual({
      shown: 4448.2216152605,
      actual: 4459.342169298651,
    });
    const reversed = { ...correction, points: [...correction.points].reverse() };
    expect(calibrationForm.safeParse({ ...CALIBRATION, correction: reversed }).success).toBe(false);
    expect(calibrationFaults('extensometer', form)[0]?.sentence).toContain('lbf is no unit of length');
  });
});

describe('before the start', () => {
  it('a force channel with its calibration raises no concern; on the day after its due date it is overdue', () => {
    const with1 = { chosen: [chosen(1, CHANNEL, CALIBRATION)] };
    expect(before(with1)).toMatchObject({
      factors: 'set',
      concerns: [],
      used: [{ state: 'valid', dueOn: '2027-01-31' }],
    });
    const late = before({ ...with1, on: '2027-02-01' });
    expect(late.concerns).toEqual([{ code: 'calibration-overdue', instrumentId: 1 }]);
    expect(late.concerns.map((one) => concernSentence(one, late.used))).toEqual([
      'The calibration of the force channel LC-20, no. 4711 was due on 2027-01-31 and is overdue (certificate K-2026-017).',
    ]);
  });

  it('one certificate speaks for the whole force-measuring system, whether it is the frame’s or the channel’s', () => {
    expect(codes({ chosen: [chosen(1, FRAME, CALIBRATION), chosen(2, CHANNEL)] })).toEqual([]);
    expect(codes({ chosen: [chosen(1, FRAME), chosen(2, CHANNEL, CALIBRATION)] })).toEqual([]);
    expect(codes({ chosen: [chosen(1, FRAME), chosen(2, CHANNEL)] })).toEqual([
      'no-calibration',
      'default-factors',
    ]);
  });

  it('an extensometer without one is told too, and does not hide behind the force', () => {
    expect(codes({ chosen: [chosen(1, CHANNEL, CALIBRATION), chosen(3, CLIP)] })).toEqual(['no-calibration']);
  });

  it('factors that nobody has touched are told, unless a scale is set or the force is calibrated (N10)', () => {
    expect(codes({})).toEqual(['force-instrument-not-named', 'default-factors']);
    const [force, ...others] = PROFILE.channels;
    if (force === undefined) throw new Error('the profile has a force');
    const profile = { ...PROFILE, channels: [{ ...force, scale: '1.0025' }, ...others] };
    expect(codes({ profile })).toEqual(['force-instrument-not-named']);
    // A scale of the extension is no scale of the force.
    const other = { ...PROFILE, channels: [force, ...others.map((one) => ({ ...one, scale: '2' }))] };
    expect(before({ profile: other }).factors).toBe('default');
  });

  it('has its class in the language of the paper where a worksheet gave it; one that was typed stays', () => {
    const worksheet = {
      unit: 'kN',
      resolution: '0.01',
      reference: 'proving ring',
      zeros: ['0'],
      steps: ['20', '40', '60', '80', '100'].map((applied) => ({ applied, indicated: [applied] })),
    };
    // The typed one reads as the program's own.
    const typed = { ...CALIBRATION, class: 'class 1 (ISO 7500-1)' };
    const worked = calibrationForm.parse({ ...typed, worksheet });
    const onPaper = (form: ChosenInstrument['form'], ...calibrations: CalibrationForm[]) => {
      const its = {
        ...before({ chosen: [chosen(1, form, ...calibrations)] }),
        confirmed: 'nothing-to-confirm',
      };
      return instrumentFacts(pullInstruments.parse(its), SPANISH_PAPER)[0]?.value;
    };
    expect(onPaper(FRAME, worked)).toBe('Frame A, clase 1 (ISO 7500-1)');
    expect(onPaper(FRAME, typed)).toBe('Frame A, class 1 (ISO 7500-1)');
    expect(onPaper({ ...FRAME, class: 'class 1 (ISO 7500-1)' })).toBe('Frame A, class 1 (ISO 7500-1)');
  });

  it('the simulated frame and a replay need none', () => {
    expect(before({ source: { kind: 'simulated', scenario: 'x' } })).toEqual({
      used: [],
      factors: 'simulated',
      concerns: [],
    });
    expect(codes({ source: { kind: 'replay', file: 'x' }, chosen: [chosen(1, CLIP)] })).toEqual([]);
  });

  it('is never valid after its due date, whatever else is on record', () => {
    const days = fc
      .integer({ min: 0, max: 3000 })
      .map((n) => new Date(Date.UTC(2020, 0, 1 + n)).toISOString().slice(0, 10));
    fc.assert(
      fc.property(fc.array(fc.tuple(days, days), { maxLength: 6 }), days, (pairs, on) => {
        const calibrations = pairs.map(([calibratedOn, dueOn]) => ({ ...CALIBRATION, calibratedOn, dueOn }));
        const [used] = before({ chosen: [chosen(1, CHANNEL, ...calibrations)], on }).used;
        expect(used?.state === 'valid').toBe(
          (used?.dueOn ?? null) !== null && on <= (used?.dueOn ?? '') && (used?.calibratedOn ?? '') <= on,
        );
      }),
    );
  });
});

it('says of a field of the form that was left blank that it is empty, not how a file would be written', () => {
  const blank = { certificateNumber: '', calibratedOn: '', dueOn: '', by: '' };
  const checked = checkedCalibration(blank, {});
  if (checked.ok) throw new Error('nothing was filled in');
  expect([...checked.faults]).toEqual([
    ['certificateNumber', 'this is empty; fill it in.'],
    ['calibratedOn', 'this is empty; fill it in.'],
    ['dueOn', 'this is empty; fill it in.'],
  ]);
});

it('takes the days of a calibration as they are typed elsewhere, and guesses none', () => {
  const typed = { certificateNumber: 'K-1', calibratedOn: '2026/1/31', dueOn: '20270131', by: '' };
  expect(checkedCalibration(typed, {})).toMatchObject({
    ok: true,
    form: { calibratedOn: '2026-01-31', dueOn: '2027-01-31' },
  });
  const wrong = checkedCalibration({ ...typed, calibratedOn: '2026-01-31 10:30', dueOn: '31.1.2027' }, {});
  expect(wrong.ok ? [] : [...wrong.faults.keys()]).toEqual(['calibratedOn', 'dueOn']);
});
