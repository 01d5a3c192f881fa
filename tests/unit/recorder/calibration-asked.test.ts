/** What speaks against the calibration is told before a pull begins; where somebody can be asked, it begins only once it is known. */
import { expect, it } from 'vitest';
import type { Answer } from '../../../core/contract/index.ts';
import { PROFILE } from '../archive/made-archive.ts';
import { type BegunRecorder, BY_HAND, TEST_PORT, begunRecorder } from './begun-recorder.ts';

const READOUT = { source: TEST_PORT, profile: PROFILE } as const;

function valueOf<T>(answer: Answer<T>): T {
  if (!answer.ok) throw new Error(answer.fault.sentence);
  return answer.value;
}

async function overdueChannel(ask: BegunRecorder['answered']): Promise<number> {
  const { instrumentId } = valueOf(
    await ask('instrument.save', { form: { kind: 'force-channel', name: 'LC-20' } }),
  );
  const form = { certificateNumber: 'K-17', calibratedOn: '2024-01-31', dueOn: '2025-01-31' };
  valueOf(await ask('instrument.calibrate', { instrumentId, form }));
  return instrumentId;
}

it('refuses the start with its sentence, begins nothing, and begins once it is said to be known', async () => {
  const { answered: ask, specimenId } = await begunRecorder();
  const instrumentId = await overdueChannel(ask);
  const order = { specimenId, ...READOUT, ...BY_HAND, instruments: [instrumentId], operator: 'OP2' };
  const refused = await ask('pull.ready', { ...order, known: [] });
  expect(refused).toMatchObject({ ok: false, fault: { code: 'calibration-asked', field: 'known' } });
  expect(refused.ok ? '' : refused.fault.sentence).toContain('LC-20 was due on 2025-01-31 and is overdue');
  expect(valueOf(await ask('pull.list', { limit: 10 })).items).toEqual([]);
  // A readout that was opened for it is let go of again.
  expect(valueOf(await ask('session.get', {})).state).toBe('closed');

  const { concerns } = valueOf(
    await ask('instrument.before-start', { instruments: [instrumentId], ...READOUT }),
  );
  const { pullId } = valueOf(await ask('pull.ready', { ...order, known: concerns }));
  valueOf(await ask('pull.close', {}));
  const { instruments, acts } = valueOf(await ask('pull.get', { pullId }));
  expect(instruments).toMatchObject({ confirmed: 'person', used: [{ state: 'overdue' }] });
  expect(acts.filter(({ kind }) => kind === 'calibration-known')).toMatchObject([
    { by: 'OP2', words: expect.stringContaining('certificate K-17') as string },
  ]);
});

it('what was known of another instrument is not known of this one', async () => {
  const { answered: ask, specimenId } = await begunRecorder();
  const instrumentId = await overdueChannel(ask);
  const known = [{ code: 'calibration-overdue', instrumentId: instrumentId + 1 } as const];
  const order = { specimenId, ...READOUT, ...BY_HAND, instruments: [instrumentId], known };
  expect(await ask('pull.ready', order)).toMatchObject({ ok: false, fault: { code: 'calibration-asked' } });
});

it('where nobody can be asked the pull begins and is marked so', async () => {
  const { answered: ask, specimenId } = await begunRecorder();
  const { pullId } = valueOf(await ask('pull.ready', { specimenId, ...READOUT, ...BY_HAND }));
  valueOf(await ask('pull.close', {}));
  expect(valueOf(await ask('pull.get', { pullId })).instruments).toEqual({
    used: [],
    factors: 'default',
    concerns: [
      { code: 'force-instrument-not-named', instrumentId: null },
      { code: 'default-factors', instrumentId: null },
    ],
    confirmed: 'not-asked',
  });
});

it('two force channels at once are refused before anything is opened', async () => {
  const { answered: ask, specimenId } = await begunRecorder();
  const first = await overdueChannel(ask);
  const { instrumentId } = valueOf(
    await ask('instrument.save', { form: { kind: 'force-channel', name: 'LC-21' } }),
  );
  const order = { specimenId, ...READOUT, ...BY_HAND, instruments: [first, instrumentId] };
  expect(await ask('pull.ready', order)).toMatchObject({ ok: false, fault: { code: 'instruments-twice' } });
  expect(valueOf(await ask('session.get', {})).state).toBe('closed');
});
