/** A client waits for work on a whole archive as long as it is told that it goes on, for the end of a long record, and not for ever. */
import { type Socket, createServer } from 'node:net';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, it, onTestFinished, vi } from 'vitest';
import { RECORDER_ANSWER_MS_MAX, RECORDER_LONG_ANSWER_MS_MAX } from '../../../core/limits.ts';
import { type RecorderClient, connectToRecorder } from '../../../electron/recorder/client.ts';
import { type Message, encodeMessage } from '../../../electron/recorder/message-frame.ts';
import { socketPlace } from '../../../electron/recorder/socket-place.ts';
import { scratchFolder } from '../archive/made-archive.ts';

afterEach(() => {
  vi.useRealTimers();
});

/** A far end that says only what the test has it say. */
async function playedRecorder(): Promise<{
  readonly client: RecorderClient;
  readonly say: (message: Message) => void;
}> {
  const archive = join(scratchFolder(), 'a.gaugemark');
  const { path, folder } = socketPlace(archive);
  if (folder !== null) mkdirSync(folder, { recursive: true, mode: 0o700 });
  let socket: Socket | null = null;
  const server = createServer((one) => {
    socket = one;
    one.resume();
  });
  await new Promise<void>((done) => server.listen(path, done));
  const client = await connectToRecorder(archive);
  if (client === null) throw new Error('nobody listens');
  onTestFinished(() => {
    client.close();
    server.close();
  });
  return {
    client,
    say: (message) => socket?.write(encodeMessage(message)),
  };
}

const NEARLY = RECORDER_LONG_ANSWER_MS_MAX - 1_000;

it('a check that tells how far it is is not given up, however long it takes; one that is silent is', async () => {
  const { client, say } = await playedRecorder();
  // Sockets go on by themselves.
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
  let heard: () => void = () => undefined;
  client.onEvent(() => heard());
  const answer = client.request('archive.check', {});
  let isSettled = false;
  void answer.then(() => (isSettled = true));
  for (let done = 1; done <= 3; done++) {
    vi.advanceTimersByTime(NEARLY);
    const told = new Promise<void>((settle) => (heard = settle));
    say({ head: { kind: 'event', name: 'exchange-progress' }, body: { work: 'check', done, of: 9 } });
    await told;
  }
  expect(isSettled).toBe(false);
  vi.advanceTimersByTime(RECORDER_LONG_ANSWER_MS_MAX);
  expect(await answer).toMatchObject({ ok: false, fault: { code: 'recorder-silent' } });
});

it.each(['pull.close', 'pull.put-away', 'readout.close'] as const)(
  'the end of a long record is waited for (%s), the state is not',
  async (name) => {
    const { client } = await playedRecorder();
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const ended = client.request(name, {});
    let isSettled = false;
    void ended.then(() => (isSettled = true));
    const state = client.request('session.get', {});
    vi.advanceTimersByTime(RECORDER_ANSWER_MS_MAX);
    expect(await state).toMatchObject({ ok: false, fault: { code: 'recorder-silent' } });
    expect(isSettled).toBe(false);
    vi.advanceTimersByTime(RECORDER_LONG_ANSWER_MS_MAX);
    expect(await ended).toMatchObject({ ok: false, fault: { code: 'recorder-silent' } });
  },
);
