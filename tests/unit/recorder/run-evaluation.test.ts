/** A task that can't be copied into the thread ends the thread: it would hold the process open until the time limit. */
import { EventEmitter } from 'node:events';
import { expect, it, vi } from 'vitest';
import type { EvaluationTask } from '../../../electron/recorder/evaluation-thread.ts';
import { runEvaluation } from '../../../electron/recorder/run-evaluation.ts';

const ended = vi.hoisted(() => vi.fn());
vi.mock('node:worker_threads', () => ({
  Worker: class extends EventEmitter {
    postMessage(task: unknown): void {
      structuredClone(task);
    }
    terminate = ended;
  },
}));

it('ends the thread where the task can not be handed to it', async () => {
  const task = { curve: () => 0 } as unknown as EvaluationTask;
  await expect(runEvaluation(task)).rejects.toThrow(/could not be cloned/);
  expect(ended).toHaveBeenCalledOnce();
});
