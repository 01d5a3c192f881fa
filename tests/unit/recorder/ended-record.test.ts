/** A record that has ended is whole for whoever asks, also in the moments in which its end is still being written. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import type { ReplyOf, RequestInputOf, RequestName } from '../../../core/contract/index.ts';
import { Recorder } from '../../../electron/recorder/recorder.ts';
import { answerRequest } from '../../../electron/recorder/requests.ts';
import type { Transport } from '../../../drivers/transport.ts';
import { PROFILE, SPECIMEN } from '../archive/made-archive.ts';

/** A source that is open and says nothing. */
const silentSource: Transport = {
  kind: 'serial',
  place: 'a source that is silent',
  open: () => Promise.resolve(),
  write: () => Promise.resolve(),
  close: () => Promise.resolve(),
};

it('is ended and complete even when its readout is closed at once', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-ended-'));
  const recorder = new Recorder({
    archivePath: join(folder, 'a.gaugemark'),
    programVersion: '9.9.9',
    makeFolder: false,
    resume: true,
    makeTransport: () => silentSource,
    log: () => undefined,
  });
  onTestFinished(async () => {
    await recorder.end();
    rmSync(folder, { recursive: true, force: true });
  });
  await recorder.begin();
  const ask = async <N extends RequestName>(name: N, request: RequestInputOf<N>): Promise<ReplyOf<N>> => {
    const answer = await answerRequest(recorder, name, request);
    if (!answer.ok) throw new Error(answer.fault.sentence);
    return answer.value;
  };
  const { specimenId } = await ask('specimen.save', { specimen: SPECIMEN });
  await ask('readout.open', { source: { kind: 'serial', path: '/dev/ttyTEST' }, profile: PROFILE });
  const { pullId } = await ask('pull.ready', {
    specimenId,
    trigger: { kind: 'by-hand' },
    breakRule: { kind: 'by-hand' },
    tailS: null,
  });
  // A commit is under way when the record ends, so its end is written behind that one, and nobody waits for it.
  const starting = ask('pull.start', {});
  const closing = ask('pull.close', {});
  await ask('readout.close', {});
  expect(recorder.recording).toBeNull();
  expect((await ask('pull.get', { pullId })).state).toBe('ended');
  expect(await closing).toEqual({ state: 'ended' });
  await starting;
});
