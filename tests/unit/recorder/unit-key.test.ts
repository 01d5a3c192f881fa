/** A unit key pressed on the readout in mid-pull stands in the record as a mark, and the peak is the largest load, not the largest number (N1). */
import { expect, it } from 'vitest';
import type { ReadoutProfileFile } from '../../../core/contract/readout-profile.ts';
import { BY_HAND, TEST_PORT, begunRecorder } from './begun-recorder.ts';

const PROFILE: ReadoutProfileFile = {
  schema: 'gaugemark.readout-profile/1',
  name: 'with a unit key',
  format: { kind: 'delimited', delimiter: ';', fields: ['load'] },
  channels: [{ field: 'load', quantity: 'force', unit: { kind: 'in-line', expected: 'kN' } }],
};

it('is marked where it changes and where it changes back, and mixes no maxima, live or kept', async () => {
  const { ask, specimenId, send } = await begunRecorder();
  const { pullId } = await ask('pull.ready', {
    specimenId,
    source: TEST_PORT,
    profile: PROFILE,
    ...BY_HAND,
  });
  // 360 lbf are 1601 N (NIST SP 811, appendix B): a large number, and less than 1.70 kN.
  send('x', '1.50 kN', '1.60 kN', '360 lbf', '361 lbf', '1.70 kN', '1.65 kN');
  expect((await ask('session.get', {})).pull?.peak?.forceN).toBe(1700);
  await ask('pull.close', {});
  const { marks } = await ask('pull.get', { pullId });
  expect(marks.filter(({ kind }) => kind === 'unit-changed').map(({ seq, words }) => [seq, words])).toEqual([
    [2, 'the readout changed its units: load in lbf'],
    [4, 'the readout changed its units: load in kN'],
  ]);
  expect((await ask('pull.list', { limit: 1 })).items[0]?.peakForceN).toBe(1700);
});
