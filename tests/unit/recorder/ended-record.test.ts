/** A record that has ended is whole for whoever asks, also in the moments in which its end is still being written. */
import { expect, it } from 'vitest';
import { PROFILE } from '../archive/made-archive.ts';
import { BY_HAND, TEST_PORT, begunRecorder } from './begun-recorder.ts';

it('is ended and complete even when its readout is closed at once', async () => {
  const { recorder, ask, specimenId } = await begunRecorder();
  await ask('readout.open', { source: TEST_PORT, profile: PROFILE });
  const { pullId } = await ask('pull.ready', { specimenId, ...BY_HAND });
  // A commit is under way when the record ends, so its end is written behind that one, and nobody waits for it.
  const starting = ask('pull.start', {});
  const closing = ask('pull.close', {});
  await ask('readout.close', {});
  expect(recorder.recording).toBeNull();
  expect((await ask('pull.get', { pullId })).state).toBe('ended');
  expect(await closing).toEqual({ state: 'ended' });
  await starting;
});
