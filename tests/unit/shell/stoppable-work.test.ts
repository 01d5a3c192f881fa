import { expect, it } from 'vitest';
import { StoppableWork, StoppedByPerson, unlessStopped } from '../../../electron/print/stoppable-work.ts';

const never = (): Promise<never> => new Promise(() => undefined);

it('ends work that would go on for ever, also when it is stopped before it waits', async () => {
  const work = new StoppableWork();
  const ended = work.run((signal) => unlessStopped(signal, never()));
  work.stop();
  await expect(ended).rejects.toBeInstanceOf(StoppedByPerson);
  const late = work.run(async (signal) => {
    work.stop();
    await unlessStopped(signal, never());
  });
  await expect(late).rejects.toBeInstanceOf(StoppedByPerson);
});

it('leaves work alone that is not stopped, and what was begun after a stop', async () => {
  const work = new StoppableWork();
  expect(await work.run((signal) => unlessStopped(signal, Promise.resolve(3)))).toBe(3);
  work.stop();
  expect(await work.run((signal) => unlessStopped(signal, Promise.resolve(4)))).toBe(4);
});
