/** What clients can do to the recorder's socket must not end the record that is open. */
import { Server } from 'node:net';
import { join } from 'node:path';
import { expect, it, onTestFinished, vi } from 'vitest';
import { MESSAGE_BYTES_MAX } from '../../../core/limits.ts';
import { connectToRecorder } from '../../../electron/recorder/client.ts';
import { RecorderServer } from '../../../electron/recorder/server.ts';
import { scratchFolder } from '../archive/made-archive.ts';
import { BY_HAND, TEST_PORT, begunRecorder } from './begun-recorder.ts';
import { loadProfile } from './played-readout.ts';

it('an answer too long for a message is refused, a client that can not be let in is noted; both leave the record and others alone', async () => {
  const archivePath = join(scratchFolder(), 'a.gaugemark');
  const { recorder, ask, send, specimenId } = await begunRecorder({ archivePath });
  const listened = vi.spyOn(Server.prototype, 'listen');
  onTestFinished(() => listened.mockRestore());
  const server = new RecorderServer(recorder, { onClientCount: () => undefined });
  await server.listen(archivePath);
  onTestFinished(() => server.close());
  const client = await connectToRecorder(archivePath);
  if (client === null) throw new Error('nobody listens');
  onTestFinished(() => client.close());
  await ask('readout.open', { source: TEST_PORT, profile: loadProfile() });
  const { pullId } = await ask('pull.ready', { specimenId, ...BY_HAND });
  send('0.0', '1.0');

  const bytes = Buffer.alloc(MESSAGE_BYTES_MAX);
  const call = vi
    .spyOn(recorder.archive, 'call')
    .mockImplementation(((name: string) =>
      Promise.resolve(
        name === 'readRaw' ? { total: 1, chunks: [{ opening: 0, elapsedUs: 0, bytes }] } : { second: null },
      )) as never);
  const raw = await client.request('pull.raw', { pullId, fromChunk: 0, count: 1 });
  call.mockRestore();
  expect(raw).toMatchObject({
    ok: false,
    fault: {
      code: 'answer-too-long',
      sentence: expect.stringContaining('"pull.raw" is longer than the 64 MiB') as string,
    },
  });

  const socketServer = listened.mock.contexts[0] as Server;
  const noHandle = Object.assign(new Error('accept EMFILE'), { code: 'EMFILE' });
  // The first may be heard by whoever waited for the listening; any other would be heard by nobody.
  for (let i = 0; i < 3; i++) socketServer.emit('error', noHandle);

  send('2.0');
  await ask('pull.close', {});
  const answer = await client.request('pull.readings', { pullId, fromSeq: 0, count: 10 });
  expect(answer.ok && [...(answer.value.columns.channels[0]?.value ?? [])]).toEqual([1, 2]);
});
