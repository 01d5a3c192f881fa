/** One thing is learned from at a time: what is told is the state of one, and the other is refused with a way out. */
import { type AddressInfo, createServer } from 'node:net';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { LearningState } from '../../../core/contract/learn-requests.ts';
import { type ThreadTask, ThreadTimeUp } from '../../../electron/recorder/answer-of-thread.ts';
import { Learning } from '../../../electron/recorder/learning.ts';

/** Accepts and says nothing, so that it is listened to until somebody stops that. */
const silent = createServer();
beforeEach(() => new Promise<void>((listens) => silent.listen(0, '127.0.0.1', listens)));
afterEach(() => new Promise<void>((closed) => void silent.close(() => closed())));

function made(answer: (task: ThreadTask) => Promise<unknown>) {
  const told: LearningState[] = [];
  const onBug = vi.fn();
  const learning = new Learning({ tell: (state) => told.push(state), onBug, answer });
  const listen = () =>
    learning.begin({
      source: { kind: 'tcp', host: '127.0.0.1', port: (silent.address() as AddressInfo).port },
    });
  return { learning, told, onBug, listen };
}
const untilStopped = ({ signal }: ThreadTask): Promise<unknown> =>
  new Promise((_settle, fail) => signal?.addEventListener('abort', () => fail(signal.reason as Error)));

it('refuses a file while a port is listened to, and listens on', async () => {
  const { learning, listen } = made(() => Promise.reject(new Error('no file is read')));
  listen();
  await expect(learning.fromFile('/a/bench.bin')).rejects.toMatchObject({
    code: 'learning-from-port',
    message: expect.stringMatching(/^tcp:127.* is being listened to; .*stop that/) as string,
  });
  expect(learning.state).toMatchObject({ state: 'listening', source: { kind: 'tcp' } });
  await learning.stop();
  expect(learning.state?.state).toBe('stopped');
});

it('refuses port and second file while a file is learned from, until that is stopped', async () => {
  const { learning, told, onBug, listen } = made(untilStopped);
  const outcome = learning.fromFile('/a/bench.bin');
  expect(told).toMatchObject([{ state: 'listening', from: 'bench.bin', source: null }]);
  expect(listen).toThrow(/^bench\.bin is being learned from; .*stop that/);
  await expect(learning.fromFile('/a/other.bin')).rejects.toMatchObject({ code: 'learning-from-file' });
  // The readout's own opening ends what is listened to, not what is read.
  await learning.stop();
  expect(learning.state).toMatchObject({ state: 'listening', from: 'bench.bin' });
  learning.stopFile();
  expect(await outcome).toMatchObject({ state: 'stopped', from: 'bench.bin', proposal: null });
  expect(onBug).not.toHaveBeenCalled();
  listen();
  expect(learning.state).toMatchObject({ state: 'listening', source: { kind: 'tcp' }, proposal: null });
  await learning.stop();
});

it('tells a computer too slow for the file as that, and a fault in the program as that', async () => {
  const slow = made(() => Promise.reject(new ThreadTimeUp('the learn-thread took longer')));
  const { fault } = await slow.learning.fromFile('/a/bench.bin');
  expect(fault?.code).toBe('file-too-long-to-learn');
  expect(fault?.sentence).toMatch(/^bench\.bin could not be learned from within 50 seconds.*shorter file/);
  expect(slow.onBug).not.toHaveBeenCalled();

  const broken = made(() => Promise.reject(new Error('undefined is no function')));
  expect((await broken.learning.fromFile('/a/bench.bin')).fault?.code).toBe('program-fault');
  expect(broken.onBug).toHaveBeenCalledOnce();
});
