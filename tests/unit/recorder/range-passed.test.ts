/** A load or an extension beyond the range of a named instrument is an alarm and stands in the record; nothing is left out for it. */
import { afterEach, expect, it } from 'vitest';
import type { ReadoutProfileFile } from '../../../core/contract/readout-profile.ts';
import { RangeWatch, rangeLimits, rangeSentence } from '../../../electron/recorder/range-watch.ts';
import { changeView } from '../../../renderer/store/view-settings.ts';
import { told } from '../../../renderer/words/told.ts';
import { BY_HAND, TEST_PORT, begunRecorder } from './begun-recorder.ts';

const PROFILE: ReadoutProfileFile = {
  schema: 'gaugemark.readout-profile/1',
  name: 'frame',
  format: { kind: 'delimited', delimiter: ';', fields: ['load', 'extension'] },
  channels: [
    { field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'kN' } },
    { field: 'extension', quantity: 'extension', unit: { kind: 'fixed', unit: 'mm' } },
  ],
};
const CELL = { kind: 'force-channel', name: 'LC-20', range: { from: '0', to: '20 kN' } } as const;
const CLIP = { kind: 'extensometer', name: 'clip 50', range: { from: '0', to: '0.1 in' } } as const;

afterEach(() => changeView({ language: 'en' }));

/** A recorder with both instruments named, and what it is sent. */
async function pulling() {
  const { ask, specimenId, send } = await begunRecorder();
  const instruments = [];
  for (const form of [CELL, CLIP]) instruments.push((await ask('instrument.save', { form })).instrumentId);
  const { pullId } = await ask('pull.ready', {
    specimenId,
    source: TEST_PORT,
    profile: PROFILE,
    instruments,
    ...BY_HAND,
  });
  const alarms = async () =>
    (await ask('session.get', {})).notices
      .filter(({ code }) => code.endsWith('-beyond-range'))
      .map(({ code }) => code);
  return { ask, pullId, alarms, send };
}

it('is an alarm and an act of the record, once for each instrument; every reading is kept', async () => {
  const { ask, pullId, alarms, send } = await pulling();
  // The end of the range still belongs to it, and one garbled reading is no load.
  send('x', '0;0', '20;2.54', '20;2.54', '99999;0.5', '19;0.5');
  expect(await alarms()).toEqual([]);
  send('20.01;0.5', '20.02;0.5', '21;0.5');
  expect(await alarms()).toEqual(['load-beyond-range']);
  // 0.1 in is 2.54 mm (NIST SP 811, appendix B).
  send('5;2.541', '5;2.542');
  expect(await alarms()).toEqual(['load-beyond-range', 'extension-beyond-range']);
  await ask('pull.close', {});
  const { acts, readingCount } = await ask('pull.get', { pullId });
  expect(acts.filter(({ kind }) => kind === 'range-passed').map(({ words }) => words)).toEqual([
    expect.stringMatching(/^The load has passed the range of the force channel LC-20, which ends at 20 kN;/),
    expect.stringMatching(/^The extension has passed .* extensometer clip 50, which ends at 0\.1 in;/),
  ]);
  expect(readingCount).toBe(10);
  await ask('pull.put-away', {});
  expect(await alarms()).toEqual([]);
});

it('has no limit where an instrument has no range, and a reading without a value passes none', () => {
  expect(rangeLimits([{ kind: 'frame', name: 'A' }])).toEqual([]);
  const watch = new RangeWatch(rangeLimits([CELL]));
  expect([30_000, Number.NaN, 30_000, Number.NaN].flatMap((load) => watch.passed(load, 0))).toEqual([]);
});

it('is told in Spanish too', () => {
  changeView({ language: 'es' });
  const frame = { ...CELL, kind: 'frame' } as const;
  for (const limit of rangeLimits([CELL, frame, CLIP]))
    expect(told(rangeSentence(limit))).toMatch(/ha rebasado el alcance de.*; atienda a la máquina\./);
});
