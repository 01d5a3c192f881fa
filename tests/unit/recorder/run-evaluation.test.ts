/** A task that can't be copied into the thread ends the thread: it would hold the process open until the time limit. */
import { Worker } from 'node:worker_threads';
import { expect, it, onTestFinished, vi } from 'vitest';
import type { EvaluationTask } from '../../../electron/recorder/evaluation-thread.ts';
import { runEvaluation } from '../../../electron/recorder/run-evaluation.ts';

it('ends the thread where the task can not be handed to it', async () => {
  const ended = vi.spyOn(Worker.prototype, 'terminate');
  onTestFinished(() => ended.mockRestore());
  const task = { curve: () => 0 } as unknown as EvaluationTask;
  await expect(runEvaluation(task)).rejects.toThrow(/could not be cloned/);
  expect(ended).toHaveBeenCalled();
});
