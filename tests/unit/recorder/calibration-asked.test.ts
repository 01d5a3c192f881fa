/** What speaks against the calibration is told before a pull begins; where somebody can be asked, it begins only once it is known. */
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import type { Answer, ReplyOf, RequestInputOf, RequestName } from '../../../core/contract/index.ts';
import type { Transport } from '../../../drivers/transport.ts';
import { Recorder } from '../../../electron/recorder/recorder.ts';
import { answerRequest } from '../../../electron/recorder/requests.ts';
import { PROFILE, SPECIMEN, scratchFolder } from '../archive/made-archive.ts';

const RULES = { trigger: { kind: 'by-hand' }, breakRule: { kind: 'by-hand' }, tailS: null } as const;
const READOUT = { source: { kind: 'serial', path: '/dev/ttyTEST' }, profile: PROFILE } as const;

type Ask = <N extends RequestName>(name: N, request: RequestInputOf<N>) => Promise<Answer<ReplyOf<N>>>;

const silentSource = (): Transport => ({
  kind: 'serial',
  place: 'a silent source',
  open: () => Promise.resolve(),
  write: () => Promise.resolve(),
  close: () => Promise.resolve(),
});

async function recorderHere(): Promise<{ ask: Ask; specimenId: number }> {
  const recorder = new Recorder({
    archivePath: join(scratchFolder(), 'a.gaugemark'),
    programVersion: '9.9.9',
    makeFolder: false,
    resume: true,
    makeTransport: silentSource,
    log: () => undefined,
  });
  onTestFinished(() => recorder.end());
  await recorder.begin();
  const ask: Ask = (name, request) => answerRequest(recorder, name, request);
  const { specimenId } = valueOf(await ask('specimen.save', { specimen: SPECIMEN }));
  return { ask, specimenId };
}

function valueOf<T>(answer: Answer<T>): T {
  if (!answer.ok) throw new Error(answer.fault.sentence);
  return answer.value;
}

async function overdueChannel(ask: Ask): Promise<number> {
  const { instrumentId } = valueOf(
    await ask('instrument.save', { form: { kind: 'force-channel', name: 'LC-20' } }),
  );
  const form = { certificateNumber: 'K-17', calibratedOn: '2024-01-31', dueOn: '2025-01-31' };
  valueOf(await ask('instrument.calibrate', { instrumentId, form }));
  return instrumentId;
}

it('refuses the start with its sentence, begins nothing, and begins once it is said to be known', async () => {
  const { ask, specimenId } = await recorderHere();
  const instrumentId = await overdueChannel(ask);
  const order = { specimenId, ...READOUT, ...RULES, instruments: [instrumentId], operator: 'OP2' };
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
  const { ask, specimenId } = await recorderHere();
  const instrumentId = await overdueChannel(ask);
  const known = [{ code: 'calibration-overdue', instrumentId: instrumentId + 1 } as const];
  const order = { specimenId, ...READOUT, ...RULES, instruments: [instrumentId], known };
  expect(await ask('pull.ready', order)).toMatchObject({ ok: false, fault: { code: 'calibration-asked' } });
});

it('where nobody can be asked the pull begins and is marked so', async () => {
  const { ask, specimenId } = await recorderHere();
  const { pullId } = valueOf(await ask('pull.ready', { specimenId, ...READOUT, ...RULES }));
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
  const { ask, specimenId } = await recorderHere();
  const first = await overdueChannel(ask);
  const { instrumentId } = valueOf(
    await ask('instrument.save', { form: { kind: 'force-channel', name: 'LC-21' } }),
  );
  const order = { specimenId, ...READOUT, ...RULES, instruments: [first, instrumentId] };
  expect(await ask('pull.ready', order)).toMatchObject({ ok: false, fault: { code: 'instruments-twice' } });
  expect(valueOf(await ask('session.get', {})).state).toBe('closed');
});
